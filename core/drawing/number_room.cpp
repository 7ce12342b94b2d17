#include "core/drawing/number_room.h"
#include "core/drawing/tiles.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

/// Rows first to last (in their order) under one number.
struct Group {
    std::size_t first = 0, last = 0;
};

class Placing {
public:
    Placing(NumberRoom& room, const std::vector<EdgeRow>& rows, const Panel& panel, const PanelMap& map)
        : m_room(room), m_rows(rows), m_panel(panel), m_map(map) {
        for (std::size_t i = 0; i < rows.size(); ++i)
            if (static_cast<std::size_t>(rows[i].last) < loopOf(panel, rows[i]).outer.size())
                m_groups.push_back({i, i});
    }

    std::vector<PlacedNumber> run() {
        const NumberRoom before = m_room;
        for (;;) {
            std::vector<bool> crowded = tryAll();
            if (!merge(crowded)) return std::move(m_out);
            m_room = before;
        }
    }

private:
    /// Places what finds a place. @return which groups found none
    std::vector<bool> tryAll() {
        m_out.clear();
        std::vector<bool> crowded;
        for (const Group& group : m_groups) {
            const EdgeRow &from = m_rows[group.first], &to = m_rows[group.last];
            const Ring outline = m_map.ring(loopOf(m_panel, from).outer);
            const auto edge = static_cast<std::size_t>((from.first + to.last) / 2);
            // Numbers of a small hole stand around it, those of a large one in it.
            constexpr double roomy = 26; // mm
            const bool around = from.hole >= 0 && bounds(outline).size().minCoeff() < roomy;
            const EdgeSpot spot = edgeSpot(outline, edge);
            PlacedNumber one{nameOf(group), {}, group.first != group.last};
            const double width = NumberRoom::widthOf(one.number);
            const auto place = m_room.placeFor(spot, width, around ? -1.0 : 1.0);
            crowded.push_back(!place);
            constexpr double away = 5; // mm, over whatever is there
            one.place = place.value_or(NumberPlace{spot.middle + spot.out * away, spot.middle});
            m_room.take(one.place, width);
            m_out.push_back(std::move(one));
        }
        return crowded;
    }

    [[nodiscard]] std::string nameOf(const Group& group) const {
        const EdgeRow &from = m_rows[group.first], &to = m_rows[group.last];
        if (group.first == group.last) return from.number;
        const std::string letter = from.hole < 0 ? "" : openingLetter(static_cast<std::size_t>(from.hole));
        return letter + std::to_string(from.first + 1) + "–" + std::to_string(to.last + 1);
    }
    [[nodiscard]] double lengthOf(const Group& group) const {
        double length = 0;
        for (std::size_t i = group.first; i <= group.last; ++i)
            length += m_rows[i].length * (m_rows[i].last - m_rows[i].first + 1);
        return length;
    }

    /// Puts each crowded group together with the shorter of its two neighbours. @return false if none could
    bool merge(std::vector<bool>& crowded) {
        std::vector<Group> next;
        bool any = false;
        const auto ownLoop = [&](const Group& a, const Group& b) {
            return m_rows[a.first].hole == m_rows[b.first].hole;
        };
        for (std::size_t i = 0; i < m_groups.size(); ++i) {
            const Group group = m_groups[i];
            const bool back = !next.empty() && ownLoop(next.back(), group);
            const bool on = i + 1 < m_groups.size() && ownLoop(group, m_groups[i + 1]);
            if (!crowded[i] || (!back && !on)) {
                next.push_back(group);
                continue;
            }
            any = true;
            if (back && (!on || lengthOf(next.back()) <= lengthOf(m_groups[i + 1]))) {
                next.back().last = group.last;
            } else {
                next.push_back({group.first, m_groups[i + 1].last});
                ++i;
            }
        }
        m_groups = std::move(next);
        return any;
    }

    NumberRoom& m_room;
    const std::vector<EdgeRow>& m_rows;
    const Panel& m_panel;
    const PanelMap& m_map;
    std::vector<Group> m_groups;
    std::vector<PlacedNumber> m_out;
};

} // namespace

bool NumberRoom::isFree(const Area& area) const {
    const Area whole = region.grown(-0.5);
    if (area.x < whole.x || area.y < whole.y || area.right() > whole.right() || area.top() > whole.top())
        return false;
    for (const Area& other : taken)
        if (other.meets(area.grown(0.5))) return false;
    for (const Ring& ring : rings)
        for (std::size_t i = 0; i < ring.size(); ++i)
            if (lengthInside(ring[i], ring[(i + 1) % ring.size()], {area.x - 0.4, area.y - 0.4},
                             {area.right() + 0.4, area.top() + 0.4}) > 0)
                return false;
    return true;
}

bool NumberRoom::leaderIsFree(const NumberPlace& place) const {
    const Vec2 end = place.foot + 0.3 * (place.centre - place.foot).normalized();
    for (const Area& other : numberAreas)
        if (lengthInside(place.centre, end, {other.x, other.y}, {other.right(), other.top()}) > 0)
            return false;
    for (const NumberPlace& other : leaders) {
        const Vec2 a = place.centre - other.foot, b = end - other.foot, run = other.centre - other.foot;
        const Vec2 c = other.foot - place.centre, d = other.centre - place.centre, own = end - place.centre;
        if (cross2(run, a) * cross2(run, b) < 0 && cross2(own, c) * cross2(own, d) < 0) return false;
    }
    return true;
}

std::optional<NumberPlace> NumberRoom::placeFor(const EdgeSpot& spot, double width, double first) const {
    std::optional<NumberPlace> crossing; // free, but its line crosses another's
    for (const double side : {first, -first})
        for (const double away : {4.4, 7.5, 11.0, 15.0, 20.0, 26.0})
            for (const double slide : {0.0, 0.2, -0.2, 0.38, -0.38, 0.8, -0.8, 1.4, -1.4, 2.2, -2.2}) {
                const bool along = std::abs(slide) <= 0.4;
                const double reach = along ? slide * spot.length : slide * 8;
                const Vec2 centre = spot.middle + side * away * spot.out + spot.along * reach;
                const NumberPlace place{centre, along ? Vec2(spot.middle + spot.along * reach) : spot.middle};
                if (!isFree(areaOf(place, width))) continue;
                if (leaderIsFree(place)) return place;
                if (!crossing) crossing = place;
            }
    return crossing;
}

double NumberRoom::widthOf(const std::string& number) {
    return std::max(2 * balloon, textWidth(number, {2.5, false, true}) + 2.2);
}

Area NumberRoom::areaOf(const NumberPlace& place, double width) {
    return {place.centre.x() - width / 2, place.centre.y() - balloon, width, 2 * balloon};
}

void NumberRoom::take(const NumberPlace& place, double width) {
    const Area area = areaOf(place, width);
    taken.push_back(area);
    numberAreas.push_back(area);
    leaders.push_back(place);
}

std::vector<PlacedNumber> placeNumbers(NumberRoom& room, const std::vector<EdgeRow>& rows, const Panel& panel,
                                       const PanelMap& map) {
    return Placing(room, rows, panel, map).run();
}

} // namespace slab
