#include "ui/tables/table_edits.h"
#include <algorithm>
#include <nlohmann/json.hpp>

namespace slab::ui {

namespace {

using Json = nlohmann::ordered_json;

std::vector<std::string> namesOf(const Node& list) {
    std::vector<std::string> names;
    for (const auto& c : list.children) names.push_back(c->name());
    return names;
}

OutlinePoint point(const char* name, const char* x, const char* y, const char* z, const char* half = "") {
    OutlinePoint p;
    p.name = name;
    p.x = x;
    p.y = y;
    p.z = z;
    p.half_width = half;
    return p;
}

std::string value(const Node& node, const char* key) {
    const Node* n = node.child(key);
    return n && !n->value.empty() ? n->value : "0";
}

/// A corner in the middle of the side that it is put into, so that the outline stays what it was.
Json newPoint(const Node& list, int at) {
    const auto count = static_cast<int>(list.children.size());
    const bool profile =
        list.parent && list.parent->child("kind") && list.parent->child("kind")->value == "profile";
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

Json newForm(const Node& list, const QString& kind) {
    Project one;
    Form form;
    const std::string word = kind.isEmpty() ? "taper" : kind.toStdString();
    form.name = freeName(word == "taper"   ? "box"
                         : word == "plate" ? "board"
                         : word == "round" ? "pipe"
                                           : word,
                         namesOf(list));
    std::replace(form.name.begin(), form.name.end(), '_', ' ');
    form.shape = plainShape(word);
    one.forms.push_back(form);
    return Json::parse(valueAt(one, "/forms/0").value_or("{}"));
}

Json newObject(const Session& session, const Node& list, int at, const QString& kind) {
    const std::string& owner = list.owner;
    if (owner == "dimension")
        return {{"name", freeName("size", namesOf(list))}, {"value", "1 m"}, {"space", "subject"}};
    if (owner == "form") return newForm(list, kind);
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
    if (owner == "cut") return newCut(session, list);
    return {{"name", freeName("piece", namesOf(list))}};
}

} // namespace

Shape plainShape(const std::string& kind) {
    const auto square = [](const char* size) {
        const std::string minus = "-" + std::string(size);
        return std::vector<OutlinePoint>{
            point("starboard", minus.c_str(), minus.c_str(), ""), point("front", size, minus.c_str(), ""),
            point("port", size, size, ""), point("aft", minus.c_str(), size, "")};
    };
    if (kind == "profile")
        return ProfileShape{{point("floor", "0", "", "0", "0.5 m"), point("front", "1.5 m", "", "0", "0.5 m"),
                             point("deck", "1.5 m", "", "1 m", "0.5 m"),
                             point("aft", "0", "", "1 m", "0.5 m")},
                            {}};
    if (kind == "plate") return PlateShape{square("0.3 m"), {}};
    if (kind == "round") {
        RoundShape shape;
        shape.diameter = "0.2 m";
        shape.length = "0.6 m";
        return shape;
    }
    if (kind == "facet") {
        FacetShape shape;
        shape.corners = {point("a", "0", "-0.4 m", "0"), point("b", "0.8 m", "-0.4 m", "0"),
                         point("c", "0.8 m", "0.4 m", "0"), point("d", "0", "0.4 m", "0"),
                         point("e", "0.2 m", "0", "0.6 m")};
        const auto face = [](const char* name, std::vector<std::string> corners) {
            FacetFace f;
            f.name = name;
            f.corners = std::move(corners);
            return f;
        };
        shape.faces = {face("base", {"a", "d", "c", "b"}), face("starboard", {"a", "b", "e"}),
                       face("front", {"b", "c", "e"}), face("port", {"c", "d", "e"}),
                       face("aft", {"d", "a", "e"})};
        return shape;
    }
    TaperShape shape;
    shape.base = square("0.5 m");
    shape.top = square("0.4 m");
    shape.base_z = "0";
    shape.top_z = "0.8 m";
    return shape;
}

std::string newEntry(const Session& session, const Node& list, int at, const QString& kind) {
    if (list.kind == Node::Kind::names) return newText(session, list).dump();
    if (list.kind == Node::Kind::map) {
        const std::string key = freeName(somePlate(session), namesOf(list));
        if (list.key == "plates") return Json{{key, session.project().materials.fallback}}.dump();
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
