#include "core/pack/drawings.h"
#include "core/drawing/paper_frame.h"
#include "core/frames/way_words.h"
#include "core/plates/placements.h"
#include <algorithm>
#include <cmath>

namespace slab {
namespace {

const Sheet* stockOf(const Evaluation& evaluation, const Panel& panel) {
    return evaluation.stock ? evaluation.stock->find(panel.stock) : nullptr;
}

bool isNominal(const Evaluation& evaluation, const Panel& panel) {
    const Sheet* sheet = stockOf(evaluation, panel);
    return !sheet || !sheet->measured;
}

std::string otherHandOf(const std::vector<Panel>& panels, const Panel& panel) {
    for (const Panel& other : panels)
        if (!other.mirrorOf.empty() && other.mirrorOf == panel.name) return other.name;
    return panel.mirrorOf;
}

/// "up", "down", "forward", "back", "to port", "to starboard": the way nearest to a direction.
std::string pointingWord(const Vec3& way) {
    if (std::abs(way.z()) > 0.5) return way.z() > 0 ? "up" : "down";
    if (std::abs(way.x()) >= std::abs(way.y())) return way.x() > 0 ? "forward" : "back";
    return way.y() > 0 ? "to port" : "to starboard";
}

/// The outside of a frame's board is nowhere near the body's outside: where it looks must be told.
std::vector<std::string> facingOf(const Evaluation& evaluation, const Panel& panel) {
    std::vector<std::pair<std::string, std::string>> copies;
    bool differ = false;
    for (const std::string& name : panel.cutFrom.empty() ? panel.plates : panel.cutFrom)
        if (evaluation.plates)
            for (const Plate& plate : evaluation.plates->plates) {
                if (plate.name != name || !plate.form.starts_with("frames/")) continue;
                copies.emplace_back(name, facingWords(plate.frame.axes.col(2)));
                differ = differ || copies.back().second != copies.front().second;
            }
    std::vector<std::string> lines;
    for (const auto& [name, words] : copies) lines.push_back(differ ? name + " " + words : words);
    if (!differ && lines.size() > 1) lines.resize(1);
    return lines;
}

const std::vector<Panel>& panelsOf(const Evaluation& evaluation) {
    static const std::vector<Panel> none;
    return evaluation.panels ? *evaluation.panels : none;
}

} // namespace

std::vector<std::string> arrowsOf(const Evaluation& evaluation, const std::vector<Panel>& panels,
                                  const Panel& panel) {
    if (panel.copyCount() < 2 || !panel.parts.empty() || !evaluation.plates) return {};
    const std::map<std::string, Frame> placed = panelPlacements(*evaluation.plates, panels);
    const auto& names = panel.cutFrom.empty() ? panel.plates : panel.cutFrom;
    std::vector<std::string> arrows;
    bool differ = false;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const auto frame = placed.find(names[i]);
        if (frame == placed.end()) return {};
        arrows.push_back(pointingWord(frame->second.axes.leftCols<2>() * panel.up));
        differ = differ || arrows.back() != arrows.front();
    }
    return differ ? arrows : std::vector<std::string>{};
}

Paper drawingPaper(const Project& project, const UnitStyle& units) {
    const bool inch = isInch(units);
    const Expected<Paper> own = paperNamed(project.paper);
    const Expected<Paper> usual = paperNamed(inch ? "Letter" : "A4");
    Paper paper = own && own->height > 0 ? *own : usual.value_or(Paper{"A4", 210, 297});
    if (paper.width < paper.height) std::swap(paper.width, paper.height);
    return paper;
}

Expected<Paper> templatePaper(const Project& project) {
    return paperNamed(project.paper);
}

PanelDrawingOptions panelOptions(const Project& project, const Evaluation& evaluation, std::size_t index) {
    const std::vector<Panel>& panels = panelsOf(evaluation);
    const Panel& panel = panels.at(index);
    const Paper paper = drawingPaper(project, evaluation.units);
    PanelDrawingOptions options;
    options.units = evaluation.units;
    options.width = paper.width;
    options.height = paper.height;
    options.title = project.title;
    options.nominal = isNominal(evaluation, panel);
    options.number = static_cast<int>(index) + 1;
    options.count = static_cast<int>(panels.size());
    options.otherHand = otherHandOf(panels, panel);
    const Sheet* sheet = stockOf(evaluation, panel);
    options.tint = tintFor(sheet ? sheet->kind : "foam");
    options.facing = facingOf(evaluation, panel);
    options.arrows = arrowsOf(evaluation, panels, panel);
    return options;
}

