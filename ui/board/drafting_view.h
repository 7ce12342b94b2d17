#pragma once
#include "ui/board/board_desk.h"
#include "ui/board/board_prompt.h"
#include <QWidget>

class QLabel;

namespace slab::ui {

class BoardBar;
class BoardCanvas;
class CutStrip;
class DimensionStrip;
class DrawStrip;
class EdgeStrip;
class ElidedLabel;
class FieldStrip;
class LikenessCard;
class PictureStrip;
class ReadingStrip;
class StripRoom;
class WelcomeCard;

/// The drawing board as a view of the window: tools above, the drafting sheet, the figures of what is chosen,
/// and a line that tells where the pointer is and what to do next.
class DraftingView : public QWidget {
    Q_OBJECT
public:
    explicit DraftingView(Session* session, QWidget* parent = nullptr);
    ~DraftingView() override;
    [[nodiscard]] BoardDesk* desk() const { return m_desk; }
    [[nodiscard]] BoardCanvas* canvas() const { return m_canvas; }
    [[nodiscard]] BoardBar* bar() const { return m_bar; }
    [[nodiscard]] FieldStrip* fields() const { return m_fields; }
    [[nodiscard]] EdgeStrip* edgeStrip() const { return m_edge; }
    [[nodiscard]] DimensionStrip* dimensionStrip() const { return m_dimension; }
    [[nodiscard]] DrawStrip* drawStrip() const { return m_draw; }
    [[nodiscard]] PictureStrip* pictureStrip() const { return m_picture; }
    [[nodiscard]] CutStrip* cutStrip() const { return m_cut; }
    [[nodiscard]] ReadingStrip* readingStrip() const { return m_reading; }
    /// Adds a picture file under the view of the pointer, and chooses it. @return false if it cannot be read
    bool addPictureFile(const QString& path);
    /// Another file for the chosen picture, and for all of the same file. @return false if it cannot be read
    bool takePictureFile(const QString& path);
    /// Chooses a picture, so that its strip is there. @return false if there is none of that name
    bool choosePicture(const std::string& name);
    /// Plates against likeness, over the sheet's empty quarter.
    void showLikeness(bool on);
    [[nodiscard]] LikenessCard* likeness() const { return m_likeness; }
    /// "choose", "profile", "taper", "plate", "round", "facet", "dimension", "measure", "frame", "turntable",
    /// "trunnion", "linkage", "belt" (round chosen wheels that is put in at once).
    void take(const QString& tool);
    [[nodiscard]] StripRoom* stripRoom() const { return m_room; }
    /// Words on the board itself of what was done, or why it was not.
    void tell(const QString& words, bool fine = false);
    /// What the status line says: place and snap on the left, what to do on the right.
    [[nodiscard]] QString placeWords() const;
    [[nodiscard]] QString helpWords() const;

Q_SIGNALS:
    void startWanted(); ///< a body from a start
    void pictureWanted();
    void pictureFileWanted(); ///< another file for the chosen picture
    void outlinesWanted();

protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void build();
    void fillMenus();
    void refresh();
    void enter(const QString& typed);
    [[nodiscard]] bool takesFigures() const;
    void done();

    Session* m_session;
    BoardDesk* m_desk;
    BoardBar* m_bar;
    BoardCanvas* m_canvas;
    StripRoom* m_room; ///< one of the strips is shown in it
    QWidget* m_nothing;
    FieldStrip* m_fields;
    EdgeStrip* m_edge;
    DimensionStrip* m_dimension;
    DrawStrip* m_draw;
    PictureStrip* m_picture;
    CutStrip* m_cut;
    ReadingStrip* m_reading;
    QLabel* m_hint;
    ElidedLabel *m_place, *m_help;
    WelcomeCard* m_welcome;
    LikenessCard* m_likeness;
    BoardTold m_told; ///< what was said of the last deed, and when that was
    std::uint64_t m_toldAt = 0;
    BoardChoice m_toldChoice;
};

/// What the board shows when there is nothing on it yet: what to do next.
class WelcomeCard : public QWidget {
    Q_OBJECT
public:
    explicit WelcomeCard(QWidget* parent);

Q_SIGNALS:
    void startWanted();
    void profileWanted();
    void pictureWanted();

protected:
    void paintEvent(QPaintEvent* event) override;
};

} // namespace slab::ui
