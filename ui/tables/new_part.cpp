#include "ui/tables/new_part.h"
#include "ui/tables/table_edits.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

using Json = nlohmann::ordered_json;

std::string named(const Node& list, const std::string& word) {
    std::vector<std::string> names;
    for (const auto& c : list.children) names.push_back(c->name());
    std::string name = freeName(word, names);
    std::replace(name.begin(), name.end(), '_', ' ');
    return name;
}

/// A round length in mm, at full size.
std::string roundMm(double mm) {
    const double step = std::abs(mm) > 500 ? 50 : 10;
    return std::to_string(static_cast<long long>(std::llround(mm / step) * static_cast<long long>(step))) +
           " mm";
}

/// Box of the body at full size; a metre about the origin while there is none.
Box3 fullSize(const Session& session) {
    const Evaluation& e = session.evaluation();
    if (!e.body || e.body->bounds.size().norm() < 1) return {Vec3(-500, -500, 0), Vec3(500, 500, 1000)};
    return {e.body->bounds.min / e.scale, e.body->bounds.max / e.scale};
}

/// The middle of the largest face that looks up, exactly in it: rings lie flat on a deck.
Json onDeck(const Session& session, const Json& otherwise) {
    const Evaluation& e = session.evaluation();
    if (!e.body) return otherwise;
    const Skin& skin = e.body->skin;
    double largest = 0;
    Vec3 middle = Vec3::Zero();
    for (const SkinFace& f : skin.faces) {
        if (f.plane.normal.z() < 0.999 || f.loops.empty()) continue;
        std::vector<Vec3> corners;
        for (const int v : f.loops.front()) corners.push_back(skin.vertices[static_cast<std::size_t>(v)]);
        Vec3 twice = Vec3::Zero(), sum = Vec3::Zero();
        for (std::size_t i = 0; i < corners.size(); ++i) {
            twice += corners[i].cross(corners[(i + 1) % corners.size()]);
            sum += corners[i];
        }
        if (twice.norm() / 2 <= largest) continue;
        largest = twice.norm() / 2;
        middle = sum / static_cast<double>(corners.size());
    }
    if (largest == 0) return otherwise;
    return {{"x", roundMm(middle.x() / e.scale)}, {"z", printExact(middle.z() / e.scale, Unit::mm)}};
}

std::string chosenPlate(const Session& session) {
    if (!session.selection().plate.isEmpty()) return session.selection().plate.toStdString();
    const auto& plates = session.evaluation().plates;
    return plates && !plates->plates.empty() ? plates->plates.front().name : "*";
}

Json newMechanism(const Session& session, const Node& list) {
    const Box3 box = fullSize(session);
    const Vec3 middle = (box.min + box.max) / 2;
    const Json top{{"x", roundMm(middle.x())}, {"z", roundMm(box.max.z())}};
    if (list.owner == "turntable")
        return {{"name", named(list, "turntable")},
                {"at", onDeck(session, top)},
                {"diameter", "400 mm"},
                {"depth", "150 mm"},
                {"wall", "3 mm"},
                {"lip", "15 mm"},
                {"lip_thickness", "4 mm"},
                {"gap", "2 mm"},
                {"overlap", "10 mm"},
                {"ring_width", "60 mm"}};
    if (list.owner == "trunnion")
        return {{"name", named(list, "trunnion")},
                {"at", top},
                {"diameter", "60 mm"},
                {"wall", "2 mm"},
                {"front", "800 mm"},
                {"rear", "200 mm"},
                {"lowest", "-5 deg"},
                {"highest", "30 deg"},
                {"gap", "5 mm"}};
    if (list.owner == "linkage")
        return {{"name", named(list, "hinge")},
                {"joint", "hinge"},
                {"at", {{"x", roundMm(middle.x() * session.evaluation().scale)}, {"z", "200 mm"}}},
                {"pitch_up", "5 deg"},
                {"pitch_down", "5 deg"},
                {"pin", "10 mm"}};
    const double low = box.min.z() + 200;
    std::string card; // strips are cut from card
    for (const SheetStock& sheet : session.project().stock.sheets)
        if (card.empty() && sheet.kind == "card") card = sheet.name;
    return {{"name", named(list, "belt")},
            {"stock", card},
            {"at", {{"y", roundMm(box.max.y() + 100)}}},
            {"wheels",
             {{{"name", "front wheel"},
               {"x", roundMm(box.max.x() - 300)},
               {"z", roundMm(low)},
               {"diameter", "400 mm"}},
              {{"name", "rear wheel"},
               {"x", roundMm(box.min.x() + 300)},
               {"z", roundMm(low)},
               {"diameter", "400 mm"}}}},
            {"width", "200 mm"},
            {"pitch", "100 mm"},
            {"moves", "rear wheel"},
            {"overlap", "50 mm"}};
}

