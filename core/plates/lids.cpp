#include "core/plates/lids.h"
#include "core/plates/behind.h"
#include "core/plates/lap_strips.h"
#include "core/plates/lofted.h"
#include "core/units/units.h"
#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace slab {

namespace {

using namespace plates;

/// Sides of the inside ring that belong to those of the outside one, as lines; empty if one has none.
std::optional<Ring> innerCorners(const PanelLoop& hole, double gap) {
    const std::size_t n = hole.outer.size();
    std::vector<std::pair<Vec2, Vec2>> lines; // a point and the direction, clockwise as the hole runs
    for (const PanelEdge& e : hole.edges) {
        if (e.inner < 0) return {};
        const auto k = static_cast<std::size_t>(e.inner);
        const Vec2 &a = hole.inner[k], &b = hole.inner[(k + 1) % hole.inner.size()];
        const Vec2 d = (b - a).normalized(), out(d.y(), -d.x()); // into the cut-out
        lines.emplace_back(a + out * (gap / std::cos(e.bevel)), d);
    }
    Ring ring;
    for (std::size_t i = 0; i < n; ++i) {
        const auto& [p, d] = lines[(i + n - 1) % n];
        const auto& [q, e] = lines[i];
        const double turn = cross2(d, e);
        ring.push_back(std::abs(turn) < 1e-6 ? q : Vec2(p + d * (cross2(q - p, e) / turn)));
    }
    return ring;
}

/// The cut-out on both faces, shrunk; square to the plate where the faces do not belong together.
struct Plug {
    Polygon outer, inner;
};
std::optional<Plug> plugOf(const PanelLoop& hole, double gap) {
    std::vector<double> by;
    for (auto e = hole.edges.rbegin(); e != hole.edges.rend(); ++e) by.push_back(gap / std::cos(e->bevel));
    if (!by.empty())
        std::rotate(by.begin(), by.begin() + 1, by.end()); // edge i now starts at corner n - 1 - i
    const auto outer = insetBySide(reversed(hole.outer), by);
    const auto inner = innerCorners(hole, gap);
    if (outer && inner) {
        Ring in = reversed(*inner);
        bool alike = in.size() == outer->size() && isSimple(in) && signedArea(in) > 1;
        for (std::size_t i = 0; alike && i < in.size(); ++i) {
            const std::size_t k = (i + 1) % in.size();
            alike = (in[k] - in[i]).dot((*outer)[k] - (*outer)[i]) > 0;
        }
        if (alike) return Plug{{*outer, {}}, {std::move(in), {}}};
    }
    std::vector<Polygon> both{{reversed(hole.outer), {}}};
    if (hole.inner.size() >= 3) both = intersect(both, {{reversed(hole.inner), {}}});
    std::vector<Polygon> left;
    for (const Polygon& p : both)
        for (Polygon& q : offset(p, -gap)) left.push_back(std::move(q));
    if (left.empty()) return {};
    const auto most = std::max_element(left.begin(), left.end(),
                                       [](const Polygon& a, const Polygon& b) { return area(a) < area(b); });
    return Plug{*most, *most};
}

class LidMaker {
public:
    LidMaker(PlateSet& plates, const StockSet& stock, const UnitStyle& units)
        : m_plates(plates), m_stock(stock), m_units(units), m_mark(1 + highestMark(plates)) {}

    void take(const OpeningUse& use) {
        safety(use);
        if (!use.lid) return;
        bool any = false, edge = false;
        const std::size_t count = m_plates.plates.size();
        for (std::size_t p = 0; p < count; ++p) {
            int number = 0;
            for (std::size_t h = 0; h < m_plates.plates[p].holes.size(); ++h)
                if (m_plates.plates[p].holes[h].opening == use.opening) {
                    any = true;
                    lid(use, p, h, ++number);
                }
            if (number > 0 || m_plates.plates[p].boundary.opening != use.opening) continue;
            edge = true;
            overEdge(use, p);
        }
        if (any && use.purpose == "exit") fromInside(use);
        if (!any && !edge) lost(use);
    }

