#include "ui/panels/joint_sketch.h"
#include "ui/paint/page_painter.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::ui {

std::array<Ring, 2> jointQuads(double dihedral, const JointSide& first, const JointSide& second, double arm) {
    std::array<Ring, 2> out;
    for (std::size_t i = 0; i < 2; ++i) {
        const JointSide& side = i == 0 ? first : second;
        // The skin opens downwards: its two faces leave the edge half the angle to the left and to the right.
        const double angle = -std::numbers::pi / 2 + (i == 0 ? -dihedral : dihedral) / 2;
        const Vec2 along(std::cos(angle), std::sin(angle));
        const Vec2 inward = i == 0 ? Vec2(-along.y(), along.x()) : Vec2(along.y(), -along.x());
        out[i] = {along * arm, along * side.outer, along * side.inner + inward * side.thickness,
                  along * arm + inward * side.thickness};
    }
    return out;
}

JointSketch::JointSketch(QWidget* parent) : QWidget(parent) {
    setFixedSize(104, 84);
    setAccessibleName(tr("joint seen end on"));
    setToolTip(tr("The joint cut through, outside up: how the two plates meet at this edge"));
}

void JointSketch::show(double dihedral, const JointSide& mine, const JointSide& other) {
    m_dihedral = dihedral;
    m_mine = mine;
    m_other = other;
    m_any = true;
    update();
}

void JointSketch::clear() {
    m_any = false;
    update();
}

void JointSketch::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    if (!m_any) return;
    const Palette& c = Theme::colours();
    const bool two = m_dihedral > 1e-6 && m_other.thickness > 0;
    const double thick = std::max(m_mine.thickness, m_other.thickness);
    const double reach = std::max(
        {std::abs(m_mine.outer), std::abs(m_mine.inner), std::abs(m_other.outer), std::abs(m_other.inner)});
    const double arm = reach + 3.2 * thick;
    const auto quads = jointQuads(two ? m_dihedral : std::numbers::pi, m_mine, m_other, arm);
    PaperView view;
    const double size = 2.2 * thick + reach; // the joint itself fills the picture, the plates run out of it
    view.fit({{-size, -size * 1.25}, {size, size * 0.55}}, QRectF(rect()).adjusted(4, 4, -4, -4));
    const auto draw = [&](const Ring& quad, const QColor& fill, const QColor& line) {
        painter.setBrush(fill);
        painter.setPen(QPen(line, 1.4));
        painter.drawPolygon(view.ring(quad));
    };
    painter.setClipRect(rect());
    if (two) draw(quads[1], Theme::mix(m_other.tint, c.card, 0.6), c.quiet);
    draw(quads[0], Theme::mix(c.chosen, c.card, 0.34), c.chosen);
    // Plates go on beyond the picture: their far ends fade.
    painter.setPen(Qt::NoPen);
    for (const auto& quad : quads) {
        if (&quad == &quads[1] && !two) break;
        const Vec2 away = (quad[0] + quad[3]) / 2;
        const QPointF end = view.toScreen(Vec2(away));
        QRadialGradient fade(end, arm * view.scale * 0.55);
        QColor clear = c.card;
        clear.setAlpha(0);
        fade.setColorAt(0.0, c.card);
        fade.setColorAt(0.35, c.card);
        fade.setColorAt(1.0, clear);
        painter.setBrush(fade);
        painter.drawEllipse(end, arm * view.scale * 0.55, arm * view.scale * 0.55);
    }
    if (two) {
        painter.setBrush(c.ink);
        painter.drawEllipse(view.toScreen(Vec2(0, 0)), 1.8, 1.8);
    }
}

} // namespace slab::ui
