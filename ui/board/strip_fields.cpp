#include "ui/board/strip_fields.h"
#include "core/board/mechanism_moves.h"
#include "ui/tables/table_edits.h"
#include <nlohmann/json.hpp>

namespace slab::ui {

namespace {

struct FieldWord {
    const char* key;
    const char* label;
    bool length = true;
    Space space = Space::subject;
};
using Words = std::vector<FieldWord>;

Words cornerWords(const Shape& shape) {
    if (std::holds_alternative<ProfileShape>(shape))
        return {{"x", "x"}, {"z", "z"}, {"half_width", "half width"}};
    if (std::holds_alternative<FacetShape>(shape)) return {{"x", "x"}, {"y", "y"}, {"z", "z"}};
    return {{"x", "x"}, {"y", "y"}};
}

Words placeWords(const Shape& shape) {
    Words words{{"at/x", "x"}, {"at/y", "y"}, {"at/z", "z"}};
    if (std::holds_alternative<TaperShape>(shape)) {
        words.push_back({"base_z", "base"});
        words.push_back({"top_z", "top"});
    }
    if (std::holds_alternative<RoundShape>(shape)) {
        words.push_back({"diameter", "diameter"});
        words.push_back({"top_diameter", "far diameter"});
        words.push_back({"length", "length"});
    }
    if (std::holds_alternative<PlateShape>(shape) || std::holds_alternative<RoundShape>(shape)) {
        words.push_back({"at/pitch", "pitch", false});
        words.push_back({"at/roll", "roll", false});
    }
    return words;
}

bool isThrough(const std::string& pointer) {
    return pointer.find("/through/") != std::string::npos;
}

const Curve* curveAt(const Shape& shape, const std::string& pointer) {
    const std::size_t at = pointer.find("/curves/");
    if (at == std::string::npos) return nullptr;
    const auto index = static_cast<std::size_t>(std::stoi(pointer.substr(at + 8)));
    const std::vector<Curve>* curves = nullptr;
    if (const auto* s = std::get_if<ProfileShape>(&shape)) curves = &s->curves;
    if (const auto* s = std::get_if<TaperShape>(&shape)) curves = &s->curves;
    if (const auto* s = std::get_if<PlateShape>(&shape)) curves = &s->curves;
    return curves && index < curves->size() ? &(*curves)[index] : nullptr;
}

Words curveWords(const Shape& shape, const std::string& pointer) {
    const bool profile = std::holds_alternative<ProfileShape>(shape);
    const Words plane = profile ? Words{{"x", "x"}, {"z", "z"}} : Words{{"x", "x"}, {"y", "y"}};
    if (isThrough(pointer)) return plane;
    const Curve* curve = curveAt(shape, pointer);
    if (!curve || curve->kind == CurveKind::spline) return {};
    return curve->kind == CurveKind::ellipse ? plane : Words{{"bulge", "bulge"}};
}

Words wordsFor(const Shape& shape, const PointRef& ref) {
    switch (ref.handle) {
    case Handle::corner:
    case Handle::halfWidth:
        return cornerWords(shape);
    case Handle::place:
        return placeWords(shape);
    case Handle::roundEnd:
    case Handle::radius:
    case Handle::topRadius:
        return {{"diameter", "diameter"}, {"top_diameter", "far diameter"}, {"length", "length"}};
    case Handle::curve:
        return curveWords(shape, ref.pointer);
    }
    return {};
}

QString textAt(const Project& project, const std::string& pointer) {
    const auto json = valueAt(project, pointer);
    if (!json) return {};
    const auto value = nlohmann::json::parse(*json, nullptr, false);
    return value.is_string() ? QString::fromStdString(value.get<std::string>()) : QString();
}

void addFields(StripContent& to, const Project& project, const Words& words, const std::string& base) {
    const bool first = to.fields.empty();
    std::vector<StripField> common;
    for (const FieldWord& word : words) {
        const std::string pointer = base + "/" + word.key;
        const QString text = textAt(project, pointer);
        if (first) {
            common.push_back({word.label, {pointer}, text, false, true, word.length, word.space});
            continue;
        }
        for (StripField& field : to.fields) {
            if (field.label != word.label) continue;
            field.pointers.push_back(pointer);
            if (field.text != text) field.differ = true, field.text.clear();
            common.push_back(field);
        }
    }
    to.fields = std::move(common);
}

/// Of a mechanism: where it is, how large, how far it goes: what its handles change. The rest is in its
/// table.
Words mechanismFields(const Project& project, const std::string& part) {
    const auto has = [&](const char* list) { return part.starts_with(std::string("/mechanisms/") + list); };
    if (part.find("/wheels/") != std::string::npos) return {{"x", "x"}, {"z", "z"}, {"diameter", "diameter"}};
    constexpr Space built = Space::build;
    Words words{{"at/x", "x"}, {"at/y", "y"}, {"at/z", "z"}};
    if (has("turntables"))
        words.insert(words.end(), {{"diameter", "diameter", true, built},
                                   {"depth", "depth", true, built},
                                   {"from", "from", false},
                                   {"to", "to", false}});
    if (has("trunnions"))
        words.insert(words.end(), {{"front", "front"},
                                   {"rear", "rear"},
                                   {"lowest", "lowest", false},
                                   {"highest", "highest", false}});
    if (has("belts")) words.push_back({"width", "width"});
    if (!has("linkages")) return words;
    for (FieldWord& word : words) word.space = built;
    const auto index = static_cast<std::size_t>(std::stoi(part.substr(part.rfind('/') + 1)));
    const auto& all = project.mechanisms.linkages;
    const bool pin = index < all.size() && all[index].joint == "pin_slot";
    if (pin) words.insert(words.end(), {{"up", "way up", true, built}, {"down", "way down", true, built}});
    words.insert(words.end(), {{"pitch_up", "nose up", false}, {"pitch_down", "nose down", false}});
    return words;
}

/// Of a frame, an opening or a mechanism: where it is.
Words partWords(const Project& project, const std::string& part) {
    if (part.starts_with("/mechanisms/")) return mechanismFields(project, part);
    if (part.starts_with("/frames/"))
        return {{"station", "station"}, {"yaw", "yaw", false}, {"pitch", "pitch", false}};
    const auto index = static_cast<std::size_t>(std::stoi(part.substr(part.rfind('/') + 1)));
    if (!project.openings[index].plate.empty()) return {{"u", "u"}, {"v", "v"}, {"turn", "turn", false}};
    return {{"x", "x"}, {"y", "y"}, {"z", "z"}, {"turn", "turn", false}};
}

/// "rib 3", "belt": a name that begins with what it is says that already.
QString called(const QString& kind, const QString& name) {
    return name == kind || name.startsWith(kind + " ") ? name : kind + " " + name;
}

QString headingOf(const BoardDesk& desk) {
    const std::string part = desk.choice().empty() ? desk.chosenPart() : std::string();
    if (part.starts_with("/mechanisms/")) {
        const QString name = QString::fromStdString(mechanismName(desk.project(), part));
        if (part.find("/wheels/") != std::string::npos)
            return called("wheel", textAt(desk.project(), part + "/name")) + " of " + name;
        return called(part.starts_with("/mechanisms/turntables/")  ? "turntable"
                      : part.starts_with("/mechanisms/trunnions/") ? "trunnion"
                      : part.starts_with("/mechanisms/linkages/")  ? "linkage"
                                                                   : "belt",
                      name);
    }
    if (!part.empty())
        return called(part.starts_with("/frames/") ? "frame" : "opening",
                      textAt(desk.project(), part + "/name"));
    const BoardChoice& choice = desk.choice();
    const std::size_t n = choice.points.size();
    if (n > 1) return QString("%1 points").arg(n);
    if (n == 0) return {};
    const PointRef& ref = choice.points.front();
    if (ref.handle == Handle::place || ref.handle == Handle::roundEnd || ref.handle == Handle::radius ||
        ref.handle == Handle::topRadius) {
        const int form = formOf(ref.pointer);
        return form >= 0 ? QString::fromStdString(desk.project().forms[static_cast<std::size_t>(form)].name)
                         : QString();
    }
    const BoardPoint* p = find(desk.scene(), choice.view, ref);
    return p ? QString::fromStdString(p->name) : QString();
}

} // namespace

StripContent stripContent(const BoardDesk& desk) {
    StripContent content;
    const Project& project = desk.project();
    content.heading = headingOf(desk);
    if (const int form = desk.chosenForm(); desk.choice().empty() && desk.chosenPart().empty() && form >= 0) {
        // Chosen elsewhere, or just pasted.
        const Form& chosen = project.forms[static_cast<std::size_t>(form)];
        content.heading = QString::fromStdString(chosen.name);
        addFields(content, project, placeWords(chosen.shape), "/forms/" + std::to_string(form));
        return content;
    }
    if (const std::string part = desk.chosenPart(); desk.choice().empty() && !part.empty()) {
        addFields(content, project, partWords(project, part), part);
        return content;
    }
    bool begun = false;
    for (const PointRef& ref : desk.choice().points) {
        const int form = formOf(ref.pointer);
        if (form < 0 || form >= static_cast<int>(project.forms.size())) continue;
        if (begun && content.fields.empty()) break; // nothing in common
        addFields(content, project, wordsFor(project.forms[static_cast<std::size_t>(form)].shape, ref),
                  ref.pointer);
        begun = true;
    }
    return content;
}

Reading readingOf(const BoardDesk& desk, const QString& formula, bool length, Space space) {
    if (formula.trimmed().isEmpty()) return {};
    const auto value =
        evaluate(formula.toStdString(), desk.scope(), space, length ? Kind::length : Kind::angle);
    if (!value) return {{}, QString::fromStdString(value.error().message)};
    return {QString::fromStdString(length ? printLength(value->value, desk.scene().units)
                                          : printAngle(value->value)),
            {}};
}

Edit typedInto(const Session& session, const StripField& field, const QString& typed) {
    const auto tree = treeOf(session.project());
    std::vector<Edit> edits;
    for (const std::string& pointer : field.pointers)
        if (const Node* node = nodeAt(*tree, pointer)) edits.push_back(editFor(session, *node, typed));
    if (edits.size() == 1) return std::move(edits.front());
    return chained("Change " + field.label.toStdString() + " of " + std::to_string(edits.size()) + " points",
                   std::move(edits));
}

QStringList formulaNames(const Project& project) {
    QStringList names;
    for (const Dimension& d : project.dimensions) names << QString::fromStdString(d.name);
    return names;
}

} // namespace slab::ui