    /// Strips that do not belong to one opening of one plate, in one place: told once for each two.
    void lapsMeet() {
        constexpr double touching = 0.1; // mm
        std::set<std::array<std::string, 4>> told;
        for (std::size_t i = 0; i < m_laps.size(); ++i)
            for (std::size_t j = i + 1; j < m_laps.size(); ++j) {
                const MadeLap &a = m_laps[i], &b = m_laps[j];
                if ((a.opening == b.opening && a.host == b.host) ||
                    !meet(out.plates[a.plate], out.plates[b.plate], touching) ||
                    !told.insert({a.opening, a.host, b.opening, b.host}).second)
                    continue;
                Finding f{Severity::stop, "laps-overlap", {}, {"opening:" + a.opening}, {}, {}};
                f.message = "The lap strips of " + a.opening + " in " + a.host + " and of " + b.opening +
                            " in " + b.host + " lie in one place";
                if (b.opening != a.opening) f.about.push_back("opening:" + b.opening);
                f.about.push_back("plate:" + a.host);
                if (b.host != a.host) f.about.push_back("plate:" + b.host);
                f.remedy = "Make the laps narrower, or move the openings apart.";
                out.findings.push_back(std::move(f));
            }
    }

    LidSet out;

private:
    /// A hole of several openings goes by the name of one of them.
    void lost(const OpeningUse& use) {
        const std::string subject = "opening:" + use.opening;
        const bool misses =
            std::any_of(m_plates.findings.begin(), m_plates.findings.end(), [&](const Finding& f) {
                return (f.code == "opening-misses" || f.code == "opening-takes-plate") &&
                       std::find(f.about.begin(), f.about.end(), subject) != f.about.end();
            });
        if (misses) return; // which is told
        find(Severity::stop, "lid-lost", use,
             "Opening " + use.opening + " runs into another one, so that it has no lid of its own",
             "Move them apart, or let one opening take both, with the lid.");
    }
    void find(Severity severity, const char* code, const OpeningUse& use, const std::string& message,
              std::string remedy) {
        out.findings.push_back({severity, code, message, {"opening:" + use.opening}, std::move(remedy), {}});
    }

    void safety(const OpeningUse& use) {
        constexpr double low = 5, high = 12; // mm
        const auto catches = [&](double wide) { return wide >= low && wide <= high; };
        const std::string rule =
            ": gaps from " + printFine(low, m_units) + " to " + printFine(high, m_units) + " catch fingers";
        if (use.least > 0 && catches(use.least))
            find(Severity::look, "finger-gap", use,
                 "Opening " + use.opening + " is " + printFine(use.least, m_units) + " wide" + rule,
                 "Make it narrower than " + printFine(low, m_units) + " or wider than " +
                     printFine(high, m_units) + ", and follow local rules.");
        if (use.lid && catches(use.gap))
            find(Severity::look, "finger-gap", use,
                 "The gap round the lid of " + use.opening + " is " + printFine(use.gap, m_units) + rule,
                 "Make the gap smaller than " + printFine(low, m_units) + ", and follow local rules.");
    }

    void fromInside(const OpeningUse& use) {
        find(
            Severity::note, "lid-from-inside", use,
            "The lid of " + use.opening +
                " closes the way out: it must push off from inside with one hand, without a tool, by whoever "
                "sits there",
            "Use a friction fit or magnets and no catch outside; try it with the rider, and follow local "
            "rules.");
    }

    void overEdge(const OpeningUse& use, std::size_t p) {
        find(Severity::look, "lid-over-edge", use,
             "Opening " + use.opening + " runs over the edge of " + m_plates.plates[p].name +
                 ": no lid is made for it",
             "Keep the opening inside one plate, or take its lid away.");
    }

    void lid(const OpeningUse& use, std::size_t p, std::size_t h, int number) {
        const std::string tail = number > 1 ? " " + std::to_string(number) : "";
        const Plate& host = m_plates.plates[p];
        const auto plug = plugOf(host.holes[h], use.gap);
        Loft loft;
        loft.name = host.name + "/" + use.opening + " lid" + tail;
        loft.form = host.form;
        loft.stock = host.stock;
        loft.thickness = host.thickness;
        loft.frame = host.frame;
        if (plug) {
            loft.outer = plug->outer;
            loft.inner = plug->inner;
        }
        auto plate = plug ? loftedPlate(loft) : std::nullopt;
        if (!plate)
            return find(Severity::look, "lid-vanishes", use,
                        "Nothing is left of the lid of " + use.opening + " inside its gap",
                        "Make the gap smaller, or the opening larger.");
        plate->rank = host.rank;
        for (PanelEdge& e : plate->boundary.edges) {
            e.neighbour = host.name;
            e.role = EdgeRole::open;
        }
        out.plates.push_back(std::move(*plate));
        if (use.lap > 0) lap(use, p, h, tail);
    }

