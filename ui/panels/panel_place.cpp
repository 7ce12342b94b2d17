#include "ui/panels/panel_place.h"
#include "core/evaluate/stages.h"
#include "core/plates/placements.h"
#include "ui/paint/paper_view.h"
#include "ui/panels/blank_edges.h"
#include "ui/panels/edge_story.h"
#include <algorithm>
#include <limits>

namespace slab::ui {

namespace {

double toRing(const Vec2& p, const Ring& ring) {
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &a = ring[i], &b = ring[(i + 1) % ring.size()];
        least = std::min(least, distanceToSegment({p.x(), p.y()}, {a.x(), a.y()}, {b.x(), b.y()}));
    }
    return least;
}

} // namespace

const PanelPlate* PanelPlace::at(const Vec2& onPanel) const {
    for (const PanelPlate& one : plates)
        if (contains(one.outline, onPanel)) return &one;
    return nullptr;
}

const PanelPlate* PanelPlace::find(const std::string& name) const {
    for (const PanelPlate& one : plates)
        if (one.plate->name == name) return &one;
    return nullptr;
}

const PanelOpening* PanelPlace::opening(int index) const {
    for (const PanelOpening& one : openings)
        if (one.index == index) return &one;
    return nullptr;
}

const PanelOpening* PanelPlace::openingAt(const Vec2& onPanel, double reach) const {
    const PanelOpening* best = nullptr;
    double least = std::numeric_limits<double>::infinity();
    for (const PanelOpening& one : openings) {
        if (!contains(one.outline, onPanel) && toRing(onPanel, one.outline) > reach) continue;
        const double size = area({one.outline, {}});
        if (size < least) least = size, best = &one;
    }
    return best;
}

PanelPlace panelPlaceOf(const Session& session, const Panel& panel, const std::string& shown) {
    PanelPlace out;
    const Evaluation& e = session.evaluation();
    if (!e.plates || !e.panels || !e.body) return out;
    const std::size_t parts = std::max<std::size_t>(panel.parts.size(), 1);
    const auto found = std::find(panel.plates.begin(), panel.plates.end(), shown);
    const auto copy =
        found == panel.plates.end() ? 0 : static_cast<std::size_t>(found - panel.plates.begin()) / parts;
    const auto& names = panel.cutFrom.empty() ? panel.plates : panel.cutFrom;
    for (std::size_t part = 0; part < parts && copy * parts + part < names.size(); ++part) {
        const Plate* plate = findPlate(e, names[copy * parts + part]);
        const auto frame = panelPlace(*e.plates, *e.panels, panel, copy, part);
        if (!plate || !frame) continue;
        PanelPlate one{plate, *frame, {}};
        for (const Vec2& p : plate->boundary.outer) one.outline.push_back(one.toPanel(p));
        out.plates.push_back(std::move(one));
    }
    const Scope scope = scopeNow(session);
    for (const PanelPlate& one : out.plates)
        for (const FlatOpening& flat : openingsOn(*one.plate, *e.body, session.project(), scope)) {
            PanelOpening opening{flat.index, flat.name, one.plate->name, one.toPanel(flat.at), {}};
            for (const Vec2& p : flat.outline) opening.outline.push_back(one.toPanel(p));
            out.openings.push_back(std::move(opening));
        }
    return out;
}

Scope scopeNow(const Session& session) {
    std::vector<Finding> told; // by the pipeline
    const auto scale = readScale(session.project().scale);
    return resolveScope(session.project(), scale ? *scale : session.evaluation().scale, told);
}

} // namespace slab::ui
