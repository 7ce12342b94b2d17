// Plates and blanks laid flat: alike ones together, handed ones told apart.
#include "core/base/parallel.h"
#include "core/plates/congruence.h"
#include "core/plates/folds.h"
#include "core/plates/outline.h"
#include "core/plates/panel_figures.h"
#include "core/plates/placements.h"
#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

namespace slab {

namespace {

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
    panel.guides = plate.guides;
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
    plates::setFigures(panel);
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
        } else if (!taken[blank->second]) {
            taken[blank->second] = 1;
            all.push_back(set.blanks[blank->second]);
            all.back().name = blankName(all.back().plates);
        }
    }
    shareOut(all.size(), [&](std::size_t i) { finish(all[i], named); });
    return all;
}

/// One more copy of a panel; the plates of a blank in the order of its parts.
void addCopy(Panel& panel, const Panel& copy, const plates::Match& match) {
    panel.copies.push_back(copyOf(copy, match, copy.copies.front()));
    if (match.parts.empty()) panel.plates.push_back(copy.plates.front());
    for (const std::size_t part : match.parts) panel.plates.push_back(copy.plates.at(part));
}

/// Told of every further copy of a panel.
using OnCopy = std::function<void(const Panel& panel, const Panel& copy, const plates::Match& match)>;

std::vector<Panel> grouped(const PlateSet& set, const OnCopy& onCopy) {
    std::vector<Panel> panels;
    std::vector<plates::Shape> shapes;
    for (Panel& panel : candidates(set)) {
        plates::Shape shape = plates::shapeOf(panel, false);
        bool found = false;
        for (std::size_t i = 0; i < panels.size() && !found; ++i) {
            if (panels[i].stock != panel.stock) continue;
            if (const auto match = plates::congruent(shape, shapes[i])) {
                onCopy(panels[i], panel, *match);
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

/// The frame after its flat coordinates x were changed for turn(x).
template <class Turned>
Frame reframed(const Frame& frame, const Turned& turn) {
    const Vec2 shift = turn(Vec2::Zero()), along = (turn(Vec2::UnitX()) - shift).normalized();
    Frame out = frame;
    out.axes.col(0) = frame.axes.col(0) * along.x() - frame.axes.col(1) * along.y();
    out.axes.col(1) = frame.axes.col(0) * along.y() + frame.axes.col(1) * along.x();
    out.origin = frame.origin - out.axes.col(0) * shift.x() - out.axes.col(1) * shift.y();
    return out;
}

Vec2 unplaced(const PanelPart& part, const Vec2& p) {
    const Vec2 d = p - part.shift;
    const double c = std::cos(part.turn), s = std::sin(part.turn);
    return {c * d.x() + s * d.y(), c * d.y() - s * d.x()};
}

} // namespace

std::vector<Panel> makePanels(const PlateSet& set) {
    return grouped(set, [](const Panel&, const Panel&, const plates::Match&) {});
}

std::map<std::string, Frame> panelPlacements(const PlateSet& set, const std::vector<Panel>& panels) {
    std::map<std::string, Frame> own, frames;
    for (const Plate& plate : set.plates)
        if (!plate.boundary.outer.empty()) own.emplace(plate.name, plate.frame);
    frames = own;
    (void)grouped(set, [&](const Panel& panel, const Panel& copy, const plates::Match& match) {
        if (copy.parts.empty()) {
            Frame& frame = frames.at(copy.plates.front());
            frame = reframed(frame, match.turn);
        }
        for (std::size_t i = 0; i < match.parts.size() && !copy.parts.empty(); ++i) {
            const PanelPart &own = copy.parts[match.parts[i]], &first = panel.parts[i];
            Frame& frame = frames.at(own.plate);
            frame = reframed(
                frame, [&](const Vec2& p) { return unplaced(first, match.turn(plates::placed(own, p))); });
        }
    });
    // Strips were laid flat by themselves: alike ones among the others may stand first in their group here.
    const std::map<std::string, Frame> inGroup = frames;
    for (const Panel& panel : panels) {
        const auto& of = panel.cutFrom.empty() ? panel.plates : panel.cutFrom;
        if (of.empty() || !panel.parts.empty() || !own.contains(of.front())) continue;
        const Frame &first = own.at(of.front()), &there = inGroup.at(of.front());
        for (const std::string& plate : of) {
            const auto frame = frames.find(plate);
            if (frame == frames.end()) continue;
            const Frame& at = inGroup.at(plate);
            frame->second.origin = at.toBody(there.toLocal(first.origin));
            frame->second.axes = at.axes * (there.axes.transpose() * first.axes);
        }
    }
    return frames;
}

std::optional<Frame> panelPlace(const PlateSet& set, const std::vector<Panel>& panels, const Panel& panel,
                                std::size_t copy, std::size_t part) {
    const auto& of = panel.cutFrom.empty() ? panel.plates : panel.cutFrom;
    const std::size_t at = copy * std::max<std::size_t>(panel.parts.size(), 1) + part;
    if (at >= of.size()) return std::nullopt;
    const auto frames = panelPlacements(set, panels);
    const auto found = frames.find(of[at]);
    if (found == frames.end()) return std::nullopt;
    if (panel.parts.empty()) return found->second;
    const PanelPart& flat = panel.parts[part];
    const auto toBody = [&](const Vec2& p) { return found->second.toBody(unplaced(flat, p)); };
    Frame out = found->second;
    out.origin = toBody(Vec2::Zero());
    out.axes.col(0) = toBody(Vec2::UnitX()) - out.origin;
    out.axes.col(1) = toBody(Vec2::UnitY()) - out.origin;
    return out;
}

} // namespace slab
