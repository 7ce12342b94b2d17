#include "ui/window/start_preview.h"
#include "core/board/sheet.h"
#include "ui/paint/paper_view.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <QPainterPath>

namespace slab::ui {

namespace {

constexpr double apart = 220; // mm between the elevations

/// Where one elevation lies: on the sheet, and the sheet on the screen.
struct Laid {
    const PaperView& view;
    Vec2 origin;
    [[nodiscard]] QPointF on(const Vec2& at) const { return view.toScreen(origin + at); }
};

void paintInside(QPainter& painter, const Laid& laid, const BoardElevation& e) {
    const Palette& c = Theme::colours();
    painter.setPen(Qt::NoPen);
    for (const BoardShape& shape : e.shapes) {
        const bool rider = shape.kind == "rider";
        if (!rider && shape.kind != "donor") continue;
        QPainterPath path;
        for (const Ring& ring : shape.rings) {
            QPolygonF line;
            for (const Vec2& p : ring) line << laid.on(p);
            path.addPolygon(line);
        }
        painter.setBrush(Theme::mix(rider ? c.tight : c.donor, c.card, rider ? 0.3 : 0.25));
        painter.drawPath(path);
    }
}

void paintBody(QPainter& painter, const Laid& laid, const BoardElevation& e, double width) {
    const Palette& c = Theme::colours();
    painter.setPen(QPen(Theme::mix(c.ink, c.card, 0.85), width, Qt::SolidLine, Qt::RoundCap));
    for (const BoardLine& line : e.skin) painter.drawLine(laid.on(line.from), laid.on(line.to));
}

void paintGround(QPainter& painter, const Laid& laid, const Box2& box) {
    painter.setPen(QPen(Theme::colours().line, 1));
    const double over = 0.04 * box.size().x();
    painter.drawLine(laid.on({box.min.x() - over, 0}), laid.on({box.max.x() + over, 0}));
}

} // namespace

StartPreview::StartPreview(QWidget* parent) : QFrame(parent) {
    setMinimumSize(440, 300);
    setAccessibleName("The body in elevations");
}

void StartPreview::draw(BoardScene scene) {
    m_scene = std::move(scene);
    update();
}

QPixmap StartPreview::icon(const BoardScene& scene, QSize size, double ratio) {
    QPixmap pixmap(size * ratio);
    pixmap.setDevicePixelRatio(ratio);
    pixmap.fill(Qt::transparent);
    QPainter painter(&pixmap);
    painter.setRenderHint(QPainter::Antialiasing);
    const BoardElevation& side = scene.of(BoardView::side);
    PaperView view;
    view.fit(side.bounds, QRectF(2, 2, size.width() - 4, size.height() - 4));
    const Laid laid{view, Vec2::Zero()};
    paintInside(painter, laid, side);
    paintBody(painter, laid, side, 1);
    return pixmap;
}

void StartPreview::paintEvent(QPaintEvent* event) {
    QFrame::paintEvent(event);
    QPainter painter(this);
    paintSheet(painter, *this);
    const QRectF all(rect());
    const BoardSheet sheet = layOut(m_scene, apart);
    Box2 box = sheet.area[0];
    for (const Box2& area : sheet.area) box = united(box, area);
    if (box.size().minCoeff() <= 0) return;
    PaperView view;
    view.fit(box, all.adjusted(space::inside, space::inside, -space::inside, -space::inside));
    for (const BoardElevation& e : m_scene.views) {
        const Laid laid{view, sheet.origin[static_cast<std::size_t>(e.view)]};
        if (e.view != BoardView::plan) paintGround(painter, laid, e.bounds);
        paintInside(painter, laid, e);
        paintBody(painter, laid, e, 1.3);
    }
}

} // namespace slab::ui
