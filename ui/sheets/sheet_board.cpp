#include "ui/sheets/sheet_board.h"
#include "ui/paint/page_painter.h"
#include "ui/session/follow.h"
#include "ui/theme/theme.h"
#include <QFontMetricsF>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {
constexpr double gap = 16, caption = 22; // px between sheets, and for the words under one
constexpr double mostZoom = 60;

/// The longest title that fits whole.
QString fittingTitle(const QStringList& titles, const QFont& font, double room) {
    const QFontMetricsF metrics(font);
    for (const QString& title : titles)
        if (metrics.horizontalAdvance(title) <= room) return title;
    return elided(titles.back(), font, room);
}

} // namespace

SheetBoard::SheetBoard(QWidget* parent) : QWidget(parent) {
    setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("sheet layouts"));
    setAccessibleDescription(
        tr("Every sheet with its panels. Arrow keys go from panel to panel, F shows all sheets."));
}

void SheetBoard::show(std::vector<LaidSheet> sheets) {
    bool same = sheets.size() == m_sheets.size();
    for (std::size_t i = 0; same && i < sheets.size(); ++i)
        same = sheets[i].length == m_sheets[i].length && sheets[i].width == m_sheets[i].width;
    m_sheets = std::move(sheets);
    if (!same) {
        arrange();
        fit();
    }
    setChosen(m_chosen, m_chosenForm);
}

void SheetBoard::setChosen(const std::string& plate, const std::string& form) {
    m_chosen = plate;
    m_chosenForm = plate.empty() ? form : std::string();
    m_chosenPanel.clear();
    for (const auto& sheet : m_sheets) {
        for (const auto& panel : sheet.panels) {
            const auto& own = panel.plates;
            if (plate.empty() ||
                (panel.plate != plate && std::find(own.begin(), own.end(), plate) == own.end()))
                continue;
            m_chosenPanel = panel.panel;
            m_chosen = panel.plate; // any plate of a blank stands for all of it
        }
    }
    update();
}

void SheetBoard::arrange() {
    m_base.assign(m_sheets.size(), {});
    if (m_sheets.empty()) return;
    double longest = 1, widest = 1;
    for (const auto& s : m_sheets) longest = std::max(longest, s.length), widest = std::max(widest, s.width);
    const int n = static_cast<int>(m_sheets.size());
    double best = 0;
    int columns = 1;
    for (int k = 1; k <= n; ++k) {
        const int rows = (n + k - 1) / k;
        const double w = (width() - 4 - gap * (k - 1)) / k;
        const double h = (height() - 4 - gap * (rows - 1)) / rows - caption;
        const double scale = std::min(w / longest, h / widest);
        if (scale > best) best = scale, columns = k;
    }
    best = std::max(best, 1e-4);
    const int rows = (n + columns - 1) / columns;
    const double cellW = longest * best, cellH = widest * best + caption;
    const double left = (width() - cellW * columns - gap * (columns - 1)) / 2;
    const double top = std::max(2.0, (height() - cellH * rows - gap * (rows - 1)) / 2);
    for (int i = 0; i < n; ++i) {
        const double x = left + (i % columns) * (cellW + gap), y = top + (i / columns) * (cellH + gap);
        const auto& sheet = m_sheets[static_cast<std::size_t>(i)];
        // Sheets of one row stand on the same line.
        m_base[static_cast<std::size_t>(i)] = {best, {x, y + widest * best}};
        static_cast<void>(sheet);
    }
}

PaperView SheetBoard::viewOf(int sheet) const {
    const PaperView& base = m_base[static_cast<std::size_t>(sheet)];
    return {base.scale * m_zoom, base.origin * m_zoom + m_offset};
}

void SheetBoard::fit() {
    m_zoom = 1;
    m_offset = {};
    m_filled = -1;
    Q_EMIT wholeChanged(true);
    update();
}

void SheetBoard::fillWith(int sheet) {
    if (sheet < 0 || sheet >= static_cast<int>(m_sheets.size())) return;
    const auto& s = m_sheets[static_cast<std::size_t>(sheet)];
    const PaperView& base = m_base[static_cast<std::size_t>(sheet)];
    PaperView wanted;
    wanted.fit({{0, 0}, {s.length, s.width}}, QRectF(rect()).adjusted(6, 6, -6, -6 - caption));
    m_zoom = wanted.scale / base.scale;
    m_offset = wanted.origin - base.origin * m_zoom;
    m_filled = sheet;
    Q_EMIT wholeChanged(m_zoom == 1);
    update();
}

std::pair<int, int> SheetBoard::at(const QPointF& px) const {
    for (int i = 0; i < static_cast<int>(m_sheets.size()); ++i) {
        const auto& sheet = m_sheets[static_cast<std::size_t>(i)];
        const Vec2 p = viewOf(i).toPaper(px);
        if (p.x() < 0 || p.y() < 0 || p.x() > sheet.length || p.y() > sheet.width) continue;
        for (std::size_t k = sheet.panels.size(); k-- > 0;) {
            const auto& panel = sheet.panels[k];
            if (contains(panel.footprint, p) || contains(panel.outer, p)) return {i, static_cast<int>(k)};
        }
        return {i, -1};
    }
    return {-1, -1};
}

