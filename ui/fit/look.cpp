#include "ui/fit/look.h"
#include "ui/theme/theme.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

QColor colourOf(FitState state) {
    const Palette& c = Theme::colours();
    return state == FitState::hits ? c.hits : state == FitState::tight ? c.tight : c.fits;
}

QColor colourOf(MarkKind mark) {
    const Palette& c = Theme::colours();
    switch (mark) {
    case MarkKind::stand:
        return c.fits;
    case MarkKind::blind:
        return Theme::mix(c.quiet, c.paper, 0.6);
    case MarkKind::circle:
    case MarkKind::place:
        return c.chosen;
    default:
        return c.ink;
    }
}

double widthOf(MarkKind mark) {
    return mark == MarkKind::firstTip ? 4 : mark == MarkKind::place ? 3 : mark == MarkKind::blind ? 1.4 : 2.2;
}

QColor gridColour() {
    const Palette& c = Theme::colours();
    return Theme::mix(c.quiet, c.card, Theme::dark() ? 0.34 : 0.26);
}

QColor backgroundColour() {
    return Theme::colours().card;
}

ItemLook lookOf(const SceneItem& item, const SceneStyle& style) {
    const Palette& c = Theme::colours();
    ItemLook look;
    look.line =
        Theme::mix(c.ink, Theme::tint(QString::fromStdString(item.stockKind)), Theme::dark() ? 0.62 : 0.72);
    look.lineWidth = 1.1;
    switch (item.kind) {
    case ItemKind::plate:
    case ItemKind::round:
        look.fill = Theme::tint(QString::fromStdString(item.stockKind));
        if (!item.inside) {
            look.alpha = 1 - 0.86 * std::clamp(style.seeThrough, 0.0, 1.0);
        } else if (style.seeThrough > 0.02) {
            // Whole, as donor and rider, behind the glass of the shell; a shade darker than the sheet itself.
            look.fill = Theme::mix(c.donor, look.fill, Theme::dark() ? 0.16 : 0.22);
        }
        break;
    case ItemKind::donor:
        look.fill = Theme::mix(c.donor, c.card, Theme::dark() ? 0.62 : 0.66);
        look.line = Theme::mix(c.ink, c.donor, 0.35);
        break;
    case ItemKind::rider:
        look.fill = Theme::mix(c.donor, c.card, Theme::dark() ? 0.40 : 0.34);
        look.line = Theme::mix(c.donor, c.card, 0.75);
        break;
    case ItemKind::sweep:
        look.fill = Theme::mix(c.donor, c.card, 0.6);
        look.line = Theme::mix(c.donor, c.card, 0.6);
        look.alpha = 0.28;
        break;
    }
    if (item.state != FitState::fits && item.kind != ItemKind::plate) {
        look.fill = Theme::mix(colourOf(item.state), look.fill, item.state == FitState::hits ? 0.34 : 0.22);
    }
    if (item.state == FitState::hits && item.kind == ItemKind::plate)
        look.fill = Theme::mix(c.hits, look.fill, 0.30);
    if (item.chosen) {
        // Blue whatever the material: a tan tint under it would turn it grey.
        look.fill = Theme::mix(c.chosen, c.card, 0.62);
        look.line = c.chosen;
        look.lineWidth = 2.2;
        look.alpha = std::max(look.alpha, 0.72);
    }
    return look;
}

std::vector<Vec3> groundGrid(const Box3& bounds, const UnitStyle& units) {
    const bool inches = isInch(units);
    double step = inches ? 304.8 : 250;
    const double reach = std::max({bounds.size().x(), bounds.size().y(), 600.0});
    while (reach / step > 24) step *= 2;
    const double margin = 1.5 * step;
    const auto down = [&](double v) { return std::floor((v - margin) / step) * step; };
    const auto upTo = [&](double v) { return std::ceil((v + margin) / step) * step; };
    const double x0 = down(bounds.min.x()), x1 = upTo(bounds.max.x());
    const double y0 = down(bounds.min.y()), y1 = upTo(bounds.max.y());
    std::vector<Vec3> lines;
    for (int i = 0; x0 + i * step <= x1 + 1e-6; ++i) {
        lines.emplace_back(x0 + i * step, y0, 0);
        lines.emplace_back(x0 + i * step, y1, 0);
    }
    for (int i = 0; y0 + i * step <= y1 + 1e-6; ++i) {
        lines.emplace_back(x0, y0 + i * step, 0);
        lines.emplace_back(x1, y0 + i * step, 0);
    }
    return lines;
}

double daylight(const Vec3& normal) {
    static const Vec3 sun = Vec3(0.45, -0.55, 0.75).normalized();
    const double facing = normal.dot(sun);
    return 0.86 + (facing > 0 ? 0.18 * facing : 0.14 * facing);
}

} // namespace slab::ui
