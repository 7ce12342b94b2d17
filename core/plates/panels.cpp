// Plates and blanks laid flat: alike ones together, handed ones told apart.
#include "core/plates/congruence.h"
#include "core/plates/folds.h"
#include "core/plates/outline.h"
#include "core/plates/plate.h"
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <map>

namespace slab {

namespace {

/// 64-bit FNV-1a over rounded figures.
struct Hash {
    std::uint64_t value = 14695981039346656037ULL;
    void add(std::int64_t v) {
        for (int i = 0; i < 8; ++i) {
            value ^= static_cast<std::uint64_t>(v >> (8 * i)) & 0xffU;
            value *= 1099511628211ULL;
        }
    }
    /// Plain rounding to a grid of `step`: a value on the border of two steps may change the print by less.
    void add(double v, double step) { add(static_cast<std::int64_t>(std::llround(v / step))); }
    void add(const std::string& s) {
        for (const char c : s) add(static_cast<std::int64_t>(c));
        add(static_cast<std::int64_t>(s.size()));
    }
};

constexpr double lengthStep = 0.05;                                 // mm
constexpr double angleStep = 0.05 * 3.14159265358979323846 / 180.0; // radians

void hashLoop(Hash& hash, const PanelLoop& loop) {
    hash.add(static_cast<std::int64_t>(loop.outer.size()));
    for (const Vec2& p : loop.outer) {
        hash.add(p.x(), lengthStep);
        hash.add(p.y(), lengthStep);
    }
    for (const Vec2& p : loop.inner) {
        hash.add(p.x(), lengthStep);
        hash.add(p.y(), lengthStep);
    }
    for (const auto& e : loop.edges) {
        hash.add(e.bevel, angleStep);
        hash.add(e.role == EdgeRole::fold ? 1 : 0);
    }
}

std::string fingerprint(const Panel& panel) {
    Hash hash;
    hash.add(panel.stock);
    hash.add(panel.thickness, 0.01);
    hashLoop(hash, panel.boundary);
    for (const auto& h : panel.holes) hashLoop(hash, h);
    for (const PanelFold& f : panel.folds) {
        for (const Vec2& p : {f.from, f.to}) {
            hash.add(p.x(), lengthStep);
            hash.add(p.y(), lengthStep);
        }
        hash.add(f.angle, angleStep);
        hash.add(f.valley ? 1 : 0);
    }
    char text[20];
    std::snprintf(text, sizeof text, "%016llx", static_cast<unsigned long long>(hash.value));
    return text;
}

/// Union of both faces; a hole counts where it goes through both.
Polygon footprintOf(const Panel& panel) {
    const auto& b = panel.boundary;
    Polygon best{b.outer, {}};
    bool plain = b.inner.empty();
    if (!plain)
        plain = std::all_of(b.inner.begin(), b.inner.end(),
                            [&](const Vec2& p) { return contains(b.outer, p, 1e-9); }) &&
                isSimple(b.outer);
    if (!plain) {
        auto parts = unite({Polygon{b.outer, {}}, Polygon{b.inner, {}}});
        if (!parts.empty())
            best = *std::max_element(parts.begin(), parts.end(),
                                     [](const Polygon& l, const Polygon& r) { return area(l) < area(r); });
    }
    for (const auto& h : panel.holes) {
        if (h.outer.empty() || h.inner.empty()) continue;
        for (const auto& common :
             intersect({Polygon{reversed(h.outer), {}}}, {Polygon{reversed(h.inner), {}}}))
            best.holes.push_back(reversed(common.outer));
    }
    return best;
}

/// What a candidate meets, in the order of the edges of the panel that it falls on.
/// @param known  of the candidate alone: what it rests on, and what stands on it
PanelCopy copyOf(const Panel& panel, const plates::Match& match, const PanelCopy& known) {
    PanelCopy copy{
        panel.plates.at(match.parts.empty() ? 0 : match.parts.front()), {}, known.rests, known.contacts};
    for (Contact& contact : copy.contacts)
        for (Ring& ring : contact.rings)
            for (Vec2& p : ring) p = match.turn(p);
    for (const auto& [from, shift] : match.loops) {
        const auto& edges = (from == 0 ? panel.boundary : panel.holes[from - 1]).edges;
        std::vector<EdgeMeeting> meetings(edges.size());
        for (std::size_t i = 0; i < edges.size(); ++i)
            meetings[(i + shift) % edges.size()] = {edges[i].neighbour, edges[i].role, edges[i].mark};
        copy.loops.push_back(std::move(meetings));
    }
    return copy;
}

Panel panelOf(const Plate& plate) {
    Panel panel;
    panel.name = plate.name;
    panel.plates = {plate.name};
    panel.stock = plate.stock;
    panel.thickness = plate.thickness;
    panel.boundary = plate.boundary;
    panel.holes = plate.holes;
    return panel;
}

/// "tub/port + rim", "tub/port + rim + 3 more": the plates of one form after the first without its name.
std::string blankName(const std::vector<std::string>& plates) {
    constexpr std::size_t told = 3;
    const std::size_t all = plates.size() <= told ? plates.size() : 2;
    std::string name = plates.front();
    const std::string form = name.substr(0, name.rfind('/') + 1);
    for (std::size_t i = 1; i < all; ++i) {
        const bool same = !form.empty() && plates[i].starts_with(form);
        name += " + " + (same ? plates[i].substr(form.size()) : plates[i]);
    }
    if (all < plates.size()) name += " + " + std::to_string(plates.size() - all) + " more";
    return name;
}

using Named = std::map<std::string, const Plate*>;

/// What stands on the plates of a panel, in its coordinates.
std::vector<Contact> contactsOn(const Panel& panel, const Named& named) {
    std::vector<Contact> all;
    for (std::size_t i = 0; i < panel.plates.size(); ++i)
        for (Contact contact : named.at(panel.plates[i])->contacts) {
            for (Ring& ring : contact.rings)
                for (Vec2& p : ring)
                    if (!panel.parts.empty()) p = plates::placed(panel.parts[i], p);
            all.push_back(std::move(contact));
        }
    return all;
}

/// What follows from the outlines and from how the first plate stands.
void finish(Panel& panel, const Named& named) {
    const Plate& first = *named.at(panel.plates.front());
    const Vec3 w = first.frame.axes.col(2);
    const bool level = plates::isLevel(w);
    const Vec3 up = level ? Vec3::UnitX() : Vec3::UnitZ();
    panel.up = Vec2(first.frame.axes.col(0).dot(up), first.frame.axes.col(1).dot(up)).normalized();
    panel.upWord = level ? "forward" : "up";
    plates::Match itself;
    for (std::size_t i = 0; i <= panel.holes.size(); ++i) itself.loops.push_back({i, 0});
    panel.copies = {copyOf(panel, itself, {{}, {}, first.rests, contactsOn(panel, named)})};
    panel.fingerprint = fingerprint(panel);
    panel.footprint = footprintOf(panel);
}

/// Every part to cut, copies not yet put together, in the order of the plates; a blank where its first plate
/// in that order stands.
std::vector<Panel> candidates(const PlateSet& set) {
    Named named;
    for (const Plate& plate : set.plates) named.emplace(plate.name, &plate);
    std::map<std::string, std::size_t> blankOf;
    for (std::size_t i = 0; i < set.blanks.size(); ++i)
        for (const std::string& plate : set.blanks[i].plates) blankOf.emplace(plate, i);
    std::vector<char> taken(set.blanks.size(), 0);
    std::vector<Panel> all;
    for (const Plate& plate : set.plates) {
        if (plate.boundary.outer.empty()) continue;
        const auto blank = blankOf.find(plate.name);
        if (blank == blankOf.end()) {
            all.push_back(panelOf(plate));
            finish(all.back(), named);
        } else if (!taken[blank->second]) {
            taken[blank->second] = 1;
            all.push_back(set.blanks[blank->second]);
            all.back().name = blankName(all.back().plates);
            finish(all.back(), named);
        }
    }
    return all;
}

/// One more copy of a panel; the plates of a blank in the order of its parts.
void addCopy(Panel& panel, const Panel& copy, const plates::Match& match) {
    panel.copies.push_back(copyOf(copy, match, copy.copies.front()));
    if (match.parts.empty()) panel.plates.push_back(copy.plates.front());
    for (const std::size_t part : match.parts) panel.plates.push_back(copy.plates.at(part));
}

} // namespace

std::vector<Panel> makePanels(const PlateSet& set) {
    std::vector<Panel> panels;
    std::vector<plates::Shape> shapes;
    for (Panel& panel : candidates(set)) {
        plates::Shape shape = plates::shapeOf(panel, false);
        bool found = false;
        for (std::size_t i = 0; i < panels.size() && !found; ++i) {
            if (panels[i].stock != panel.stock) continue;
            if (const auto match = plates::congruent(shape, shapes[i])) {
                addCopy(panels[i], panel, *match);
                found = true;
            }
        }
        if (found) continue;
        const plates::Shape other = plates::shapeOf(panel, true);
        for (std::size_t i = 0; i < panels.size() && panel.mirrorOf.empty(); ++i)
            if (panels[i].stock == panel.stock && plates::congruent(other, shapes[i]))
                panel.mirrorOf = panels[i].name;
        panels.push_back(std::move(panel));
        shapes.push_back(std::move(shape));
    }
    return panels;
}

} // namespace slab
