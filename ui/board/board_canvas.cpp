#include "ui/board/board_canvas.h"
#include "core/board/moves.h"
#include "ui/board/board_paint.h"
#include "ui/board/choose_tool.h"
#include "ui/board/picture_layer.h"
#include "ui/board/rule_ticks.h"
#include "ui/paint/page_painter.h"
#include "ui/theme/theme.h"
#include <QGuiApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QTimer>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {
constexpr double leastScale = 0.002, mostScale = 60; // px per mm
}

BoardDesk& BoardTool::desk() const {
    return m_canvas.desk();
}

const Snap& BoardTool::meet(const BoardPointer& pointer, const Vec2& at, SnapOptions options) {
    if (pointer.keys & Qt::AltModifier) {
        m_snap = {};
        m_snap.at = at;
        return m_snap;
    }
    // What is traced lies on the picture's own lines, not on a grid that knows nothing of them.
    if (m_canvas.pictures().pictureAt(pointer.view, at) < 0) options.grid = m_canvas.grid();
    m_snap = slab::snap(desk().scene(), pointer.view, at, m_canvas.reach(), options);
    return m_snap;
}

BoardCanvas::BoardCanvas(BoardDesk* desk, QWidget* parent)
    : QWidget(parent), m_desk(desk), m_pictures(std::make_unique<PictureLayer>(desk)) {
    m_tool = std::make_unique<ChooseTool>(*this);
    setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("drafting sheet"));
    setAccessibleDescription(
        tr("Side, front and plan of the body. Page up and page down go from point to point, arrows "
           "move what is chosen, return types its figures, letters choose tools."));
    connect(desk, &BoardDesk::sceneChanged, this, [this] {
        const bool other = m_document != m_desk->session()->shownDocument();
        const bool fresh = other || (!m_hadAnything && m_desk->hasAnything() && !m_touched);
        m_document = m_desk->session()->shownDocument();
        if (other)
            Q_EMIT toolDone(); // what was in the making, or lay under the pointer, is of another document
        m_hadAnything = m_desk->hasAnything();
        if (fresh) m_touched = false, fit();
        if (other) m_forms = m_desk->project().forms.size();
        showNewForm();
        update();
    });
    connect(desk, &BoardDesk::choiceChanged, this, qOverload<>(&QWidget::update));
    connect(m_pictures.get(), &PictureLayer::changed, this, qOverload<>(&QWidget::update));
}

BoardCanvas::~BoardCanvas() = default;

QRectF BoardCanvas::paper() const {
    return QRectF(rect()).adjusted(ruler, ruler, 0, 0);
}

Box2 BoardCanvas::extent() const {
    Box2 all = m_desk->sheet().area[0];
    for (const Box2& area : m_desk->sheet().area) all = united(all, area);
    const auto pictures = m_pictures->extent();
    return pictures ? united(all, *pictures) : all;
}

void BoardCanvas::fit() {
    m_view.fit(extent(), paper().adjusted(46, 40, -46, -46), mostScale);
    keepClear();
    m_touched = false;
    m_fitted = size();
    lookAgain();
    update();
    Q_EMIT pointed();
}

void BoardCanvas::fitView(BoardView view) {
    m_view.fit(m_desk->sheet().area[static_cast<std::size_t>(view)], paper().adjusted(60, 50, -60, -60),
               mostScale);
    m_touched = true;
    lookAgain();
    update();
    Q_EMIT pointed();
}

void BoardCanvas::setPaper(const PaperView& view) {
    m_view = view;
    m_touched = true;
    lookAgain();
    update();
    Q_EMIT pointed();
}

QPointF BoardCanvas::pixelOf(BoardView view, const Vec2& at) const {
    return m_view.toScreen(m_desk->sheet().toSheet(view, at));
}

BoardPointer BoardCanvas::pointerAt(const QPointF& px, Qt::KeyboardModifiers keys) const {
    return pointerIn(m_tool->keepsTo().value_or(viewAt(m_desk->sheet(), m_view.toPaper(px))), px, keys);
}

BoardPointer BoardCanvas::pointerIn(BoardView view, const QPointF& px, Qt::KeyboardModifiers keys) const {
    return {px, view, m_desk->sheet().toView(view, m_view.toPaper(px)), keys};
}

double BoardCanvas::step() const {
    return roundStep(1 / m_view.scale, m_desk->scene().units.unit);
}

double BoardCanvas::grid() const {
    return m_gridOn ? gridStep(m_view.scale, m_desk->scene().units.unit) : 0;
}

