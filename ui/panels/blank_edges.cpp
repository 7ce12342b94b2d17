#include "ui/panels/blank_edges.h"
#include <algorithm>

namespace slab::ui {

namespace {

struct Place {
    int part = 0;
    std::size_t copy = 0;
};

Place placeOf(const Panel& panel, const std::string& plate) {
    const auto found = std::find(panel.plates.begin(), panel.plates.end(), plate);
    if (found == panel.plates.end() || panel.parts.empty()) return {};
    const auto index = static_cast<std::size_t>(found - panel.plates.begin());
    return {static_cast<int>(index % panel.parts.size()), index / panel.parts.size()};
}

const std::string& plateAt(const Panel& panel, std::size_t copy, int part) {
    return panel.plates[copy * panel.parts.size() + static_cast<std::size_t>(part)];
}

const EdgeMeeting* meeting(const Panel& panel, std::size_t copy, std::size_t edge) {
    if (copy >= panel.copies.size() || panel.copies[copy].loops.empty()) return nullptr;
    const auto& boundary = panel.copies[copy].loops.front();
    return edge < boundary.size() ? &boundary[edge] : nullptr;
}

/// Own edge of a plate that has what is asked for; -1 = none.
template <class Is>
int edgeOf(const PlateSet& plates, const std::string& name, const Is& is) {
    for (const Plate& plate : plates.plates) {
        if (plate.name != name) continue;
        const auto& edges = plate.boundary.edges;
        const auto found = std::find_if(edges.begin(), edges.end(), is);
        return found == edges.end() ? -1 : static_cast<int>(found - edges.begin());
    }
    return -1;
}

} // namespace

std::vector<PanelEdge> blankEdges(const Panel& panel, const std::string& shown) {
    const std::size_t copy = placeOf(panel, shown).copy;
    std::vector<PanelEdge> out = panel.boundary.edges;
    for (std::size_t i = 0; i < out.size(); ++i)
        if (const EdgeMeeting* m = meeting(panel, copy, i)) out[i].neighbour = m->neighbour;
    for (const PanelFold& fold : panel.folds) {
        PanelEdge edge;
        edge.neighbour = plateAt(panel, copy, fold.b);
        edge.role = EdgeRole::fold;
        edge.dihedral = fold.dihedral;
        edge.length = (fold.to - fold.from).norm();
        edge.part = fold.a;
        out.push_back(std::move(edge));
    }
    return out;
}

std::pair<std::string, int> blankEdge(const Panel& panel, const PlateSet& plates, const std::string& shown,
                                      int drawn) {
    const auto [part, copy] = placeOf(panel, shown);
    const auto i = static_cast<std::size_t>(drawn);
    const std::size_t outline = panel.boundary.edges.size();
    if (i < outline) {
        const PanelEdge& edge = panel.boundary.edges[i];
        const std::string& plate = plateAt(panel, copy, edge.part);
        if (copy == 0) return {plate, edge.own};
        const EdgeMeeting* m = meeting(panel, copy, i);
        if (!m || m->mark == 0) return {plate, -1};
        return {plate, edgeOf(plates, plate, [&](const PanelEdge& e) { return e.mark == m->mark; })};
    }
    if (i - outline >= panel.folds.size()) return {shown, -1};
    const PanelFold& fold = panel.folds[i - outline];
    const bool second = fold.b == part;
    const std::string& plate = plateAt(panel, copy, second ? fold.b : fold.a);
    if (copy == 0) return {plate, second ? fold.edgeB : fold.edgeA};
    const std::string& other = plateAt(panel, copy, second ? fold.a : fold.b);
    return {plate, edgeOf(plates, plate, [&](const PanelEdge& e) {
                return e.role == EdgeRole::fold && e.neighbour == other;
            })};
}

int drawnEdge(const Panel& panel, const PlateSet& plates, const std::string& shown, int own) {
    const std::size_t count = panel.boundary.edges.size() + panel.folds.size();
    for (int i = 0; i < static_cast<int>(count); ++i)
        if (blankEdge(panel, plates, shown, i) == std::pair(shown, own)) return i;
    return -1;
}

std::pair<Vec2, Vec2> drawnEnds(const Panel& panel, std::size_t drawn) {
    const Ring& ring = panel.boundary.outer;
    if (drawn < ring.size()) return {ring[drawn], ring[(drawn + 1) % ring.size()]};
    const PanelFold& fold = panel.folds.at(drawn - ring.size());
    return {fold.from, fold.to};
}

std::string wholeOf(const Panel& panel, const std::string& shown) {
    for (std::size_t i = 0; i < panel.cutFrom.size() && i < panel.plates.size(); ++i)
        if (panel.plates[i] == shown) return panel.cutFrom[i];
    return shown;
}

std::pair<std::string, int> pieceEdge(const Panel& panel, const PlateSet& plates, const std::string& shown,
                                      int drawn) {
    const auto found = std::find(panel.plates.begin(), panel.plates.end(), shown);
    const auto copy = static_cast<std::size_t>(found - panel.plates.begin());
    const auto i = static_cast<std::size_t>(drawn);
    if (i >= panel.boundary.edges.size() || copy >= panel.cutFrom.size()) return {shown, drawn};
    const int own = panel.boundary.edges[i].own;
    if (own < 0) return {shown, drawn};
    if (copy == 0) return {panel.cutFrom[copy], own};
    const EdgeMeeting* m = meeting(panel, copy, i); // copies number their edges in their own way
    const int there = m && m->mark > 0 ? edgeOf(plates, panel.cutFrom[copy],
                                                [&](const PanelEdge& e) { return e.mark == m->mark; })
                                       : -1;
    return there < 0 ? std::pair(shown, drawn) : std::pair(panel.cutFrom[copy], there);
}

int drawnPieceEdge(const Panel& panel, const PlateSet& plates, const std::string& shown, int own) {
    const std::pair<std::string, int> wanted(wholeOf(panel, shown), own);
    for (int i = 0; i < static_cast<int>(panel.boundary.edges.size()); ++i)
        if (pieceEdge(panel, plates, shown, i) == wanted) return i;
    return -1;
}

const std::vector<PanelEdge>& edgesOf(const Panel& panel, const Plate* shown) {
    if (shown && !panel.folds.empty()) return shown->boundary.edges; // of a blank: the chosen plate's own
    if (!panel.cutFrom.empty()) return panel.boundary.edges;
    if (shown && shown->boundary.edges.size() == panel.boundary.edges.size()) return shown->boundary.edges;
    return panel.boundary.edges;
}

std::pair<std::string, int> plateEdge(const Panel& panel, const PlateSet& plates, const std::string& shown,
                                      int drawn) {
    if (!panel.cutFrom.empty()) return pieceEdge(panel, plates, shown, drawn);
    if (panel.folds.empty()) return {shown, drawn};
    return blankEdge(panel, plates, shown, drawn);
}

std::vector<Ring> otherPieces(const std::vector<Panel>& panels, const Panel& panel) {
    std::vector<Ring> out;
    for (const Panel& other : panels)
        if (!panel.cutFrom.empty() && other.cutFrom == panel.cutFrom && other.name != panel.name)
            out.push_back(other.boundary.outer);
    return out;
}

} // namespace slab::ui
