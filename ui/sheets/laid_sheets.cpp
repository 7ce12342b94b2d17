#include "ui/sheets/sheet_board.h"
#include <algorithm>
#include <cmath>
#include <map>

namespace slab::ui {

Vec2 placedPoint(const Vec2& point, const NestPlace& place) {
    const double y = place.flipped ? -point.y() : point.y();
    const double c = std::cos(place.rotation), s = std::sin(place.rotation);
    return {place.x + c * point.x() - s * y, place.y + s * point.x() + c * y};
}

namespace {

Ring placedRing(const Ring& ring, const NestPlace& place) {
    Ring out;
    out.reserve(ring.size());
    for (const auto& p : ring) out.push_back(placedPoint(p, place));
    return out;
}

LaidPanel laidPanel(const Panel& panel, const NestPart& part, const NestPlace& place) {
    LaidPanel out;
    out.panel = panel.name;
    const auto copy = static_cast<std::size_t>(std::max(0, place.copy));
    const std::size_t each = std::max<std::size_t>(panel.parts.size(), 1);
    for (std::size_t i = copy * each; i < (copy + 1) * each && i < panel.plates.size(); ++i)
        out.plates.push_back(panel.plates[i]);
    out.plate = out.plates.empty() ? panel.name : out.plates.front();
    out.outer = placedRing(panel.boundary.outer, place);
    for (const auto& hole : panel.holes) out.holes.push_back(placedRing(hole.outer, place));
    out.footprint.outer = placedRing(part.shape.outer, place);
    for (const auto& hole : part.shape.holes) out.footprint.holes.push_back(placedRing(hole, place));
    out.rotation = place.rotation;
    return out;
}

QStringList titlesOf(int number, const NestSheet& sheet, const NestLayout& layout, const Sheet* stock,
                     const UnitStyle& units) {
    const QString dot = QStringLiteral(" · "), shed = layout.onHand ? dot + QWidget::tr("shed") : QString();
    const QString first = QString::number(number), name = first + dot + QString::fromStdString(sheet.stock);
    QStringList titles;
    if (stock) titles << name + dot + QString::fromStdString(printThickness(stock->thickness, units)) + shed;
    return titles << name + shed << first + shed << first;
}

} // namespace

std::vector<LaidSheet> laidSheets(const Evaluation& evaluation) {
    std::vector<LaidSheet> out;
    if (!evaluation.sheets || !evaluation.nestProblem || !evaluation.panels) return out;
    const NestProblem& problem = *evaluation.nestProblem;
    std::map<std::string, std::string> forms;
    if (evaluation.plates)
        for (const Plate& plate : evaluation.plates->plates) forms.emplace(plate.name, plate.form);
    int number = 0;
    for (const auto& layout : evaluation.sheets->layouts) {
        const auto index = static_cast<std::size_t>(layout.sheet);
        if (index >= problem.sheets.size()) continue;
        const NestSheet& sheet = problem.sheets[index];
        const Sheet* stock = evaluation.stock ? evaluation.stock->find(sheet.stock) : nullptr;
        LaidSheet laid{sheet.length,
                       sheet.width,
                       sheet.trim,
                       stock ? QString::fromStdString(stock->kind) : QString(),
                       titlesOf(++number, sheet, layout, stock, evaluation.units),
                       layout.used,
                       evaluation.sheets->provisional,
                       {}};
        for (const auto& place : layout.places) {
            const auto part = static_cast<std::size_t>(place.part);
            if (part >= problem.parts.size()) continue;
            const auto panel = std::find_if(evaluation.panels->begin(), evaluation.panels->end(),
                                            [&](const Panel& p) { return p.name == problem.parts[part].id; });
            if (panel == evaluation.panels->end()) continue;
            laid.panels.push_back(laidPanel(*panel, problem.parts[part], place));
            if (const auto form = forms.find(laid.panels.back().plate); form != forms.end())
                laid.panels.back().form = form->second;
        }
        out.push_back(std::move(laid));
    }
    return out;
}

} // namespace slab::ui