void BoardCanvas::setTold(const BoardTold& told) {
    if (told == m_told) return;
    m_told = told;
    update();
}

/// The sheet has moved under a pointer that lies still.
void BoardCanvas::lookAgain() {
    if (!m_over || m_panning || QGuiApplication::mouseButtons() != Qt::NoButton) return;
    m_pointer = pointerAt(m_pointer.px, m_pointer.keys);
    m_tool->move(m_pointer);
    showCursor();
}

void BoardCanvas::setGridOn(bool on) {
    m_gridOn = on;
    update();
    Q_EMIT pointed();
}

void BoardCanvas::setTool(std::unique_ptr<BoardTool> tool) {
    m_tool->leave();
    m_tool = tool ? std::move(tool) : std::make_unique<ChooseTool>(*this);
    showCursor();
    update();
    Q_EMIT pointed();
}

/// Corners are being set while a picture lies under them.
bool BoardCanvas::isTracing() const {
    const auto& all = m_desk->project().pictures;
    return m_tool->takesPlaces() &&
           std::any_of(all.begin(), all.end(), [](const Picture& p) { return !p.hidden; });
}

void BoardCanvas::zoom(const QPointF& px, double factor) {
    m_view.zoomAt(px, factor, leastScale, mostScale);
    m_touched = true;
    lookAgain();
    update();
    Q_EMIT pointed();
}

bool BoardCanvas::event(QEvent* event) {
    // The words beside the pointer say what there is to say; those of the gaps round it would only be in the
    // way.
    if (event->type() == QEvent::ToolTip) return true;
    return QWidget::event(event);
}

void BoardCanvas::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const BoardInk ink{*m_desk,    m_view, paper(), devicePixelRatioF(), grid(), m_tool->marksPicture(),
                       isTracing()};
    painter.fillRect(rect(), Theme::colours().card);
    painter.save();
    painter.setClipRect(paper());
    if (m_gridOn) paintGrid(painter, ink);
    m_pictures->paint(painter, *this);
    paintScene(painter, ink);
    m_pictures->paintChosen(painter, *this);
    if (m_over) paintProjection(painter, ink, m_pointer, m_tool->snap());
    m_tool->paint(painter);
    paintSnap(painter, ink, m_pointer.view, m_tool->snap());
    painter.restore();
    paintRulers(painter, ink, m_over ? std::optional(m_pointer.px) : std::nullopt);
    paintWords(painter);
    paintPrompt(painter, promptRoom(ink), m_tool->prompt(), m_told);
    if (!hasFocus()) return;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(Theme::mix(Theme::colours().chosen, Theme::colours().card, 0.5), 1));
    painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4);
}

/// What the pointer meets, beside it, on the side where there is room.
void BoardCanvas::paintWords(QPainter& painter) const {
    const std::string& met = m_tool->snap().words;
    const QString words = QString::fromStdString(met.empty() ? m_tool->under() : met);
    if (!m_over || words.isEmpty() || words == "grid") return;
    const QFont font = Theme::words(12);
    const QString shown = elided(words, font, 260);
    const QFontMetricsF metrics(font);
    QRectF box(0, 0, metrics.horizontalAdvance(shown) + 14, metrics.height() + 6);
    box.moveTopLeft(m_pointer.px + QPointF(16, 14));
    if (box.right() > width() - 4) box.moveRight(m_pointer.px.x() - 14);
    if (box.bottom() > height() - 4) box.moveBottom(m_pointer.px.y() - 12);
    const Palette& c = Theme::colours();
    painter.setPen(QPen(c.chosen, 1));
    painter.setBrush(c.card);
    painter.drawRoundedRect(box, 5, 5);
    drawText(painter, box.center(), shown, font, c.ink);
}

void BoardCanvas::resizeEvent(QResizeEvent* event) {
    // What grows or shrinks while nothing is chosen is the room itself; else the sheet stands still under the
    // hand.
    const QSize by = event->size() - m_fitted;
    const int still = isIdle() ? 60 : 200; // px
    if (!m_touched && (by.width() != 0 || std::abs(by.height()) > still || !event->oldSize().isValid()))
        fit();
}

void BoardCanvas::moveEvent(QMoveEvent* event) {
    // The bar above grows and shrinks with the width of its tools: what was under the cursor stays there.
    const QPoint by = event->pos() - event->oldPos();
    if (!isVisible() || by.isNull()) return;
    m_view.origin -= by;
    update();
}