    void lap(const OpeningUse& use, std::size_t p, std::size_t h, const std::string& tail) {
        Plate& host = m_plates.plates.own(p);
        const Sheet* sheet = use.lapStock.empty() ? nullptr : m_stock.find(use.lapStock);
        if (!use.lapStock.empty() && !sheet)
            find(Severity::stop, "unknown-stock", use,
                 "The lap strip of " + use.opening + " is to be cut from \"" + use.lapStock +
                     "\", which is not a usable sheet in the stock; drawn in " + host.stock + " until then.",
                 "Add that sheet to the stock, or choose another one for the lap strip.");
        LapRules rules{use.lap, sheet ? sheet->name : host.stock, sheet ? sheet->thickness : host.thickness,
                       use.opening};
        int bare = 0;
        std::vector<LapStrip> strips =
            lapStrips(host, host.holes[h], rules, m_plates.plates, roomOf(m_stock, rules.stock), &bare);
        closes(use, host, host.holes[h]);
        if (strips.empty() || bare > 0)
            find(Severity::look, "lap-no-room", use,
                 "There is no room for a lap strip behind " +
                     (strips.empty() ? std::string()
                                     : std::to_string(bare) + (bare > 1 ? " sides" : " side") + " of ") +
                     "the edge of " + use.opening + " in " + host.name,
                 "Make the lap narrower, or move the opening away from its neighbours.");
        for (std::size_t i = 0; i < strips.size(); ++i) {
            LapStrip& strip = strips[i];
            strip.plate.name = host.name + "/" + use.opening + " lap" + tail;
            if (strips.size() > 1) strip.plate.name += " " + pieceName(i);
            strip.plate.rests = {{host.name, true, true, m_mark}};
            Contact contact;
            contact.on = host.name;
            contact.plate = strip.plate.name;
            contact.mark = m_mark++;
            contact.inside = contact.flat = true;
            contact.rings = std::move(strip.behind);
            if (!contact.rings.empty()) host.contacts.push_back(std::move(contact));
            m_laps.push_back({use.opening, host.name, out.plates.size()});
            out.plates.push_back(std::move(strip.plate));
        }
    }

    static bool meet(const Plate& a, const Plate& b, double touching) {
        return std::any_of(a.cells.begin(), a.cells.end(), [&](const ConvexSolid& one) {
            return std::any_of(b.cells.begin(), b.cells.end(), [&](const ConvexSolid& other) {
                return nearest(one, other).depth > touching;
            });
        });
    }

    /// Half of the lap lies behind the lid: where that is half the opening, nothing is left to go through.
    void closes(const OpeningUse& use, const Plate& host, const PanelLoop& hole) {
        if (hole.inner.size() < 3 || !offset({reversed(hole.inner), {}}, -use.lap / 2).empty()) return;
        find(use.purpose == "exit" ? Severity::stop : Severity::look, "lap-closes", use,
             "The lap strip of " + use.opening + " in " + host.name + " is " + printLength(use.lap, m_units) +
                 " wide, half of it inside the opening on every side: it closes the opening",
             "Make the lap narrower, or the opening larger.");
    }

    static std::string pieceName(std::size_t index) {
        return std::string(1, static_cast<char>('a' + index % 26));
    }

    PlateSet& m_plates;
    const StockSet& m_stock;
    const UnitStyle& m_units;
    int m_mark;
    struct MadeLap {
        std::string opening, host;
        std::size_t plate = 0; ///< in out.plates
    };
    std::vector<MadeLap> m_laps;
};

} // namespace

std::optional<Ring> insetBySide(const Ring& ring, const std::vector<double>& by) {
    const std::size_t n = ring.size();
    if (n < 3 || by.size() != n) return {};
    Ring out;
    for (std::size_t i = 0; i < n; ++i) {
        const Vec2 &before = ring[(i + n - 1) % n], &p = ring[i], &after = ring[(i + 1) % n];
        const Vec2 d = (p - before).normalized(), e = (after - p).normalized();
        const Vec2 a = p + Vec2(-d.y(), d.x()) * by[(i + n - 1) % n], b = p + Vec2(-e.y(), e.x()) * by[i];
        const double turn = cross2(d, e);
        out.push_back(std::abs(turn) < 1e-6 ? b : Vec2(a + d * (cross2(b - a, e) / turn)));
    }
    for (std::size_t i = 0; i < n; ++i)
        if ((out[(i + 1) % n] - out[i]).dot(ring[(i + 1) % n] - ring[i]) <= 0) return {};
    if (!isSimple(out) || signedArea(out) <= 0) return {};
    return out;
}

LidSet makeLids(PlateSet& plates, const StockSet& stock, const std::vector<OpeningUse>& uses,
                const UnitStyle& units) {
    LidMaker maker(plates, stock, units);
    for (const OpeningUse& use : uses) maker.take(use);
    maker.lapsMeet();
    return std::move(maker.out);
}

} // namespace slab
