#include "core/drawing/contact_ink.h"
#include "core/drawing/tiles.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

constexpr double contactLine = 0.25, linePitch = 1.35; // mm; lines of words by their height

/// Angle of a direction turned so that words along it are never upside down.
double uprightTurn(const Vec2& along) {
    double turn = std::atan2(along.y(), along.x());
    if (turn > std::numbers::pi / 2 + 1e-9) turn -= std::numbers::pi;
    if (turn <= -std::numbers::pi / 2 + 1e-9) turn += std::numbers::pi;
    return turn;
}

bool alikeRings(const std::vector<Ring>& a, const std::vector<Ring>& b) {
    constexpr double near = 0.5; // mm
    if (a.size() != b.size()) return false;
    for (std::size_t i = 0; i < a.size(); ++i) {
        const Box2 p = bounds(a[i]), q = bounds(b[i]);
        if ((p.min - q.min).norm() > near || (p.max - q.max).norm() > near) return false;
        if (std::abs(signedArea(a[i]) - signedArea(b[i])) > near * (p.size().x() + p.size().y()))
            return false;
    }
    return true;
}

const Ring& mainRing(const ContactSpot& spot) {
    return *std::max_element(spot.rings.begin(), spot.rings.end(), [](const Ring& a, const Ring& b) {
        return std::abs(signedArea(a)) < std::abs(signedArea(b));
    });
}

/// Along the longest side; level in what is round, whose sides are all short.
Vec2 longestWay(const Ring& ring) {
    constexpr double sideShare = 0.15; // of the ring's extent
    Vec2 along = Vec2::UnitX();
    double longest = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 side = ring[(i + 1) % ring.size()] - ring[i];
        if (side.norm() <= longest * (1 + 1e-9)) continue;
        longest = side.norm();
        along = side / longest;
    }
    if (longest < sideShare * bounds(ring).size().norm()) return Vec2::UnitX();
    return along;
}

/// A ring's box along a direction.
struct Lying {
    Vec2 centre, along, across;
    double half = 0, wide = 0; ///< half of its length and of its width
};

Lying lyingOf(const Ring& ring, const Vec2& along) {
    const double turn = uprightTurn(along);
    Lying l{Vec2::Zero(), {std::cos(turn), std::sin(turn)}, {-std::sin(turn), std::cos(turn)}};
    Vec2 low(1e300, 1e300), high = -low;
    for (const Vec2& p : ring) {
        const Vec2 here(l.along.dot(p), l.across.dot(p));
        low = low.cwiseMin(here);
        high = high.cwiseMax(here);
    }
    const Vec2 middle = (low + high) / 2;
    l.centre = l.along * middle.x() + l.across * middle.y();
    l.half = (high.x() - low.x()) / 2;
    l.wide = (high.y() - low.y()) / 2;
    return l;
}

/// Lines of words as one block.
struct Block {
    const std::vector<std::string>& lines;
    double height = 0;
    [[nodiscard]] Vec2 size() const {
        double width = 0;
        for (const std::string& line : lines)
            width = std::max(width, textWidth(line, {height, false, false}));
        return {width, height * (1 + linePitch * static_cast<double>(lines.size() - 1))};
    }
};

/// One place for a block: its middle and the way its lines run.
struct BlockPlace {
    Vec2 centre, along;
};

Ring cornersOf(const BlockPlace& place, const Vec2& size, double margin) {
    const Vec2 x = place.along * (size.x() / 2 + margin);
    const Vec2 y = Vec2(-place.along.y(), place.along.x()) * (size.y() / 2 + margin);
    return {place.centre - x - y, place.centre + x - y, place.centre + x + y, place.centre - x + y};
}

/// Does the segment run through the convex ring?
bool crosses(const Ring& ring, const Vec2& a, const Vec2& b) {
    double from = 0, to = 1;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 side = ring[(i + 1) % ring.size()] - ring[i];
        const double da = cross2(side, a - ring[i]), db = cross2(side, b - ring[i]);
        if (da < 0 && db < 0) return false;
        if (da < 0) from = std::max(from, da / (da - db));
        if (db < 0) to = std::min(to, da / (da - db));
    }
    return from < to;
}

bool isFree(const BlockPlace& place, const Vec2& size, const WordRoom& room) {
    const Ring corners = cornersOf(place, size, 0.6);
    const Box2 box = bounds(corners);
    const Area& r = room.region;
    if (box.min.x() < r.x || box.min.y() < r.y || box.max.x() > r.right() || box.max.y() > r.top())
        return false;
    if (!std::all_of(corners.begin(), corners.end(), [&](const Vec2& p) { return contains(room.face, p); }))
        return false;
    const Area area{box.min.x(), box.min.y(), box.size().x(), box.size().y()};
    if (std::any_of(room.taken.begin(), room.taken.end(), [&](const Area& o) { return o.meets(area); }))
        return false;
    for (const Ring& line : room.lines)
        for (std::size_t i = 0; i < line.size(); ++i)
            if (crosses(corners, line[i], line[(i + 1) % line.size()])) return false;
    return true;
}