void SheetBoard::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    for (int i = 0; i < static_cast<int>(m_sheets.size()); ++i) paintSheet(painter, i);
    if (!hasFocus()) return;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(Theme::mix(Theme::colours().chosen, Theme::colours().card, 0.5), 1));
    painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), 6, 6);
}

void SheetBoard::paintSheet(QPainter& painter, int index) const {
    const Palette& c = Theme::colours();
    const auto& sheet = m_sheets[static_cast<std::size_t>(index)];
    const PaperView view = viewOf(index);
    const QRectF on = view.toScreen(Box2{{0, 0}, {sheet.length, sheet.width}});
    if (!on.adjusted(0, 0, 0, caption).intersects(QRectF(rect()))) return;
    const QColor tint = Theme::tint(sheet.kind);
    painter.setBrush(Theme::mix(tint, c.card, Theme::dark() ? 0.35 : 0.26));
    painter.setPen(QPen(Theme::mix(c.ink, tint, 0.4), 1.2, sheet.provisional ? Qt::DashLine : Qt::SolidLine));
    painter.drawRect(on);
    if (sheet.trim * view.scale > 1.5) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(Theme::mix(c.quiet, tint, 0.4), 1, Qt::DotLine));
        const double t = sheet.trim * view.scale;
        painter.drawRect(on.adjusted(t, t, -t, -t));
    }
    for (const auto& panel : sheet.panels) {
        if (panel.panel != m_chosenPanel || m_chosenPanel.empty()) paintPanel(painter, panel, view, tint);
    }
    for (const auto& panel : sheet.panels) {
        if (panel.panel == m_chosenPanel && !m_chosenPanel.empty()) paintPanel(painter, panel, view, tint);
    }
    const QFont font = Theme::words(11), figures = Theme::figures(11);
    QString share = QStringLiteral("%1 %").arg(static_cast<int>(std::lround(sheet.used * 100)));
    if (sheet.provisional) share = QStringLiteral("… ") + share;
    const double shareW = QFontMetricsF(figures).horizontalAdvance(share);
    const QRectF words(on.left(), on.bottom() + 3, on.width(), caption - 4);
    painter.setPen(c.quiet);
    painter.setFont(font);
    painter.drawText(words, Qt::AlignLeft | Qt::AlignVCenter,
                     fittingTitle(sheet.titles, font, on.width() - shareW - 8));
    painter.setFont(figures);
    if (on.width() > shareW + 30) painter.drawText(words, Qt::AlignRight | Qt::AlignVCenter, share);
}

void SheetBoard::paintPanel(QPainter& painter, const LaidPanel& panel, const PaperView& view,
                            const QColor& tint) const {
    const Palette& c = Theme::colours();
    const bool ofForm = isOfForm(panel.form, m_chosenForm);
    const bool same = ofForm || (!m_chosenPanel.empty() && panel.panel == m_chosenPanel);
    const bool mine = ofForm || (same && panel.plate == m_chosen);
    const QColor line = same ? c.chosen : Theme::mix(c.ink, tint, Theme::dark() ? 0.6 : 0.72);
    const QColor fill = mine   ? Theme::mix(c.chosen, c.card, 0.34)
                        : same ? Theme::mix(c.chosen, c.card, 0.18)
                               : tint;
    if (area(panel.footprint) > area({panel.outer, {}}) * 1.002) {
        // The inside face reaches further than the outside one: the saw needs that room too.
        painter.setPen(QPen(Theme::mix(line, tint, 0.6), 1, Qt::DashLine));
        painter.setBrush(Theme::mix(fill, c.card, 0.5));
        painter.drawPath(view.path(panel.footprint));
    }
    painter.setPen(QPen(line, mine ? 1.8 : 1.1));
    painter.setBrush(fill);
    painter.drawPath(view.path({panel.outer, panel.holes}));
    paintName(painter, panel, view, mine ? c.chosen : Theme::mix(c.ink, tint, 0.8), mine);
}

void SheetBoard::paintName(QPainter& painter, const LaidPanel& panel, const PaperView& view,
                           const QColor& ink, bool bold) const {
    const Polygon region{panel.outer, panel.holes};
    const double high = bounds(panel.outer).size().y() * view.scale;
    if (high < 12) return;
    const QString full = QString::fromStdString(panel.plates.size() > 1 ? panel.panel : panel.plate);
    const Vec2 favourite = centroid(region);
    for (const int px : {12, 10}) {
        const QFont font = Theme::words(px, bold);
        const QFontMetricsF metrics(font);
        // Half a name says less than none: the tooltip has it.
        for (const QString& words : {full, full.section('/', 1)}) {
            const auto at =
                placeInside(region, view, metrics.horizontalAdvance(words) + 6, metrics.height(), favourite);
            if (!at) continue;
            drawText(painter, *at, words, font, ink);
            return;
        }
    }
}

