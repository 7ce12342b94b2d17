#include "core/drawing/corner_table.h"
#include "core/base/index.h"
#include "core/drawing/outline_arcs.h"
#include "core/drawing/panel_facts.h"
#include <algorithm>
#include <cmath>

namespace slab {
namespace {

/// Four corners, level and plumb: its size and its place tell all.
bool isUprightBox(const Ring& ring) {
    constexpr double near = 0.05; // mm
    if (ring.size() != 4) return false;
    const Box2 box = bounds(ring);
    return std::all_of(ring.begin(), ring.end(), [&](const Vec2& p) {
        const Vec2 low = (p - box.min).cwiseAbs(), high = (box.max - p).cwiseAbs();
        return (low.cwiseMin(high).array() < near).all();
    });
}

class CornerTables {
public:
    CornerTables(const Panel& panel, const UnitStyle& units)
        : m_units(units), m_datum(bounds(panel.boundary.outer).min) {
        add(panel.boundary.outer, "");
        for (std::size_t i = 0; i < panel.holes.size(); ++i) {
            const Ring& hole = panel.holes[i].outer;
            if (hole.size() >= 3) add(hole, openingLetter(i));
        }
    }

    [[nodiscard]] std::vector<Table> tables() const {
        std::vector<Table> out;
        if (!m_corners.empty()) out.push_back(cornerTable());
        if (!m_arcs.empty()) out.push_back(arcTable());
        return out;
    }

private:
    void add(const Ring& ring, const std::string& letter) {
        const std::size_t n = ring.size();
        if (toldCorners(ring).empty()) return;
        for (const OutlineArc& arc : arcsOf(ring)) {
            const Vec2 centre = arc.centre - m_datum;
            m_arcs.push_back(
                {letter + std::to_string(arc.first + 1) + "–" + letter + std::to_string(at(arc.last) % n + 1),
                 size(centre.x(), m_units), size(centre.y(), m_units), size(arc.radius, m_units),
                 arc.hollow ? "hollow" : "round"});
        }
        for (const std::size_t i : toldCorners(ring)) {
            const Vec2 p = ring[i] - m_datum;
            m_corners.push_back({letter + std::to_string(i + 1), size(p.x(), m_units), size(p.y(), m_units)});
        }
    }
    /// Two corners a line.
    [[nodiscard]] Table cornerTable() const {
        const TableColumn number{"", 6, Align::left, true};
        Table table{"Corners from ⊕",
                    {number,
                     {"right", 20, Align::right, true},
                     {"up", 20, Align::right, true},
                     {"", 1},
                     number,
                     {"right", 20, Align::right, true},
                     {"up", 20, Align::right, true}},
                    true,
                    {},
                    "Corner n is where edge n begins; the outline runs counter-clockwise.",
                    true};
        if (!m_arcs.empty()) table.note += " Those on curves stand under Curves.";
        const std::size_t lines = (m_corners.size() + 1) / 2;
        for (std::size_t i = 0; i < lines; ++i) {
            std::vector<std::string> row = m_corners[i];
            if (i + lines < m_corners.size()) {
                row.push_back("");
                row.insert(row.end(), m_corners[i + lines].begin(), m_corners[i + lines].end());
            }
            table.rows.push_back(std::move(row));
        }
        return table;
    }
    [[nodiscard]] Table arcTable() const {
        return {"Curves from ⊕",
                {{"corners", 20, Align::left, true},
                 {"centre right", 20, Align::right, true},
                 {"centre up", 20, Align::right, true},
                 {"radius", 18, Align::right, true},
                 {"", 14}},
                true,
                m_arcs,
                "Between these corners the outline follows a circle: strike it with a trammel or a string.",
                true};
    }

    UnitStyle m_units;
    Vec2 m_datum;
    std::vector<std::vector<std::string>> m_corners, m_arcs;
};

} // namespace

std::vector<std::size_t> toldCorners(const Ring& ring) {
    if (ring.size() < 3 || circleThrough(ring) || isUprightBox(ring)) return {};
    std::vector<bool> within(ring.size());
    for (const OutlineArc& arc : arcsOf(ring))
        for (int i = arc.first + 1; i < arc.last; ++i) within[at(i) % ring.size()] = true;
    std::vector<std::size_t> corners;
    for (std::size_t i = 0; i < ring.size(); ++i)
        if (!within[i]) corners.push_back(i);
    return corners;
}

std::vector<Table> cornerTables(const Panel& panel, const UnitStyle& units) {
    if (panel.boundary.outer.size() < 3) return {};
    return CornerTables(panel, units).tables();
}

} // namespace slab