void setBlock(const Block& block, const BlockPlace& place, WordRoom& room, const Pen& pen) {
    const Vec2 down(place.along.y(), -place.along.x());
    const double first = -linePitch * block.height * static_cast<double>(block.lines.size() - 1) / 2;
    for (std::size_t i = 0; i < block.lines.size(); ++i)
        pen.wordsMiddle(place.centre + down * (first + linePitch * block.height * static_cast<double>(i)),
                        block.lines[i],
                        {block.height, Align::centre, Ink::line, false, false, uprightTurn(place.along)});
    const Box2 box = bounds(cornersOf(place, block.size(), 0.4));
    room.taken.push_back({box.min.x(), box.min.y(), box.size().x(), box.size().y()});
}

/// In the contact, then beside it, then further off.
bool placeAt(const Lying& spot, const Block& block, WordRoom& room, const Pen& pen) {
    const Vec2 size = block.size();
    std::vector<Vec2> places; // along, across
    const auto slides = {0.0, 0.25, -0.25, 0.5, -0.5, 0.75, -0.75, 0.92, -0.92};
    if (2 * spot.wide > size.y() + 1.4)
        for (const double slide : slides) places.push_back({slide, 0});
    for (const double off : {0.9, 2.2, 4.5, 8.0, 12.0})
        for (const double slide : slides)
            for (const double side : {1.0, -1.0})
                places.push_back({slide, side * (spot.wide + off + size.y() / 2)});
    for (const Vec2& p : places) {
        const BlockPlace place{spot.centre + spot.along * p.x() * spot.half + spot.across * p.y(),
                               spot.along};
        if (!isFree(place, size, room)) continue;
        setBlock(block, place, room, pen);
        return true;
    }
    return false;
}

/// Its ends from left to right; of two alike the lower one.
std::pair<Vec2, Vec2> longestSide(const Ring& ring) {
    std::pair<Vec2, Vec2> best;
    double longest = -1;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        Vec2 a = ring[i], b = ring[(i + 1) % ring.size()];
        if (b.x() < a.x() - 1e-6 || (b.x() <= a.x() + 1e-6 && b.y() < a.y())) std::swap(a, b);
        const double length = (b - a).norm();
        const bool lower = a.y() + b.y() < best.first.y() + best.second.y() - 1e-6;
        if (length > longest + 0.01 || (length > longest - 0.01 && lower)) {
            longest = std::max(length, longest);
            best = {a, b};
        }
    }
    return best;
}

/// What of each contact is seen on a page, in its coordinates.
std::vector<ContactSpot> contactsSeen(const Panel& panel, const PanelMap& map, const Area& page) {
    std::vector<ContactSpot> seen;
    for (ContactSpot spot : contactSpots(panel)) {
        std::vector<Polygon> solid, gaps;
        for (const Ring& ring : spot.rings)
            if (signedArea(ring) > 0)
                solid.push_back({map.ring(ring), {}});
            else
                gaps.push_back({reversed(map.ring(ring)), {}});
        spot.rings.clear();
        for (const Polygon& part : subtract(intersect(solid, {{ringOf(page), {}}}), gaps)) {
            spot.rings.push_back(part.outer);
            spot.rings.insert(spot.rings.end(), part.holes.begin(), part.holes.end());
        }
        if (!spot.rings.empty()) seen.push_back(std::move(spot));
    }
    return seen;
}

std::string markPrefix(int mark) {
    return mark > 0 ? std::to_string(mark) + "  " : "";
}

} // namespace

std::vector<ContactSpot> contactSpots(const Panel& panel) {
    std::vector<ContactSpot> spots;
    for (std::size_t c = 0; c < panel.copies.size(); ++c)
        for (const Contact& contact : panel.copies[c].contacts) {
            if (contact.rings.empty()) continue;
            std::string words = markPrefix(contact.mark) + contact.plate;
            if (contact.inside) words += ", inside face";
            if (panel.copies.size() > 1) words += " on " + contact.on;
            auto spot = std::find_if(spots.begin(), spots.end(), [&](const ContactSpot& s) {
                return s.inside == contact.inside && alikeRings(s.rings, contact.rings);
            });
            if (spot == spots.end())
                spot = spots.insert(spots.end(), {contact.rings, contact.inside, Vec2::UnitX(), {}, {}});
            spot->along = longestWay(mainRing(*spot));
            spot->words.push_back(std::move(words));
            if (contact.mark > 0) spot->marks.push_back(std::to_string(contact.mark));
        }
    return spots;
}

std::vector<std::string> restLines(const Panel& panel) {
    std::vector<std::string> lines;
    for (const PanelCopy& copy : panel.copies)
        for (const FaceRest& rest : copy.rests) {
            std::string line = markPrefix(rest.mark) + (rest.outside ? "outside" : "inside") + " face on ";
            line += rest.plate + (rest.within ? ", its inside face" : "");
            lines.push_back(std::move(line));
        }
    return lines;
}

