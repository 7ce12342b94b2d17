#include "ui/panels/panel_hands.h"
#include "ui/board/board_prompt.h"
#include "ui/chosen/kind_menu.h"
#include "ui/panels/opening_menu.h"
#include "ui/panels/panel_canvas.h"
#include "ui/theme/card.h"
#include <QBoxLayout>
#include <QKeyEvent>
#include <QMenu>
#include <QToolButton>

namespace slab::ui {

PanelHands::PanelHands(Session* session, PanelCanvas* canvas, QObject* parent)
    : QObject(parent), m_session(session), m_canvas(canvas),
      m_openings(new OpeningHand(session, &canvas->view(), this)),
      m_seams(new SeamHand(session, &canvas->view(), this)), m_under(m_openings) {
    canvas->setTool(this);
    const auto changes = [this] {
        mark();
        m_canvas->update();
        Q_EMIT changed();
    };
    connect(m_openings, &OpeningHand::changed, this, changes);
    connect(m_seams, &SeamHand::changed, this, changes);
}

void PanelHands::addButtons(QBoxLayout* row) {
    m_opening = new QToolButton;
    m_opening->setText(tr("Opening"));
    explain(m_opening, tr("Opening"),
            tr("Put a hatch, slit, hand hole, wheel arch or light into the panel by a click; drag it "
               "afterwards (key O)"));
    fillOpenings(m_opening, [this](const OpeningKind* kind) { arm(kind, false); });
    connect(m_opening->menu(), &QMenu::aboutToHide, this, &PanelHands::mark);
    row->addWidget(m_opening);
    m_seam = new QToolButton;
    m_seam->setText(tr("Seam"));
    m_seam->setCheckable(true);
    explain(
        m_seam, tr("Seam"),
        tr("Cut the panel in two by a click, a butt strip behind the cut; drag a seam to move it (key S)"));
    connect(m_seam, &QToolButton::clicked, this, [this](bool on) { arm(nullptr, on); });
    row->addWidget(m_seam);
}

void PanelHands::arm(const OpeningKind* kind, bool seam) {
    m_openings->arm(kind);
    m_seams->arm(seam);
    m_under = seam ? static_cast<PanelTool*>(m_seams) : m_openings;
    if (kind || seam) m_canvas->setFocus(Qt::OtherFocusReason);
}

void PanelHands::mark() {
    if (!m_opening) return;
    markOpening(m_opening, m_openings->armed());
    m_seam->setChecked(m_seams->armed());
}

void PanelHands::setPanel(const Panel* panel, const std::string& shown) {
    m_openings->setPanel(panel, shown);
    m_seams->setPanel(panel, shown);
    if (!m_opening) return;
    m_opening->setVisible(panel != nullptr);
    m_seam->setVisible(panel != nullptr);
}

QString PanelHands::words() const {
    const QString seam = m_seams->words();
    return seam.isEmpty() ? m_openings->words() : seam;
}

bool PanelHands::press(const QPointF& at, Qt::KeyboardModifiers keys) {
    // A seam is thin and lies over everything.
    for (PanelTool* tool : {static_cast<PanelTool*>(m_seams), static_cast<PanelTool*>(m_openings)})
        if (tool->press(at, keys)) {
            m_under = tool;
            return true;
        }
    return false;
}

void PanelHands::drag(const QPointF& at, Qt::KeyboardModifiers keys) {
    m_under->drag(at, keys);
}

void PanelHands::release(const QPointF& at) {
    m_under->release(at);
}

bool PanelHands::hover(const QPointF& at, Qt::KeyboardModifiers keys) {
    for (PanelTool* tool : {static_cast<PanelTool*>(m_seams), static_cast<PanelTool*>(m_openings)})
        if (tool->hover(at, keys)) {
            if (tool == m_seams) m_openings->away();
            m_under = tool;
            return true;
        }
    return false;
}

void PanelHands::away() {
    m_seams->away();
    m_openings->away();
}

bool PanelHands::key(QKeyEvent& event) {
    // The buttons give way to a joint's choices in a low view; their keys go on working.
    const bool plain = event.modifiers() == Qt::NoModifier;
    if (m_opening && !m_opening->isHidden() && event.key() == Qt::Key_O && plain) {
        popUp(m_opening->menu(), m_canvas->mapToGlobal(QPoint(24, 24)));
        return true;
    }
    if (m_seam && !m_seam->isHidden() && event.key() == Qt::Key_S && plain) {
        arm(nullptr, !m_seams->armed());
        return true;
    }
    return m_seams->key(event) || m_openings->key(event);
}

/// Arrow keys held down are one step to undo.
void PanelHands::keyUp() {
    m_session->settle();
}

void PanelHands::paint(QPainter& painter, std::vector<QRectF>& taken) const {
    // What is asked has its room first: it is what is read next.
    const std::vector<QRectF> words = taken;
    // On the drawing itself: a line of words below it would change its height under the hand.
    BoardPrompt prompt;
    if (m_openings->armed()) prompt.words = m_openings->hint();
    if (m_seams->armed()) prompt.words = m_seams->hint();
    const QString& told = m_seams->told().isEmpty() ? m_openings->told() : m_seams->told();
    PromptRoom room{QRectF(m_canvas->rect()), std::nullopt, words, {}};
    if (m_canvas->underMouse()) room.pointer = m_canvas->mapFromGlobal(QCursor::pos());
    const QRectF asked = paintPrompt(painter, room, prompt, {told});
    if (!asked.isEmpty()) taken.push_back(asked);
    m_openings->paint(painter, taken);
    m_seams->paint(painter, taken);
    paintPrompt(painter, room, prompt, {told}); // over what is shown of them
}

} // namespace slab::ui
