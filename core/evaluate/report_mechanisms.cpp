#include "core/evaluate/report_mechanisms.h"
#include "core/units/moment.h"
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <numbers>

namespace slab {

namespace {

using MechanismJson = nlohmann::ordered_json;

constexpr double inDegrees = 180 / std::numbers::pi;

double rounded0(double value) {
    return std::abs(value) < 1e-9 ? 0.0 : value;
}
MechanismJson place(const Vec3& p) {
    return MechanismJson::array({rounded0(p.x()), rounded0(p.y()), rounded0(p.z())});
}

/// Names in the order in which mechanisms first appear.
std::vector<std::string> mechanismNames(const MechanismSet& set) {
    std::vector<std::string> names;
    const auto add = [&](const std::string& name) {
        if (!name.empty() && std::find(names.begin(), names.end(), name) == names.end())
            names.push_back(name);
    };
    for (const Motion& m : set.motions) add(m.mechanism);
    for (const MechanismFact& f : set.facts) add(f.mechanism);
    for (const Plate& p : set.parts) add(p.form);
    for (const MovingSolid& s : set.solids) add(s.mechanism);
    for (const HardwareLine& h : set.hardware) add(h.mechanism);
    return names;
}

MechanismJson movesJson(const Motion& motion) {
    MechanismJson list = MechanismJson::array();
    for (const Move& m : motion.moves) {
        const double unit = m.slides ? 1 : inDegrees;
        list.push_back({{"kind", m.slides ? "slide" : "turn"},
                        {"from", rounded0(m.from * unit)},
                        {"to", rounded0(m.to * unit)},
                        {"shown", rounded0(m.shown * unit)},
                        {"endless", m.endless},
                        {"point_mm", place(m.at)},
                        {"direction", place(m.axis)}});
    }
    return list;
}

MechanismJson factJson(const MechanismFact& f) {
    using FactUnit = MechanismFact::Unit;
    const char* unit = f.unit == FactUnit::length || f.unit == FactUnit::fine ? "mm"
                       : f.unit == FactUnit::angle                            ? "deg"
                       : f.unit == FactUnit::mass                             ? "kg"
                       : f.unit == FactUnit::moment                           ? "N m"
                                                                              : "";
    return {{"key", f.key},
            {"words", f.words},
            {"value", rounded0(f.unit == FactUnit::angle ? f.value * inDegrees : f.value)},
            {"unit", unit}};
}

MechanismJson rangesJson(const std::vector<std::pair<double, double>>& ranges, double unit) {
    MechanismJson list = MechanismJson::array();
    for (const auto& [from, to] : ranges)
        list.push_back(MechanismJson::array({rounded0(from * unit), rounded0(to * unit)}));
    return list;
}

MechanismJson sweepJson(const SweptCheck& c, const Motion* motion) {
    const double inUnit = motion && !motion->moves.empty() && motion->moves.back().slides ? 1 : inDegrees;
    MechanismJson at = MechanismJson::array();
    for (std::size_t i = 0; i < c.at.size(); ++i)
        at.push_back(rounded0(
            c.at[i] * (motion && i < motion->moves.size() && motion->moves[i].slides ? 1 : inDegrees)));
    return {{"moving", c.moving},
            {"fixed", c.fixed},
            {"clearance_mm", rounded0(c.clearance)},
            {"bound_mm", rounded0(c.bound)},
            {"wanted_mm", c.wanted},
            {"at", std::move(at)},
            {"pose", c.pose},
            {"in_place", c.inPlace},
            {"meets_in", rangesJson(c.meetsIn, inUnit)},
            {"near_in", rangesJson(c.nearIn, inUnit)},
            {"points_mm", MechanismJson::array({place(c.onMoving), place(c.onFixed)})}};
}

MechanismJson mechanismJson(const MechanismSet& set, const std::string& name) {
    MechanismJson parts = MechanismJson::array(), openings = parts, facts = parts, hardware = parts,
                  sweeps = parts, moves = parts;
    for (const Plate& p : set.parts)
        if (p.form == name) parts.push_back(p.name);
    for (const ResolvedOpening& o : set.openings) {
        if (o.name != name) continue;
        MechanismJson outline = MechanismJson::array();
        for (const Vec2& p : o.outline) outline.push_back({rounded0(p.x()), rounded0(p.y())});
        openings.push_back({{"plates", o.plates}, {"outline_mm", std::move(outline)}});
    }
    const Motion* motion = nullptr;
    for (const Motion& m : set.motions)
        if (m.mechanism == name && !motion) {
            motion = &m;
            moves = movesJson(m);
        }
    for (const MechanismFact& f : set.facts)
        if (f.mechanism == name) facts.push_back(factJson(f));
    for (const HardwareLine& h : set.hardware)
        if (h.mechanism == name)
            hardware.push_back({{"item", h.item},
                                {"count", h.count},
                                {"size_mm", h.size > 0 ? MechanismJson(h.size) : MechanismJson(nullptr)},
                                {"note", h.note}});
    for (const SweptCheck& c : set.checks)
        if (c.mechanism == name) sweeps.push_back(sweepJson(c, motion));
    return {{"name", name},
            {"parts", std::move(parts)},
            {"openings", std::move(openings)},
            {"moves", std::move(moves)},
            {"facts", std::move(facts)},
            {"hardware", std::move(hardware)},
            {"sweeps", std::move(sweeps)}};
}

/// Sides of one drum that come as near to one thing, each where it passes.
struct AlikeChecks {
    const SweptCheck* first;
    std::string gap;
    int count;
};
std::vector<AlikeChecks> alikeChecks(const MechanismSet& set, const std::string& mechanism,
                                     const UnitStyle& units) {
    const auto stem = [](const std::string& part) {
        return part.substr(0, part.find_last_not_of("0123456789") + 1);
    };
    std::vector<AlikeChecks> out;
    for (const SweptCheck& c : set.checks) {
        if (c.mechanism != mechanism) continue;
        const std::string gap = c.clearance < 0 ? "meets" : printFine(c.clearance, units);
        const auto same = std::find_if(out.begin(), out.end(), [&](const AlikeChecks& a) {
            return a.gap == gap && a.first->fixed == c.fixed && stem(c.moving) != c.moving &&
                   stem(a.first->moving) == stem(c.moving);
        });
        if (same == out.end())
            out.push_back({&c, gap, 1});
        else
            ++same->count;
    }
    return out;
}

std::string padTo(std::string text, std::size_t width) {
    // Letters beyond ASCII take several bytes and one column.
    const auto columns = static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
    if (columns < width) text.append(width - columns, ' ');
    return text + " ";
}

} // namespace

nlohmann::ordered_json mechanismsJson(const MechanismSet& set) {
    MechanismJson list = MechanismJson::array();
    for (const std::string& name : mechanismNames(set)) list.push_back(mechanismJson(set, name));
    return list;
}

std::string factWords(const MechanismFact& fact, const UnitStyle& units) {
    using FactUnit = MechanismFact::Unit;
    char buffer[64];
    switch (fact.unit) {
    case FactUnit::length:
        return printFine(fact.value, units);
    case FactUnit::fine:
        return printHundredths(fact.value, units);
    case FactUnit::angle:
        return printAngle(fact.value);
    case FactUnit::mass:
        return printMass(fact.value, units);
    case FactUnit::moment:
        return printMoment(fact.value, units);
    case FactUnit::number:
        std::snprintf(buffer, sizeof buffer, "%g", fact.value);
        return buffer;
    }
    return {};
}

std::string mechanismsText(const MechanismSet& set, const UnitStyle& units) {
    std::string out;
    for (const std::string& name : mechanismNames(set)) {
        out += (out.empty() ? "\nMoving parts\n  " : "  ") + name + "\n";
        for (const MechanismFact& f : set.facts)
            if (f.mechanism == name) out += "    " + padTo(f.words, 48) + factWords(f, units) + "\n";
        for (const HardwareLine& h : set.hardware)
            if (h.mechanism == name)
                out += "    " + std::to_string(h.count) + " x " + h.item +
                       (h.size > 0 ? " " + printFine(h.size, units) : std::string()) +
                       (h.note.empty() ? std::string() : " (" + h.note + ")") + "\n";
        for (const AlikeChecks& a : alikeChecks(set, name, units)) {
            const SweptCheck& c = *a.first;
            const std::string more = a.count > 1 ? " and " + std::to_string(a.count - 1) + " more" : "";
            out += "    " + padTo(c.moving + more + " - " + c.fixed, 48) + a.gap +
                   (c.pose.empty() || a.count > 1 ? std::string() : ", " + c.pose) + "\n";
        }
    }
    return out;
}

} // namespace slab
