#pragma once
// Openings and seams by hand on the panel drawing: their buttons, and which of the two hands a gesture is
// for.
#include "ui/panels/opening_hand.h"
#include "ui/panels/seam_hand.h"

class QBoxLayout;
class QToolButton;

namespace slab::ui {

class PanelCanvas;

class PanelHands : public QObject, public PanelTool {
    Q_OBJECT
public:
    PanelHands(Session* session, PanelCanvas* canvas, QObject* parent = nullptr);
    /// "Opening" with its menu, and "Seam".
    void addButtons(QBoxLayout* row);
    /// The panel that is drawn; null = none.
    void setPanel(const Panel* panel, const std::string& shown);
    /// What to do next; empty = nothing to say.
    [[nodiscard]] QString words() const;
    [[nodiscard]] OpeningHand* openings() const { return m_openings; }
    [[nodiscard]] SeamHand* seams() const { return m_seams; }
    [[nodiscard]] QToolButton* openingButton() const { return m_opening; }
    [[nodiscard]] QToolButton* seamButton() const { return m_seam; }

    bool press(const QPointF& at, Qt::KeyboardModifiers keys) override;
    void drag(const QPointF& at, Qt::KeyboardModifiers keys) override;
    void release(const QPointF& at) override;
    bool hover(const QPointF& at, Qt::KeyboardModifiers keys) override;
    void away() override;
    bool key(QKeyEvent& event) override;
    void keyUp() override;
    void paint(QPainter& painter, std::vector<QRectF>& taken) const override;
    [[nodiscard]] Qt::CursorShape cursor() const override { return m_under->cursor(); }
    [[nodiscard]] QString tip() const override { return m_under->tip(); }

Q_SIGNALS:
    void changed(); ///< words() may be others

private:
    void arm(const OpeningKind* kind, bool seam);
    void mark();

    Session* m_session;
    PanelCanvas* m_canvas;
    OpeningHand* m_openings;
    SeamHand* m_seams;
    PanelTool* m_under; ///< that took the last press or hover
    QToolButton *m_opening = nullptr, *m_seam = nullptr;
};

} // namespace slab::ui
