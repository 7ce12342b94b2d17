// Ranks, materials, overrides and openings from the document, as figures for one body.
#include "core/plates/facets.h"
#include "core/plates/plate.h"
#include "core/stock/stock.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

using Findings = std::vector<Finding>;

/// A plate to be: its names (first its own, then aliases).
struct Target {
    std::vector<std::string> names;
    [[nodiscard]] bool is(const std::string& pattern) const {
        return std::any_of(names.begin(), names.end(), [&](const auto& n) { return matches(pattern, n); });
    }
};

FaceChoice choose(const Project& project, const StockSet& stock, const Target& target, Findings& findings) {
    FaceChoice choice;
    choice.rank = static_cast<int>(project.joints.order.size());
    for (std::size_t i = 0; i < project.joints.order.size(); ++i)
        if (target.is(project.joints.order[i])) {
            choice.rank = static_cast<int>(i);
            break;
        }
    std::string wanted = project.materials.fallback;
    for (const auto& m : project.materials.plates)
        if (target.is(m.plates)) {
            wanted = m.stock;
            break;
        }
    if (wanted.empty()) return choice;
    const Sheet* sheet = stock.find(wanted);
    if (!sheet) {
        findings.push_back({Severity::stop,
                            "unknown-stock",
                            target.names.front() + " is to be cut from \"" + wanted +
                                "\", which is not a usable sheet in the stock",
                            {"plate:" + target.names.front(), "stock:" + wanted},
                            "Add that sheet to the stock, or choose another material for the plate.",
                            {}});
        return choice;
    }
    choice.stock = wanted;
    choice.thickness = sheet->thickness;
    return choice;
}

/// One value of an opening; reports what cannot be read and gives `fallback`.
struct Reader {
    const Scope& scope;
    Findings& findings;
    const std::string& opening;
    bool failed = false;

    double operator()(const Text& text, Space space, Kind kind, double fallback) {
        if (text.empty()) return fallback;
        const auto value = evaluate(text, scope, space, kind);
        if (value) return value->value;
        failed = true;
        Finding f = findingOf(value.error(), Severity::stop, {"opening:" + opening});
        f.message = "Opening " + opening + ": " + f.message;
        findings.push_back(std::move(f));
        return fallback;
    }
};

bool readDirection(const std::string& text, Vec3& direction) {
    if (text.empty() || text.size() > 2) return false;
    const bool minus = text.front() == '-';
    const char axis = text.back();
    if ((text.size() == 2 && !minus && text.front() != '+') || axis < 'x' || axis > 'z') return false;
    direction = Vec3::Zero();
    direction[axis - 'x'] = minus ? -1 : 1;
    return true;
}

Ring shapeOf(const Opening& o, Reader& read, double& circle) {
    const double none = 0;
    switch (o.shape) {
    case OpeningShape::circle:
        circle = read(o.diameter, Space::build, Kind::length, none);
        return circle > 0 ? plates::circleRing(circle / 2) : Ring{};
    case OpeningShape::polygon: {
        Ring ring;
        for (const auto& p : o.outline)
            ring.emplace_back(read(p.x, Space::build, Kind::length, none),
                              read(p.y, Space::build, Kind::length, none));
        if (ring.size() < 3 || !isSimple(ring)) return {};
        return signedArea(ring) < 0 ? reversed(std::move(ring)) : ring;
    }
    case OpeningShape::slot:
    case OpeningShape::rectangle: {
        const double w = read(o.width, Space::build, Kind::length, none);
        const double h = read(o.height, Space::build, Kind::length, none);
        double r = o.shape == OpeningShape::slot ? std::min(w, h) / 2
                                                 : read(o.corner_radius, Space::build, Kind::length, none);
        r = std::clamp(r, 0.0, std::min(w, h) / 2);
        return w > 0 && h > 0 ? plates::roundedRing(w, h, r) : Ring{};
    }
    }
    return {};
}

