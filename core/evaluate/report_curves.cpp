#include "core/evaluate/report_curves.h"
#include "core/body/curved.h"
#include "core/evaluate/stages.h"
#include "core/likeness/likeness.h"
#include <algorithm>

namespace slab {

namespace {

using CurvesJson = nlohmann::ordered_json;

int facePlates(const Project& project, const Body& body) {
    return static_cast<int>(
        std::count_if(body.skin.faces.begin(), body.skin.faces.end(),
                      [&](const SkinFace& face) { return !stockFor(project.materials, face.name).empty(); }));
}

} // namespace

nlohmann::ordered_json curvesReport(const Evaluation& e) {
    CurvesJson list = CurvesJson::array();
    if (e.body)
        for (const CurveFit& fit : e.body->curves)
            list.push_back({{"form", fit.form},
                            {"side", fit.side},
                            {"facets", fit.facets},
                            {"deviation_mm", fit.deviation}});
    return list;
}

nlohmann::ordered_json madeFlatReport(const Project& project, const Evaluation& e) {
    CurvesJson list = CurvesJson::array();
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

std::string curvesText(const Project& project, const Evaluation& e) {
    if (!e.scope || !e.body) return {};
    UnitStyle units = e.units;
    units.typographic = false;
    std::string out;
    for (const CurveFit& fit : e.body->curves)
        out += "  " + fit.form + "/" + fit.side + ": " + std::to_string(fit.facets) +
               (fit.facets == 1 ? " facet" : " facets") + ", at most " + printFine(fit.deviation, units) +
               " off the curve\n";
    if (const auto likeness = likenessReport(project, e); !likeness.is_null())
        out += "  likeness: " + printFine(likeness["greatest_mm"].get<double>(), units) + " at most, " +
               printFine(likeness["mean_mm"].get<double>(), units) + " on average, with " +
               std::to_string(likeness["plates"].get<int>()) + " plates of the skin\n";
    for (const FlatMove& move : flatMoves(project, *e.scope))
        out += "  " + move.form + " made flat: corner " + move.corner + " moves " +
               printFine(move.move, units) + "\n";
    return out.empty() ? out : "\nCurves and flats\n" + out;
}

} // namespace slab