Json newBoardPart(const Session& session, const Node& list) {
    const std::string& owner = list.owner;
    if (owner == "picture")
        return {{"name", named(list, "picture")}, {"file", "picture.png"}, {"view", "side"}};
    if (owner == "picture point") return {{"name", named(list, "mark")}, {"x", "0"}, {"y", "0"}};
    if (owner == "picture line")
        return {{"name", named(list, "line")}, {"x1", "0"}, {"y1", "0"}, {"x2", "100"}, {"y2", "0"}};
    if (owner == "dimension line") {
        std::string from, to;
        for (const Form& form : session.project().forms)
            if (const auto* s = std::get_if<ProfileShape>(&form.shape);
                s && s->outline.size() > 1 && from.empty()) {
                from = form.name + "/" + s->outline[0].name;
                to = form.name + "/" + s->outline[1].name;
            }
        return {{"name", named(list, "dimension_line")}, {"from", from}, {"to", to}};
    }
    return {};
}

/// Of people, chassis parts, route and ride.
Json newRidePart(const Node& list) {
    const std::string& owner = list.owner;
    if (owner == "part of the route")
        return {{"name", named(list, "door")},
                {"kind", "door"},
                {"width", "815 mm"},
                {"height", "2000 mm"},
                {"thickness", "120 mm"}};
    if (owner == "stretch") return {{"name", ""}, {"run", "600 mm"}, {"rise", "50 mm"}};
    if (owner == "ballast")
        return {{"name", named(list, "ballast")}, {"mass", 5}, {"x", "0"}, {"y", "0"}, {"z", "150 mm"}};
    if (owner == "passenger")
        return {{"name", named(list, "child")},
                {"table", "child"},
                {"percentile", 50},
                {"age", 5},
                {"x", "-600 mm"},
                {"y", "0"},
                {"z", "450 mm"}};
    if (owner == "donor wheel")
        return {{"name", named(list, "wheel")}, {"x", "0"},         {"y", "250 mm"},
                {"diameter", "300 mm"},         {"width", "60 mm"}, {"role", "fixed"}};
    if (owner == "service point")
        return {{"name", named(list, "switch")}, {"x", "0"}, {"y", "0"}, {"z", "400 mm"}};
    if (owner == "round part")
        return {{"name", named(list, "pipe")}, {"diameter", "110 mm"}, {"wall", "3.2 mm"}, {"length", "2 m"}};
    return {};
}

} // namespace

Json newPart(const Session& session, const Node& list) {
    const std::string& owner = list.owner;
    const Box3 box = fullSize(session);
    if (owner == "frame")
        return {{"name", named(list, "frame")},
                {"axis", "x"},
                {"station", roundMm((box.min.x() + box.max.x()) / 2)},
                {"web", "60 mm"}};
    if (owner == "cleat rule")
        return {{"name", named(list, "cleats")},
                {"between", {"*", "*"}},
                {"kind", "cleat"},
                {"width", "20 mm"},
                {"depth", "20 mm"},
                {"end_gap", "10 mm"}};
    if (owner == "seam") return {{"plate", chosenPlate(session)}, {"at", "0"}, {"strip", "80 mm"}};
    if (owner == "module")
        return {{"name", named(list, "module")}, {"plates", Json::array({chosenPlate(session)})}};
    if (owner == "passage")
        return {{"name", named(list, "door")}, {"width", "800 mm"}, {"height", "2000 mm"}};
    if (const Json of = newRidePart(list); !of.is_null()) return of;
    if (owner == "wheel")
        return {{"name", named(list, "wheel")}, {"x", "0"}, {"z", "200 mm"}, {"diameter", "300 mm"}};
    if (owner == "turntable" || owner == "trunnion" || owner == "linkage" || owner == "belt")
        return newMechanism(session, list);
    return newBoardPart(session, list);
}

} // namespace slab::ui