bool readOpening(const Opening& o, const Scope& scope, Findings& findings, ResolvedOpening& out) {
    Reader read{scope, findings, o.name};
    out.name = o.name;
    out.plate = o.plate;
    out.plates = o.plates;
    out.parallelWalls = o.parallel_walls;
    out.at = {read(o.u, Space::subject, Kind::length, 0), read(o.v, Space::subject, Kind::length, 0)};
    out.origin = {read(o.x, Space::subject, Kind::length, 0), read(o.y, Space::subject, Kind::length, 0),
                  read(o.z, Space::subject, Kind::length, 0)};
    const auto refuse = [&](const char* code, const std::string& what, const char* remedy) {
        findings.push_back(
            {Severity::stop, code, "Opening " + o.name + " " + what, {"opening:" + o.name}, remedy, {}});
        return false;
    };
    if (o.plate.empty() && !readDirection(o.direction, out.direction))
        return refuse("opening-no-host", "has neither a plate nor a direction",
                      "Name the plate it is cut in, or give a direction such as \"x\" or \"-z\".");
    out.outline = shapeOf(o, read, out.circle);
    const double turn = read(o.turn, Space::build, Kind::angle, 0);
    if (read.failed) return false;
    if (out.outline.empty())
        return refuse("opening-no-size", "has no size: its outline is empty or crosses itself",
                      "Give it a width and height, a diameter, or a simple outline.");
    const double c = std::cos(turn), s = std::sin(turn);
    for (Vec2& p : out.outline) p = Vec2(c * p.x() - s * p.y(), s * p.x() + c * p.y());
    return true;
}

void noteUnused(const Project& project, const std::vector<Target>& targets, const Skin& skin,
                Findings& findings) {
    const auto used = [&](const std::string& pattern) {
        return std::any_of(targets.begin(), targets.end(), [&](const Target& t) { return t.is(pattern); });
    };
    const auto note = [&](const std::string& pattern, const std::string& where) {
        findings.push_back({Severity::note,
                            "matches-no-plate",
                            where + " \"" + pattern + "\" matches no plate",
                            {"plate:" + pattern},
                            "Correct the name, or take the entry out.",
                            {}});
    };
    for (const auto& p : project.joints.order)
        if (!used(p)) note(p, "Joint order entry");
    for (const auto& m : project.materials.plates)
        if (!used(m.plates)) note(m.plates, "Material entry");
    for (const auto& e : project.joints.edges) {
        const bool found = std::any_of(skin.edges.begin(), skin.edges.end(), [&](const SkinEdge& s) {
            const Target& l = targets[static_cast<std::size_t>(s.left)];
            const Target& r = targets[static_cast<std::size_t>(s.right)];
            return (l.is(e.a) && r.is(e.b)) || (l.is(e.b) && r.is(e.a));
        });
        if (!found)
            findings.push_back({Severity::note,
                                "joint-matches-no-edge",
                                "Joint between \"" + e.a + "\" and \"" + e.b + "\": no two such plates meet",
                                {"edge:" + e.a + "|" + e.b},
                                "Correct the names, or take the entry out.",
                                {}});
    }
}

} // namespace

PlateRules resolveRules(const Project& project, const Scope& scope, const Body& body, Findings& findings) {
    PlateRules rules;
    const StockSet stock = resolveStock(project, scope);
    std::vector<Target> targets;
    for (const auto& face : body.skin.faces) {
        Target t{{face.name}};
        t.names.insert(t.names.end(), face.aliases.begin(), face.aliases.end());
        rules.faces.push_back(choose(project, stock, t, findings));
        targets.push_back(std::move(t));
    }
    for (const auto& plate : body.plates) {
        targets.push_back({{plate.name}});
        rules.freePlates.push_back(choose(project, stock, targets.back(), findings));
    }
    rules.fallback = project.joints.fallback;
    rules.edges = project.joints.edges;
    for (const auto& o : project.openings) {
        ResolvedOpening opening;
        if (readOpening(o, scope, findings, opening)) rules.openings.push_back(std::move(opening));
    }
    noteUnused(project, targets, body.skin, findings);
    return rules;
}

} // namespace slab
