#pragma once
#include "ui/ride/ride_paint.h"
#include <QWidget>
#include <memory>

class QHBoxLayout;
class QLabel;
class QSplitter;
class QStackedLayout;

namespace slab::ui {

class EmptyState;
class RideCanvas;
class RideList;

/// One question about the ride: a list of figures, and the drawing of what is chosen in it.
class RidePage : public QWidget {
    Q_OBJECT
public:
    RidePage(Session* session, const QString& name, const QString& says, QWidget* parent = nullptr);
    ~RidePage() override;
    [[nodiscard]] QString name() const { return m_name; }
    /// Shows the session's evaluation. @param shapes  of that evaluation
    void show(std::shared_ptr<const BodyShapes> shapes);
    void setTitled(bool titled); ///< where all pages are seen at once
    [[nodiscard]] RideList* list() const { return m_list; }
    [[nodiscard]] RideCanvas* canvas() const { return m_canvas; }
    [[nodiscard]] const EmptyState* emptyShown() const; ///< null while it shows something
    /// A part of the document was chosen elsewhere. @return whether it stands here
    bool reveal(const QString& part);
    virtual void step(int) {} ///< of what the drawing goes through
    virtual void offer() {}   ///< opens what can be added here
    virtual void discard() {} ///< takes the chosen entry out
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, 160}; }

protected:
    [[nodiscard]] Session* session() const { return m_session; }
    /// What it shows: the session's, or an older one while the newest lacks what it needs.
    [[nodiscard]] virtual const Evaluation& evaluation() const;
    /// What it shows is old: a word on that; empty = it is not.
    [[nodiscard]] virtual QString outdated() const { return {}; }
    [[nodiscard]] virtual RideRows rows() const = 0;
    virtual void draw(const RideDraw& draw) const = 0;
    /// The row that is drawn before anything is chosen; −1 = none.
    [[nodiscard]] virtual int favourite(const RideRows&) const { return -1; }
    virtual void refreshControls() {}
    /// What is shown in place of everything; null = nothing is lacking.
    [[nodiscard]] virtual EmptyState* lacking() const;
    EmptyState* addEmpty(const QString& words, const QString& button, std::function<void()> deed);
    [[nodiscard]] QHBoxLayout* strip() const { return m_strip; } ///< under the drawing
    [[nodiscard]] const RideRow* chosen() const;
    void refreshRows();
    void take(const Edit& edit);
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void choose(int row);
    void paint(QPainter& painter, const QRectF& area, std::vector<RideSpot>& spots) const;
    Session* m_session;
    QString m_name;
    QLabel* m_title;
    QStackedLayout* m_stack;
    QSplitter* m_split;
    RideList* m_list;
    RideCanvas* m_canvas;
    QHBoxLayout* m_strip;
    EmptyState *m_noDonor, *m_waiting;
    std::shared_ptr<const BodyShapes> m_shapes;
    std::uint64_t m_shapesOf = 0; ///< revision
};

} // namespace slab::ui