bool SheetBoard::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) return QWidget::event(event);
    auto* help = static_cast<QHelpEvent*>(event);
    const auto [sheet, panel] = at(help->pos());
    if (sheet < 0) {
        QToolTip::hideText();
        return true;
    }
    const auto& s = m_sheets[static_cast<std::size_t>(sheet)];
    if (panel < 0) {
        QToolTip::showText(help->globalPos(),
                           tr("%1\nDouble click to fill the view with this sheet").arg(s.titles.front()),
                           this);
        return true;
    }
    const auto& p = s.panels[static_cast<std::size_t>(panel)];
    QToolTip::showText(help->globalPos(), QString::fromStdString(p.plates.size() > 1 ? p.panel : p.plate),
                       this);
    return true;
}

void SheetBoard::resizeEvent(QResizeEvent*) {
    const int filled = m_filled;
    const bool whole = m_zoom == 1;
    arrange();
    if (filled >= 0)
        fillWith(filled);
    else if (whole)
        fit();
}

void SheetBoard::zoomAt(const QPointF& px, double factor) {
    const double wanted = std::clamp(m_zoom * factor, 1.0, mostZoom);
    m_offset = px + (m_offset - px) * (wanted / m_zoom);
    m_zoom = wanted;
    m_filled = -1;
    if (m_zoom == 1) m_offset = {};
    Q_EMIT wholeChanged(m_zoom == 1);
    update();
}

void SheetBoard::mousePressEvent(QMouseEvent* event) {
    m_pressed = m_last = event->position();
    m_dragging = false;
}

void SheetBoard::mouseMoveEvent(QMouseEvent* event) {
    if (event->buttons() == Qt::NoButton) {
        setCursor(at(event->position()).second >= 0 ? Qt::PointingHandCursor : Qt::ArrowCursor);
        return;
    }
    if ((event->position() - m_pressed).manhattanLength() > 5) m_dragging = true;
    if (!m_dragging || m_zoom == 1) return;
    m_offset += event->position() - m_last;
    m_last = event->position();
    m_filled = -1;
    update();
}

void SheetBoard::mouseReleaseEvent(QMouseEvent* event) {
    if (m_dragging || event->button() != Qt::LeftButton) return;
    const auto [sheet, panel] = at(event->position());
    if (panel < 0) {
        Q_EMIT plateClicked({});
        return;
    }
    const auto& laid = m_sheets[static_cast<std::size_t>(sheet)].panels[static_cast<std::size_t>(panel)];
    Q_EMIT plateClicked(QString::fromStdString(laid.plate));
}

void SheetBoard::mouseDoubleClickEvent(QMouseEvent* event) {
    const int sheet = at(event->position()).first;
    if (m_filled >= 0 || sheet < 0)
        fit();
    else
        fillWith(sheet);
}

void SheetBoard::wheelEvent(QWheelEvent* event) {
    zoomAt(event->position(), std::pow(1.0015, event->angleDelta().y()));
    event->accept();
}

void SheetBoard::chooseNext(int by) {
    std::vector<std::string> all;
    for (const auto& sheet : m_sheets) {
        for (const auto& panel : sheet.panels) all.push_back(panel.plate);
    }
    if (all.empty()) return;
    const auto it = std::find(all.begin(), all.end(), m_chosen);
    const auto n = static_cast<std::ptrdiff_t>(all.size());
    const auto next = it == all.end() ? 0 : ((it - all.begin()) + by + n) % n;
    Q_EMIT plateClicked(QString::fromStdString(all[static_cast<std::size_t>(next)]));
}

void SheetBoard::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
    case Qt::Key_Right:
    case Qt::Key_Down:
        chooseNext(1);
        break;
    case Qt::Key_Left:
    case Qt::Key_Up:
        chooseNext(-1);
        break;
    case Qt::Key_F:
        fit();
        break;
    case Qt::Key_Plus:
    case Qt::Key_Equal:
        zoomAt(QRectF(rect()).center(), 1.2);
        break;
    case Qt::Key_Minus:
        zoomAt(QRectF(rect()).center(), 1 / 1.2);
        break;
    case Qt::Key_Return:
        for (int i = 0; i < static_cast<int>(m_sheets.size()); ++i) {
            const auto& panels = m_sheets[static_cast<std::size_t>(i)].panels;
            if (std::any_of(panels.begin(), panels.end(),
                            [&](const LaidPanel& p) { return p.plate == m_chosen; }))
                fillWith(i);
        }
        break;
    case Qt::Key_Escape:
        if (m_zoom > 1)
            fit();
        else
            Q_EMIT plateClicked({});
        break;
    default:
        QWidget::keyPressEvent(event);
    }
}

} // namespace slab::ui