TemplateOptions templateOptions(const Project& project, const Evaluation& evaluation, const Panel& panel,
                                const Paper& paper) {
    TemplateOptions options;
    options.paper = paper;
    options.units = evaluation.units;
    options.title = project.title;
    options.nominal = isNominal(evaluation, panel);
    options.facing = facingOf(evaluation, panel);
    options.arrows = arrowsOf(evaluation, panelsOf(evaluation), panel);
    return options;
}

Drawing templateDrawing(const Project& project, const Evaluation& evaluation, const TemplateWish& wish,
                        const Job& job) {
    Drawing drawing{project.title + " – templates, " + wish.paper.name, {}};
    TemplateOptions first;
    first.paper = wish.paper;
    first.border = wish.border;
    first.overlap = wish.overlap;
    first.units = evaluation.units;
    first.title = project.title;
    drawing.pages.push_back(calibrationPage(first));
    addCautions(drawing.pages.back());
    for (const Panel& panel : panelsOf(evaluation)) {
        if (job.stopped()) break;
        if (wish.panels &&
            std::find(wish.panels->begin(), wish.panels->end(), panel.name) == wish.panels->end())
            continue;
        TemplateOptions options = templateOptions(project, evaluation, panel, wish.paper);
        options.border = wish.border;
        options.overlap = wish.overlap;
        for (Page& page : templatePages(panel, options)) drawing.pages.push_back(std::move(page));
    }
    return drawing;
}

Drawing templateDrawing(const Project& project, const Evaluation& evaluation, const Paper& paper,
                        const Job& job) {
    TemplateWish wish;
    wish.paper = paper;
    wish.border = wish.overlap = usualMargin(evaluation.units);
    return templateDrawing(project, evaluation, wish, job);
}

Drawing panelDrawing(const Project& project, const Evaluation& evaluation) {
    Drawing drawing{project.title + " – panels", {}};
    const std::vector<Panel>& panels = panelsOf(evaluation);
    for (std::size_t i = 0; i < panels.size(); ++i)
        for (Page& page : panelPages(panels[i], panelOptions(project, evaluation, i)))
            drawing.pages.push_back(std::move(page));
    if (!drawing.pages.empty()) addCautions(drawing.pages.front());
    return drawing;
}

std::vector<Page> sheetPages(const Evaluation& evaluation) {
    std::vector<Page> pages;
    if (!evaluation.sheets || !evaluation.nestProblem || !evaluation.stock) return pages;
    int number = 0;
    for (const NestLayout& layout : evaluation.sheets->layouts)
        pages.push_back(
            sheetPage(*evaluation.nestProblem, layout, panelsOf(evaluation), *evaluation.stock, ++number));
    return pages;
}

Drawing sheetDrawing(const Project& project, const Evaluation& evaluation) {
    Drawing drawing{project.title + " – sheets", {}};
    const Paper paper = drawingPaper(project, evaluation.units);
    for (const Page& sheet :
         sheetPages(evaluation)) // upright: the sheet across the full width, the table under it
        for (Page& page : sheetPaperPages(sheet, project.title, paper.height, paper.width, evaluation.units))
            drawing.pages.push_back(std::move(page));
    if (!drawing.pages.empty()) addCautions(drawing.pages.front());
    return drawing;
}

Page panelSvgPage(const Panel& panel, Ink tint) {
    constexpr double clear = 10;
    Page page;
    page.name = panel.name;
    page.groups = {panelGroup(panel, tint)};
    if (panel.boundary.outer.empty()) return page;
    Box2 box = bounds(panel.boundary.outer);
    if (!panel.boundary.inner.empty()) box = united(box, bounds(panel.boundary.inner));
    page.width = box.size().x() + 2 * clear;
    page.height = box.size().y() + 2 * clear;
    page.shift = Vec2(clear, clear) - box.min;
    return page;
}

} // namespace slab
