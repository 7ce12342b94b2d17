#pragma once
#include "ui/session/session.h"
#include <QMainWindow>
#include <memory>
#include <vector>

class QSplitter;
class QToolButton;

namespace slab {
struct MechanismWords;
}

namespace slab::ui {

class DocumentFile;
class DraftingView;
class Exporter;
class FindingsCard;
class LeftColumn;
class FitView;
class Notice;
class RideView;
class ScaleRuler;
class SideColumn;
class TopBar;
class TotalsCard;
class ViewFrame;

/// The window: top bar, tables on the left, three views, totals and punch list on the right, the rule under
/// them. The drawing board comes in their place, with the body in 3D beside it.
class MainWindow : public QMainWindow {
    Q_OBJECT
public:
    explicit MainWindow(QWidget* parent = nullptr);
    /// On a session made elsewhere (tests).
    explicit MainWindow(std::unique_ptr<Session> session, QWidget* parent = nullptr);
    ~MainWindow() override;

    /// Opens the file, else offers work left behind, else shows the first sample.
    void start(const QString& fileOrEmpty);
    [[nodiscard]] Session* session() const { return m_session.get(); }
    [[nodiscard]] DocumentFile* file() const { return m_file; }
    [[nodiscard]] ScaleRuler* ruler() const { return m_ruler; }
    [[nodiscard]] LeftColumn* tables() const { return m_left; }
    [[nodiscard]] FindingsCard* findings() const { return m_findings; }
    [[nodiscard]] Notice* notice() const { return m_notice; }
    /// @param index  0 Fit, 1 Panels, 2 Sheets, 3 drawing board with Fit beside it, 4 drawing board alone,
    ///               5 Ride with Fit beside it, 6 Ride alone; the same again brings all back; -1 = all
    void fill(int index);
    [[nodiscard]] DraftingView* board() const { return m_board; }
    [[nodiscard]] RideView* ride() const { return m_ride; }
    void newFromStart(); ///< asks which body to begin with
    /// Asks for a drawing, which outlines, and in which unit; they become forms on the board.
    void importOutlines();
    /// The same of a file that is known. @return false if it holds no outlines, which is told
    bool importOutlinesFrom(const QString& path);
    void showToSpare();                   ///< margins over the scale above the rule; again folds them away
    void showLikeness();                  ///< on the drawing board
    void openPlace(const QString& about); ///< of a finding that was clicked
    void choosePictureFile();             ///< asks for another file of the chosen picture
    /// A click in Fit, or on the board while that fills the window, puts it in.
    void takeMechanism(const MechanismWords& kind);
    void addPicture(); ///< asks for a file and lays it under the drawing board
    [[nodiscard]] int filled() const { return m_filled; }
    void setDark(bool dark);
    enum class Area { rule, tables, findings };
    void focusArea(Area area);
    void print(); ///< asks what, then where

protected:
    void closeEvent(QCloseEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void build();
    void buildViews();
    void buildFrames(QWidget* panels, QWidget* sheets);
    void showColumns();
    void explainGaps();
    static QSplitter* gaps(Qt::Orientation orientation, const QString& name);
    void wire();
    void arrange();
    void spread();      ///< the room between the columns and views, until the builder has dragged a gap
    void markStops();   ///< what the punch list says is told where it is folded away
    void listStops();   ///< the punch list as a menu, where it is out of sight
    void spreadBoard(); ///< and Ride: what has Fit beside it
    [[nodiscard]] bool boardShown() const { return m_filled == 3 || m_filled == 4; } ///< the board is shown
    [[nodiscard]] bool rideShown() const { return m_filled == 5 || m_filled == 6; }
    [[nodiscard]] bool besideFit() const { return m_filled == 3 || m_filled == 5; }
    void foldRuler();
    void refreshTitles();
    void offerRecovery();
    void showError(const Error& error);
    void restoreState();

    std::unique_ptr<Session> m_session;
    DocumentFile* m_file;
    Exporter* m_exporter;
    TopBar* m_top;
    Notice* m_notice;
    LeftColumn* m_left;
    SideColumn* m_right;
    TotalsCard* m_totals;
    FindingsCard* m_findings;
    ScaleRuler* m_ruler;
    DraftingView* m_board;
    FitView* m_fit;
    RideView* m_ride;
    QWidget* m_slot; ///< the board's and Ride's place before the views
    QSplitter *m_columns, *m_views, *m_flat;
    std::vector<ViewFrame*> m_frames;
    QToolButton* m_stops = nullptr; ///< "1 stop", over the board
    int m_filled = -1;
    QList<int> m_boardSpread, m_rideSpread, m_threeSpread; ///< of the views, as the builder left them
    bool m_ownSpread = false;                              ///< the gaps stand where the builder has put them
    QString m_toldWords;                                   ///< of the last error …
    std::optional<std::uint64_t> m_toldAt; ///< … that another change makes outdated, and when it was told
    std::uint64_t m_markedDocument = 0;    ///< that markStops() was last about
    bool m_hadStops = false, m_partByHand = false;
};

} // namespace slab::ui
