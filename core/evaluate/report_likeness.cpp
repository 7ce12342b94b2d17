#include "core/evaluate/report_likeness.h"
#include "core/body/curved.h"
#include "core/evaluate/stages.h"
#include "core/likeness/likeness.h"
#include <algorithm>

namespace slab {

namespace {

using LikenessJson = nlohmann::ordered_json;

int facePlates(const Project& project, const Body& body) {
    return static_cast<int>(
        std::count_if(body.skin.faces.begin(), body.skin.faces.end(),
                      [&](const SkinFace& face) { return !stockFor(project.materials, face.name).empty(); }));
}

} // namespace

nlohmann::ordered_json madeFlatReport(const Project& project, const Evaluation& e) {
    LikenessJson list = LikenessJson::array();
    if (e.scope)
        for (const FlatMove& move : flatMoves(project, *e.scope))
            list.push_back({{"form", move.form}, {"corner", move.corner}, {"move_mm", move.move}});
    return list;
}

nlohmann::ordered_json likenessReport(const Project& project, const Evaluation& e) {
    if (!e.scope || !e.body || e.body->curves.empty()) return nullptr;
    const Likeness likeness = likenessOf(project, *e.scope);
    if (likeness.curves == 0) return nullptr;
    return {{"greatest_mm", likeness.greatest},
            {"mean_mm", likeness.mean},
            {"plates", facePlates(project, *e.body)}};
}

std::string likenessText(const Project& project, const Evaluation& e) {
    if (!e.scope || !e.body) return {};
    const UnitStyle& units = e.units;
    std::string out;
    if (const auto likeness = likenessReport(project, e); !likeness.is_null())
        out += "  curved sides: " + printFine(likeness["greatest_mm"].get<double>(), units) + " at most, " +
               printFine(likeness["mean_mm"].get<double>(), units) + " on average, with " +
               std::to_string(likeness["plates"].get<int>()) + " plates of the skin\n";
    for (const FlatMove& move : flatMoves(project, *e.scope))
        out += "  " + move.form + " made flat: corner " + move.corner + " moves " +
               printFine(move.move, units) + "\n";
    return out.empty() ? out : "\nLikeness\n" + out;
}

} // namespace slab
