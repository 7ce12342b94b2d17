#include "ui/tables/built_value.h"
#include "core/trial/reading.h"
#include "core/trial/words.h"
#include "ui/tables/field_words.h"
#include "ui/tables/part_facts.h"
#include "ui/tables/used_value.h"
#include <algorithm>

namespace slab::ui {

namespace {

QString printed(const Quantity& q, const UnitStyle& style) {
    switch (q.kind) {
    case Kind::length: {
        // Whole millimetres are too coarse for a kerf; sixteenths are not.
        return QString::fromStdString(isInch(style) ? printLength(q.value, style)
                                                    : printFine(q.value, style));
    }
    case Kind::angle:
        return QString::fromStdString(printAngle(q.value));
    case Kind::number:
        break;
    }
    return QString::number(q.value, 'g', 6);
}

/// What a plain number of a field counts.
enum class Counts { nothing, kilograms, kilometresPerHour };

Counts countsOf(const Node& node) {
    const bool person = node.owner == "rider" || node.owner == "passenger" || node.owner == "ballast";
    if (node.owner == "ride" && (node.key == "speed" || node.key == "wind")) return Counts::kilometresPerHour;
    if ((person && node.key == "mass") || (node.owner == "part of the route" && node.key == "load"))
        return Counts::kilograms;
    if (node.field == "changes" && (node.key == "mass" || node.key == "rated_load")) return Counts::kilograms;
    if (node.field == "changes" && node.key == "top_speed") return Counts::kilometresPerHour;
    return Counts::nothing;
}

QString countedWords(Counts counts, double value, const UnitStyle& units) {
    return QString::fromStdString(counts == Counts::kilograms ? printMass(value, units)
                                                              : trial::speedWords(value * 1e6 / 3600, units));
}

/// What an offered entry is until somebody types another.
QString offered(const Session& session, const Node& node) {
    if (const Counts counts = countsOf(node); counts != Counts::nothing)
        return countedWords(counts, node.generic, session.unitStyle());
    if (node.role == Role::number) return QString::number(node.generic, 'g', 4);
    return QString::fromStdString(node.role == Role::angle ? printAngle(node.generic)
                                                           : printLength(node.generic, session.unitStyle()));
}

Built countedValue(const Session& session, const Node& node) {
    const auto& scope = session.evaluation().scope;
    if (!scope) return {};
    const auto q = evaluate(node.value, *scope, spaceOf(node), Kind::number);
    if (!q) return {{}, QString::fromStdString(q.error().message + " " + q.error().remedy).trimmed()};
    return {countedWords(countsOf(node), q->value, session.unitStyle()), {}};
}

Built evaluated(const Session& session, const std::string& text, Space space, Kind kind) {
    const auto& scope = session.evaluation().scope;
    if (!scope) return {};
    const auto q = evaluate(text, *scope, space, kind);
    if (!q) return {{}, QString::fromStdString(q.error().message + " " + q.error().remedy).trimmed()};
    return {printed(*q, session.unitStyle()), {}};
}

/// Rise over run, as the ride reads it, with its angle.
Built slopeValue(const Session& session, const std::string& text) {
    const auto& scope = session.evaluation().scope;
    if (!scope) return {};
    const auto slope = trial::readSlope(text, *scope);
    if (!slope)
        return {{}, QString::fromStdString(slope.error().message + " " + slope.error().remedy).trimmed()};
    return {QString::fromStdString(trial::slopeWords(*slope) + ", " + printAngle(std::atan(*slope))), {}};
}

/// A dimension's own kind is not said in the document: the scope knows it.
Built dimensionValue(const Session& session, const Node& node) {
    const auto& scope = session.evaluation().scope;
    if (!scope) return {};
    const auto at = scope->values.find(node.parent->name());
    if (at != scope->values.end()) return {printed(at->second, session.unitStyle()), {}};
    for (const Finding& f : session.evaluation().findings)
        for (const std::string& about : f.about)
            if (about == "dimension:" + node.parent->name()) return {{}, QString::fromStdString(f.message)};
    Built last;
    for (const Kind kind : {Kind::length, Kind::angle, Kind::number}) {
        last = evaluated(session, node.value, spaceOf(node), kind);
        if (last.trouble.isEmpty()) return {};
    }
    return last;
}

int platesOf(const Session& session, const std::string& form) {
    const auto& plates = session.evaluation().plates;
    if (!plates) return -1;
    return static_cast<int>(std::count_if(plates->plates.begin(), plates->plates.end(), [&](const Plate& p) {
        if (p.stock.empty()) return false; // a stick of timber
        return p.form == form || p.form == form + " port" || p.form == form + " starboard";
    }));
}

Built formSummary(const Session& session, const Node& form) {
    if (const Node* off = form.child("off"); off && off->value == "true") return {"left out", {}};
    const std::string name = form.name();
    for (const Finding& f : session.evaluation().findings)
        if (f.severity == Severity::stop &&
            std::find(f.about.begin(), f.about.end(), "form:" + name) != f.about.end())
            return {{}, QString::fromStdString(f.message)};
    const Node* kind = form.child("kind");
    if (kind && kind->value == "round") {
        const Node* diameter = form.child("diameter");
        Built b = diameter ? builtValue(session, *diameter) : Built{};
        if (!b.text.isEmpty()) b.text.prepend("⌀ ");
        return b;
    }
    const int count = platesOf(session, name);
    return {count < 0 ? QString() : QString("%1 pl").arg(count), {}};
}

Built sheetSummary(const Session& session, const Node& sheet) {
    for (const StockLine& line : session.evaluation().totals.stock)
        if (line.stock == sheet.name()) {
            const int shed = std::min(line.used, line.onHand);
            if (shed && line.buy) return {QString("%1 + buy %2").arg(shed).arg(line.buy), {}};
            if (line.buy) return {QString("buy %1").arg(line.buy), {}};
            return {shed ? QString("%1 in shed").arg(shed) : QString("not used"), {}};
        }
    return {"not used", {}};
}

/// How many the document has; what is only offered is no entry of it.
QString countOf(const Node& list) {
    const auto& all = list.children;
    const auto typed = std::count_if(all.begin(), all.end(), [](const auto& c) { return !c->absent; });
    if (list.owner == "donor" && list.key == "measures" && !all.empty())
        return typed == 0 ? QString("%1 to measure, none typed in").arg(all.size())
                          : QString("%1 of %2 typed in").arg(typed).arg(all.size());
    return typed == 0 ? QString("none") : QString::number(typed);
}

QString childValue(const Node& entry, const char* key) {
    const Node* n = entry.child(key);
    return n ? QString::fromStdString(n->value) : QString();
}

} // namespace

QString unitMeant(const Node& node) {
    bool plain = false;
    static_cast<void>(QString::fromStdString(node.value).toDouble(&plain));
    if (!plain || countsOf(node) == Counts::nothing) return {};
    return countsOf(node) == Counts::kilograms ? QStringLiteral("kg") : QStringLiteral("km/h");
}

bool isFormula(Role role) {
    return role == Role::length || role == Role::angle || role == Role::number || role == Role::any ||
           role == Role::ratio;
}

bool usesNames(const std::string& text) {
    // Units of what is no length stand where names do.
    constexpr std::array<std::string_view, 7> units{"kg", "lb", "lbs", "mph", "kmh", "km", "h"};
    const bool perHour = text.find("km/h") != std::string::npos;
    const auto names = namesIn(text);
    return std::any_of(names.begin(), names.end(), [&](const std::string& name) {
        const auto unit = std::find(units.begin(), units.end(), name);
        return unit == units.end() || (unit - units.begin() > 4 && !perHour);
    });
}

Built builtValue(const Session& session, const Node& node) {
    if (node.entry && node.kind == Node::Kind::group) return summaryOf(session, node);
    if (node.kind == Node::Kind::group && !node.entry) {
        const Node* main = mainField(node);
        return main ? builtValue(session, *main) : Built{};
    }
    if (node.kind != Node::Kind::text || !isFormula(node.role)) return {};
    if (node.value.empty() && node.generic != 0) return {offered(session, node), {}};
    if (!node.check.empty()) return {QString::fromStdString(node.check), {}};
    if (node.owner == "dimension" && node.key == "value") return dimensionValue(session, node);
    if (node.value.empty()) return {usedInstead(session, node), {}};
    if (node.key == "slope" || node.key == "cross_slope" || node.key == "counter")
        return slopeValue(session, node.value);
    if (countsOf(node) != Counts::nothing) return countedValue(session, node);
    if (node.role == Role::ratio) {
        const auto ratio = parseRatio(node.value);
        return ratio ? Built{QString::number(*ratio, 'g', 5), {}}
                     : Built{{}, QString::fromStdString(ratio.error().message)};
    }
    if (node.role == Role::any) {
        Built b = evaluated(session, node.value, spaceOf(node), Kind::length);
        if (!b.trouble.isEmpty()) {
            const Built angle = evaluated(session, node.value, spaceOf(node), Kind::angle);
            if (angle.trouble.isEmpty()) return angle;
        }
        return b;
    }
    if (node.owner == "sheet" && node.key == "thickness") {
        // As finely as it was measured, whatever lengths are rounded to.
        Built b = evaluated(session, node.value, spaceOf(node), Kind::length);
        if (!b.text.isEmpty())
            if (const auto q = evaluate(node.value, *session.evaluation().scope, spaceOf(node), Kind::length))
                b.text = QString::fromStdString(printThickness(q->value, session.unitStyle()));
        return b;
    }
    const Kind kind = node.role == Role::length  ? Kind::length
                      : node.role == Role::angle ? Kind::angle
                                                 : Kind::number;
    return evaluated(session, node.value, spaceOf(node), kind);
}

Built summaryOf(const Session& session, const Node& entry) {
    if (entry.owner == "dimension")
        if (const Node* value = entry.child("value")) return builtValue(session, *value);
    if (entry.owner == "form") return formSummary(session, entry);
    if (entry.owner == "sheet") return sheetSummary(session, entry);
    if (entry.owner == "opening") {
        const QString plate = childValue(entry, "plate");
        return {plate.isEmpty() ? "along " + childValue(entry, "direction") : plate, {}};
    }
    if (QString known = partSummary(session, entry.owner, entry.name()); !known.isEmpty())
        return {std::move(known), {}};
    if (entry.owner == "curve") return {childValue(entry, "facets") + " facets", {}};
    if (entry.owner == "point") {
        const Node* x = entry.child("x");
        return x ? builtValue(session, *x) : Built{};
    }
    return {};
}

const Node* mainField(const Node& entry) {
    if (entry.kind != Node::Kind::group) return nullptr;
    if (!entry.entry) {
        if (entry.owner == "donor" && entry.key == "donor") return entry.child("kind");
        if (entry.owner == "rider") return entry.child("table");
        if (entry.owner == "clearance") return entry.child("default");
        return nullptr;
    }
    if (entry.owner == "dimension") return entry.child("value");
    if (entry.owner == "form") return entry.child("kind");
    if (entry.owner == "edge") return entry.child("joint");
    if (entry.owner == "opening" || entry.owner == "solid") return entry.child("shape");
    if (entry.owner == "sheet") return entry.child("thickness");
    if (entry.owner == "curve") return entry.child("bulge");
    return nullptr;
}

QString mainWords(const Node& entry) {
    if ((entry.owner == "point" || entry.owner == "placement") && entry.kind == Node::Kind::group) {
        QStringList parts;
        for (const char* key : {"x", "y", "z", "half_width", "roll", "pitch", "yaw"})
            if (const QString text = childValue(entry, key); !text.isEmpty()) parts << text;
        return parts.join("; ");
    }
    if (entry.kind == Node::Kind::pair && entry.children.size() == 2) {
        const char* between = entry.key == "size" ? " × " : " – ";
        return QString::fromStdString(entry.children[0]->value) + between +
               QString::fromStdString(entry.children[1]->value);
    }
    if (entry.kind == Node::Kind::list || entry.kind == Node::Kind::names || entry.kind == Node::Kind::map)
        return countOf(entry);
    return {};
}

} // namespace slab::ui