void drawContacts(const std::vector<ContactSpot>& spots, const PanelMap& map, Layer& marks) {
    for (const ContactSpot& spot : spots)
        for (const Ring& ring : spot.rings)
            Pen(marks).path(map.ring(ring), true,
                            {contactLine, Ink::line, spot.inside ? Dash::dashed : Dash::dotted});
}

std::vector<Ring> contactBands(const ContactSpot& spot, const PanelMap& map, double aside) {
    std::vector<Ring> bands;
    for (const Ring& own : spot.rings) {
        const Ring ring = map.ring(own);
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Vec2 &a = ring[i], &b = ring[(i + 1) % ring.size()];
            if ((b - a).norm() < 1e-9) continue;
            const Vec2 along = (b - a).normalized() * aside, out(along.y(), -along.x());
            bands.push_back({a - along - out, a - along + out, b + along + out, b + along - out});
        }
    }
    return bands;
}

void keepClearOfArrow(const Layer& layer, WordRoom& room) {
    for (const Stroke& stroke : layer.strokes) {
        if (stroke.ink != Ink::pale || stroke.points.empty()) continue;
        const Box2 box = bounds(stroke.points);
        const double head = 0.25 * box.size().norm();
        room.taken.push_back(Area{box.min.x(), box.min.y(), box.size().x(), box.size().y()}.grown(head));
    }
}

void drawContactWords(const std::vector<ContactSpot>& spots, const PanelMap& map, double height,
                      WordRoom& room, const Pen& pen) {
    for (const ContactSpot& spot : spots)
        for (const Ring& ring : spot.rings) room.lines.push_back(map.ring(ring));
    for (const ContactSpot& spot : spots) {
        const Lying lying = lyingOf(map.ring(mainRing(spot)), spot.along);
        bool set = false;
        for (const auto* lines : {&spot.words, &spot.marks})
            for (const double h : {height, 0.85 * height, 0.7 * height})
                set = set || (!lines->empty() && placeAt(lying, {*lines, h}, room, pen));
    }
}

void drawRestWords(const std::vector<std::string>& lines, double height, WordRoom& room, const Pen& pen) {
    if (lines.empty()) return;
    const Lying face = lyingOf(room.face.outer, longestWay(room.face.outer));
    for (const double h : {height, 0.85 * height, 0.7 * height})
        for (const double across : {0.0, 0.35, -0.35, 0.7, -0.7})
            for (const double slide : {-0.5, 0.5, -0.25, 0.25, -0.7, 0.7, 0.0, -0.85, 0.85}) {
                const Block block{lines, h};
                const BlockPlace place{face.centre + face.along * slide * face.half +
                                           face.across * across * face.wide,
                                       face.along};
                if (!isFree(place, block.size(), room)) continue;
                setBlock(block, place, room, pen);
                return;
            }
}

void nameContacts(const Panel& panel, const Area& seen, const Area& clear, const Vec2& shift, Layer& words) {
    const PanelMap map{1, shift};
    const std::vector<std::string> lies = restLines(panel);
    const std::vector<ContactSpot> spots = contactsSeen(panel, map, seen);
    if (spots.empty() && lies.empty()) return;
    WordRoom room{{}, {}, faceArea(panel, map), clear};
    for (const Ring& ring : drawnRings(panel)) room.lines.push_back(map.ring(ring));
    for (const Label& label : words.labels) room.taken.push_back(labelArea(label));
    constexpr double height = 3.2;
    drawContactWords(spots, {}, height, room, Pen(words));
    const std::vector<Polygon> here = intersect({room.face}, {{ringOf(clear), {}}});
    if (here.empty()) return;
    room.face = *std::max_element(here.begin(), here.end(),
                                  [](const Polygon& a, const Polygon& b) { return area(a) < area(b); });
    drawRestWords(lies, height, room, Pen(words));
}

Table contactTable(const Panel& panel, const UnitStyle& units) {
    const bool many = panel.copies.size() > 1 || !panel.parts.empty();
    Table table{"Stands on this panel",
                {{"mark", 8, Align::right, true}, {"plate, and one side of it from ⊕ (right, up)", 70.0}},
                true,
                {},
                "",
                false};
    const Vec2 datum = bounds(panel.boundary.outer).min;
    const auto point = [&](const Vec2& p) {
        const Vec2 at = p - datum;
        return size(at.x(), units) + ", " + size(at.y(), units);
    };
    for (const PanelCopy& copy : panel.copies)
        for (const Contact& contact : copy.contacts) {
            if (contact.rings.empty()) continue;
            std::string words = contact.plate;
            if (contact.inside) words += ", on the inside face";
            if (many) words += " (of " + contact.on + ")";
            table.rows.push_back({contact.mark > 0 ? std::to_string(contact.mark) : "–", words});
            const auto [from, to] = longestSide(contact.rings.front());
            table.rows.push_back({"", "from " + point(from) + "  to " + point(to)});
        }
    if (!table.rows.empty())
        table.note = "Dotted lines: what stands on the outside face; dashed: on the inside face.";
    return table;
}

} // namespace slab