void BoardCanvas::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    for (QWidget* up = parentWidget(); up && !up->isWindow(); up = up->parentWidget())
        up->installEventFilter(this);
    // The parts beside and below have their sizes a moment later.
    constexpr int settled = 60; // ms
    QTimer::singleShot(settled, this, [this] {
        if (!m_touched && isIdle() && size() != m_fitted) fit();
    });
}

bool BoardCanvas::eventFilter(QObject* watched, QEvent* event) {
    // A notice that comes or goes over the board moves all of it.
    if (event->type() == QEvent::Move && isVisible()) {
        const auto* move = static_cast<QMoveEvent*>(event);
        m_view.origin.ry() -= move->pos().y() - move->oldPos().y();
        if (!m_touched && !m_over && m_view.toScreen(extent()).top() < paper().top()) fit();
        update();
    }
    return QWidget::eventFilter(watched, event);
}

void BoardCanvas::showCursor() {
    setCursor(m_panning ? Qt::ClosedHandCursor : m_space ? Qt::OpenHandCursor : m_tool->cursor(m_pointer));
}

void BoardCanvas::mousePressEvent(QMouseEvent* event) {
    Q_EMIT handled();
    m_last = event->position();
    m_over = true;
    m_panning = event->button() == Qt::MiddleButton || (m_space && event->button() == Qt::LeftButton);
    if (!m_panning && event->button() == Qt::LeftButton) {
        m_pointer = pointerAt(event->position(), event->modifiers());
        m_tool->press(m_pointer);
    }
    if (event->button() == Qt::RightButton && !m_tool->cancel()) Q_EMIT toolDone();
    showCursor();
    update();
    Q_EMIT pointed();
}

void BoardCanvas::mouseMoveEvent(QMouseEvent* event) {
    m_over = true;
    if (m_panning) {
        m_view.origin += event->position() - m_last;
        m_last = event->position();
        m_touched = true;
        m_pointer = pointerAt(event->position(), event->modifiers());
        update();
        Q_EMIT pointed();
        return;
    }
    if (event->buttons() & Qt::LeftButton) {
        m_pointer = pointerIn(m_pointer.view, event->position(), event->modifiers());
        m_tool->drag(m_pointer);
    } else {
        m_pointer = pointerAt(event->position(), event->modifiers());
        m_tool->move(m_pointer);
    }
    showCursor();
    update();
    Q_EMIT pointed();
}

void BoardCanvas::mouseReleaseEvent(QMouseEvent* event) {
    if (m_panning) {
        m_panning = false;
        return showCursor();
    }
    if (event->button() != Qt::LeftButton) return;
    m_pointer = pointerIn(m_pointer.view, event->position(), event->modifiers());
    m_tool->release(m_pointer);
    showCursor();
    update();
    Q_EMIT pointed();
}

void BoardCanvas::mouseDoubleClickEvent(QMouseEvent* event) {
    if (event->button() == Qt::MiddleButton) return fit();
    if (event->button() != Qt::LeftButton) return;
    m_pointer = pointerAt(event->position(), event->modifiers());
    m_tool->doubleClick(m_pointer);
    update();
    Q_EMIT pointed();
}

void BoardCanvas::wheelEvent(QWheelEvent* event) {
    zoom(event->position(), std::pow(1.0015, event->angleDelta().y()));
    event->accept();
}

bool BoardCanvas::moveKey(QKeyEvent* event) {
    switch (event->key()) {
    case Qt::Key_F:
        fit();
        return true;
    case Qt::Key_1:
    case Qt::Key_2:
    case Qt::Key_3:
        if (m_tool->takesPlaces() && m_tool->last()) return false;
        if (!(event->modifiers() & Qt::ControlModifier)) return false;
        fitView(static_cast<BoardView>(event->key() - Qt::Key_1));
        return true;
    case Qt::Key_Plus:
    case Qt::Key_Equal:
        zoom(m_over ? m_pointer.px : paper().center(), 1.2);
        return true;
    case Qt::Key_Minus:
        if (m_tool->takesPlaces() || (m_takesFigures && m_takesFigures())) return false; // "-5 in"
        zoom(m_over ? m_pointer.px : paper().center(), 1 / 1.2);
        return true;
    case Qt::Key_G:
        setGridOn(!m_gridOn);
        return true;
    case Qt::Key_Space:
        if (!event->isAutoRepeat()) m_space = true;
        showCursor();
        return true;
    default:
        return false;
    }
}

void BoardCanvas::leaveEvent(QEvent*) {
    m_over = false;
    update();
    Q_EMIT pointed();
}

void BoardCanvas::focusOutEvent(QFocusEvent* event) {
    m_space = false;
    QWidget::focusOutEvent(event);
    update();
}

} // namespace slab::ui
