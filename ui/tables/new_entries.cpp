#include "ui/tables/new_form.h"
#include "ui/tables/new_part.h"
#include "ui/tables/table_edits.h"
#include <algorithm>
#include <nlohmann/json.hpp>
#include <numbers>

namespace slab::ui {

namespace {

using Json = nlohmann::ordered_json;

std::vector<std::string> namesOf(const Node& list) {
    std::vector<std::string> names;
    for (const auto& c : list.children) names.push_back(c->name());
    return names;
}

std::string value(const Node& node, const char* key) {
    const Node* n = node.child(key);
    return n && !n->value.empty() ? n->value : "0";
}

/// A corner in the middle of the side that it is put into, so that the outline stays what it was.
Json newPoint(const Node& list, int at) {
    const auto count = static_cast<int>(list.children.size());
    const Node* form = list.parent;
    while (form && form->owner != "form") form = form->parent;
    const bool profile = form && form->child("kind") && form->child("kind")->value == "profile";
    const bool corner = list.key == "corners";
    Json p{{"name", freeName("corner", namesOf(list))}};
    std::vector<const char*> keys = profile  ? std::vector<const char*>{"x", "z", "half_width"}
                                    : corner ? std::vector<const char*>{"x", "y", "z"}
                                             : std::vector<const char*>{"x", "y"};
    for (const char* key : keys) {
        if (count < 2) {
            p[key] = "0";
            continue;
        }
        const Node& before = *list.children[static_cast<std::size_t>((at + count - 1) % count)];
        const Node& after = *list.children[static_cast<std::size_t>(at % count)];
        const std::string a = value(before, key), b = value(after, key);
        p[key] = a == b ? a : "((" + a + ") + (" + b + ")) / 2";
    }
    return p;
}

Json newEdge(const Session& session) {
    if (const auto& plates = session.evaluation().plates)
        for (const JointInfo& joint : plates->joints)
            if (!joint.forced) return {{"between", {joint.a, joint.b}}, {"joint", "mitre"}};
    return {{"between", {"", ""}}, {"joint", "mitre"}};
}

/// A corner that has no weight yet counts double.
Json newWeight(const Node& list) {
    const Node* corners = list.parent ? list.parent->child("corners") : nullptr;
    for (std::size_t i = 0; corners && i < corners->children.size(); ++i)
        if (!list.child(corners->children[i]->name())) return {{corners->children[i]->name(), "2"}};
    return {{"corner", "2"}};
}

std::string somePlate(const Session& session) {
    if (!session.selection().plate.isEmpty()) return session.selection().plate.toStdString();
    const auto& plates = session.evaluation().plates;
    return plates && !plates->plates.empty() ? plates->plates.front().name : "*";
}

Json newSheet(const Node& list, const QString& idea) {
    const auto& ideas = sheetIdeas();
    const auto at = std::find_if(ideas.begin(), ideas.end(),
                                 [&](const SheetIdea& i) { return i.name == idea.toStdString(); });
    if (at == ideas.end())
        return {{"name", freeName("sheet", namesOf(list))},
                {"kind", "foam"},
                {"size", {"1200 mm", "2400 mm"}},
                {"thickness", "10 mm"},
                {"measured", false},
                {"price", "0"},
                {"on_hand", "0"},
                {"trim", "5 mm"},
                {"density", "30"}};
    return {{"name", freeName(at->name, namesOf(list))},
            {"kind", at->kind},
            {"size", {at->width, at->length}},
            {"thickness", at->thickness},
            {"measured", false},
            {"price", "0"},
            {"on_hand", "0"},
            {"trim", "5 mm"},
            {"density", at->density}};
}

Json newCut(const Session& session, const Node& list) {
    const auto taken = namesOf(list);
    if (const auto& panels = session.evaluation().panels)
        for (const Panel& panel : *panels)
            if (std::find(taken.begin(), taken.end(), panel.plates.front()) == taken.end())
                return {{"panel", panel.plates.front()}, {"fingerprint", panel.fingerprint}};
    return {{"panel", ""}, {"fingerprint", ""}};
}

Json newCurve(const Node& list) {
    Json curve{{"from", ""}, {"to", ""}, {"bulge", "50 mm"}, {"facets", "3"}};
    const Node* outline = list.parent ? list.parent->child("outline") : nullptr;
    if (!outline && list.parent) outline = list.parent->child("base");
    if (outline && outline->children.size() > 1) {
        curve["from"] = outline->children[0]->name();
        curve["to"] = outline->children[1]->name();
    }
    return curve;
}

Json newFace(const Node& list) {
    Json corners = Json::array();
    if (const Node* points = list.parent ? list.parent->child("corners") : nullptr)
        for (std::size_t i = 0; i < points->children.size() && i < 3; ++i)
            corners.push_back(points->children[i]->name());
    return {{"name", freeName("face", namesOf(list))}, {"corners", corners}};
}

Json newText(const Session& session, const Node& list) {
    if (list.role == Role::point && list.parent && list.parent->parent && list.parent->parent->parent)
        if (const Node* points = list.parent->parent->parent->child("corners");
            points && !points->children.empty())
            return points->children.front()->name();
    if (list.role == Role::solid) {
        const auto& donor = session.evaluation().donor;
        return donor && !donor->solids.empty() ? donor->solids.front().name : "donor/seat";
    }
    return somePlate(session);
}

Json formEntry(const Session& session, const Node& list, const QString& kind) {
    const std::string word = kind.isEmpty() ? "taper" : kind.toStdString();
    std::string name = freeName(word == "taper"   ? "box"
                                : word == "plate" ? "board"
                                : word == "round" ? "pipe"
                                                  : word,
                                namesOf(list));
    std::replace(name.begin(), name.end(), '_', ' ');
    Project one;
    one.forms.push_back(newForm(session.project(), session.evaluation(), word, name));
    return Json::parse(valueAt(one, "/forms/0").value_or("{}"));
}

/// A generic size that the document may change; it starts as what it is.
Json offeredEntry(const Node& list, const QString& wanted) {
    for (const auto& child : list.children)
        if (child->absent && (wanted.isEmpty() || child->key == wanted.toStdString())) {
            char size[32];
            const bool angle = child->role == Role::angle;
            std::snprintf(size, sizeof size,
                          angle                         ? "%.4g deg"
                          : child->role == Role::number ? "%.4g"
                                                        : "%.4g mm",
                          angle ? child->generic * 180 / std::numbers::pi : child->generic);
            return {{child->key, size}};
        }
    return {};
}

Json newObject(const Session& session, const Node& list, int at, const QString& kind) {
    const std::string& owner = list.owner;
    if (owner == "dimension")
        return {{"name", freeName("size", namesOf(list))}, {"value", "1 m"}, {"space", "subject"}};
    if (owner == "form") return formEntry(session, list, kind);
    if (owner == "point") return newPoint(list, at);
    if (owner == "curve") return newCurve(list);
    if (owner == "face") return newFace(list);
    if (owner == "edge") return newEdge(session);
    if (owner == "opening")
        return {{"name", freeName("opening", namesOf(list))},
                {"shape", "rectangle"},
                {"plate", somePlate(session)},
                {"u", "0"},
                {"v", "0"},
                {"width", "200 mm"},
                {"height", "100 mm"}};
    if (owner == "solid")
        return {{"name", freeName("box", namesOf(list))},
                {"shape", "box"},
                {"x", "0"},
                {"y", "0"},
                {"z", "300 mm"},
                {"size_x", "300 mm"},
                {"size_y", "300 mm"},
                {"size_z", "300 mm"}};
    if (owner == "sheet") return newSheet(list, kind);
    if (const Json part = newPart(session, list); !part.is_null()) return part;
    if (owner == "cut") return newCut(session, list);
    return {{"name", freeName("piece", namesOf(list))}};
}

} // namespace

std::string newEntry(const Session& session, const Node& list, int at, const QString& kind) {
    if (list.kind == Node::Kind::names) return newText(session, list).dump();
    if (list.kind == Node::Kind::map) {
        const std::string key = freeName(somePlate(session), namesOf(list));
        if (list.key == "weights") return newWeight(list).dump();
        if (list.key == "plates") return Json{{key, session.project().materials.fallback}}.dump();
        if (const Json offered = offeredEntry(list, kind); !offered.is_null()) return offered.dump();
        return Json{{freeName("size", namesOf(list)), "100 mm"}}.dump();
    }
    return newObject(session, list, at, kind).dump();
}

Edit duplicateEntry(const Session& session, const Node& entry) {
    const std::string label = "Duplicate " + entry.name();
    const Node& list = *entry.parent;
    auto text = valueAt(session.project(), entry.pointer());
    if (!text) return insertValue(list.pointer(), entry.row() + 1, "null", label);
    Json copy = Json::parse(*text, nullptr, false);
    const std::string name = freeName(entry.name(), namesOf(list));
    if (list.kind == Node::Kind::map)
        copy = Json{{name, copy}};
    else if (copy.is_object() && copy.contains("name"))
        copy["name"] = name;
    return insertValue(list.pointer(), entry.row() + 1, copy.dump(), label);
}

} // namespace slab::ui
