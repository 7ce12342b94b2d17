#include "core/stock/round_stock.h"
#include <algorithm>
#include <cmath>
#include <set>

namespace slab {

// Nominal outside diameters of unplasticized drain pipe, EN 1329-1 (32 to 110) and EN 1401-1 (110 to 315),
// mm: from memory; the standards themselves were not read.
const std::vector<DrainSize>& drainSizes() {
    static const std::vector<DrainSize> sizes = {
        {"32 mm", 32},   {"40 mm", 40},   {"50 mm", 50},   {"75 mm", 75},   {"90 mm", 90},  {"110 mm", 110},
        {"125 mm", 125}, {"160 mm", 160}, {"200 mm", 200}, {"250 mm", 250}, {"315 mm", 315}};
    return sizes;
}

// ASTM D3034 gravity sewer pipe, average outside diameter, 4.215, 6.275, 8.400, 10.500, 12.500 and 15.300 in:
// https://sciencing.com/facts-7941178-sdr35-pvc-pipe-specifications.html .
const std::vector<DrainSize>& sewerSizes() {
    constexpr double inch = 25.4;
    static const std::vector<DrainSize> sizes = {{"4 in", 4.215 * inch}, {"6 in", 6.275 * inch},
                                                 {"8 in", 8.4 * inch},   {"10 in", 10.5 * inch},
                                                 {"12 in", 12.5 * inch}, {"15 in", 15.3 * inch}};
    return sizes;
}

const std::vector<RoundSize>& publishedRounds() {
    static const std::vector<RoundSize> all = [] {
        constexpr double inch = 25.4;
        constexpr double alike = 0.05; // mm: one size of two tables
        std::vector<RoundSize> out;
        const auto add = [&](const std::string& name, double outside, double wall) {
            if (std::none_of(out.begin(), out.end(),
                             [&](const RoundSize& r) { return std::abs(r.outside - outside) < alike; }))
                out.push_back({name, outside, wall, 0, 0, 0, true});
        };
        for (const PipeSize& p : pipeSizes())
            add(std::string(p.nominal) + " in pipe", p.outside * inch, p.wall * inch);
        for (const PipeSize& p : conduitSizes())
            add(std::string(p.nominal) + " in conduit", p.outside * inch, p.wall * inch);
        for (const DrainSize& d : drainSizes()) add(std::string(d.nominal) + " drain pipe", d.outside, 0);
        for (const DrainSize& d : sewerSizes()) add(std::string(d.nominal) + " sewer pipe", d.outside, 0);
        std::stable_sort(out.begin(), out.end(),
                         [](const RoundSize& a, const RoundSize& b) { return a.outside < b.outside; });
        return out;
    }();
    return all;
}

namespace {

constexpr double greatestRound = 1e5; ///< mm; as for sheets

/// Reads one round part's formulas and collects what is wrong with them.
class RoundReader {
public:
    RoundReader(const RoundStock& text, std::size_t index, const Scope& scope, std::vector<Finding>& findings)
        : m_text(text), m_scope(scope), m_findings(findings),
          m_place("document:/stock/rounds/" + std::to_string(index)) {}

    double value(const char* field, const Text& text, Kind kind) {
        if (text.empty()) return 0;
        const auto q = evaluate(text, m_scope, Space::build, kind);
        if (q) return q->value;
        Finding f = findingOf(q.error(), Severity::look, about(field));
        f.message = "Round stock " + m_text.name + ", " + field + ": " + q.error().message;
        if (!q.error().where.empty()) f.message += " (" + q.error().where + ")";
        m_findings.push_back(std::move(f));
        m_sound = false;
        return 0;
    }
    /// Left out.
    void refuse(const char* code, const char* field, const std::string& what, std::string remedy) {
        note(code, field, what, std::move(remedy));
        m_sound = false;
    }
    void note(const char* code, const char* field, const std::string& what, std::string remedy) {
        m_findings.push_back(
            {Severity::look,
             code,
             "Round stock " + (m_text.name.empty() ? m_place.substr(9) : m_text.name) + " " + what,
             about(field),
             std::move(remedy),
             {}});
    }
    [[nodiscard]] bool sound() const { return m_sound; }

private:
    [[nodiscard]] std::vector<std::string> about(const char* field) const {
        return {"stock:" + m_text.name, m_place + "/" + field};
    }
    const RoundStock& m_text;
    const Scope& m_scope;
    std::vector<Finding>& m_findings;
    std::string m_place;
    bool m_sound = true;
};

void checkRound(RoundSize& r, double onHand, RoundReader& read) {
    if (!(r.outside > 0))
        return read.refuse("stock-size", "diameter", "has no diameter above zero.",
                           "Measure its outside and type it in.");
    if (std::max(r.outside, r.length) > greatestRound)
        return read.refuse("stock-size", r.outside > greatestRound ? "diameter" : "length",
                           "is more than 100 m wide or long.", "Check the unit behind the number.");
    if (r.wall < 0 || 2 * r.wall > r.outside)
        return read.refuse("stock-thickness", "wall", "has a wall below zero or thicker than half of it.",
                           "Measure the wall at its end; half of the diameter for a solid rod.");
    if (r.length < 0)
        return read.refuse("stock-size", "length", "has a length below zero.", "Measure its length.");
    if (r.price < 0) {
        r.price = 0;
        read.note("stock-price", "price", "has a price below zero; 0 is used.", "Type 0 or the true price.");
    }
    constexpr double most = 1e6;
    const double whole = std::floor(std::clamp(onHand, 0.0, most));
    if (whole != onHand)
        read.note("stock-on-hand", "on_hand", "has a count on hand that is no whole number of pieces.",
                  "Type how many whole pieces are in the shed.");
    r.onHand = static_cast<int>(whole);
}

} // namespace

RoundStockSet resolveRoundStock(const Project& project, const Scope& scope) {
    RoundStockSet set;
    std::set<std::string> names;
    for (std::size_t i = 0; i < project.stock.rounds.size(); ++i) {
        const RoundStock& text = project.stock.rounds[i];
        RoundReader read(text, i, scope, set.findings);
        if (text.name.empty() || !names.insert(text.name).second) {
            read.refuse("stock-name", "name",
                        text.name.empty() ? "has no name." : "has the same name as one above it.",
                        "Give each piece its own name.");
            continue;
        }
        RoundSize r;
        r.name = text.name;
        r.outside = read.value("diameter", text.diameter, Kind::length);
        r.wall = read.value("wall", text.wall, Kind::length);
        r.length = read.value("length", text.length, Kind::length);
        r.price = read.value("price", text.price, Kind::number);
        const double onHand = read.value("on_hand", text.on_hand, Kind::number);
        if (read.sound()) checkRound(r, onHand, read);
        if (read.sound()) set.rounds.push_back(std::move(r));
    }
    set.match = defaultMatch;
    if (project.stock.match.empty()) return set;
    const auto match = evaluate(project.stock.match, scope, Space::build, Kind::length);
    if (match && match->value >= 0) {
        set.match = match->value;
        return set;
    }
    Finding f = match ? Finding{Severity::look, "stock-match", "", {}, "Type 0 or how far off it may be.", {}}
                      : findingOf(match.error(), Severity::look);
    f.message = match ? "How far off round stock may be is below zero; 3 mm is used."
                      : "How far off round stock may be: " + f.message + " 3 mm is used.";
    f.about = {"document:/stock/match"};
    set.findings.push_back(std::move(f));
    return set;
}

} // namespace slab
