// The report of `slabside report --json`: figures in mm and degrees at build size. Documented in
// resources/report.md.
#include "core/evaluate/evaluate.h"
#include "core/evaluate/report_likeness.h"
#include "core/evaluate/report_mechanisms.h"
#include "core/evaluate/report_parts.h"
#include "core/evaluate/report_pictures.h"
#include "core/evaluate/report_trial.h"
#include "core/mechanisms/rounds.h"
#include "core/mechanisms/shown.h"
#include "core/plates/placements.h"
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

namespace slab {

namespace {

using Json = nlohmann::ordered_json;

/// What is rounding only, and minus zero, is 0: a square edge has no tilt.
double figure(double value) {
    return std::abs(value) < 1e-9 ? 0.0 : value;
}
double degrees(double radians) {
    return figure(radians * 180 / std::numbers::pi);
}
Json point(const Vec2& p) {
    return Json::array({figure(p.x()), figure(p.y())});
}
Json point(const Vec3& p) {
    return Json::array({figure(p.x()), figure(p.y()), figure(p.z())});
}
Json ring(const Ring& points) {
    Json list = Json::array();
    for (const Vec2& p : points) list.push_back(point(p));
    return list;
}
Json innerIndex(const PanelEdge& edge) {
    return edge.inner < 0 ? Json(nullptr) : Json(edge.inner);
}

Json edges(const std::vector<PanelEdge>& all, const Panel& panel) {
    Json list = Json::array();
    for (const PanelEdge& e : all)
        list.push_back({{"plate", panel.plateOf(e)},
                        {"neighbour", e.neighbour},
                        {"joint", roleName(e.role)},
                        {"dihedral_deg", degrees(e.dihedral)},
                        {"bevel_deg", degrees(e.bevel)},
                        {"length_mm", e.length},
                        {"offset_outer_mm", figure(e.offsetOuter)},
                        {"offset_inner_mm", figure(e.offsetInner)},
                        {"inner", innerIndex(e)},
                        {"mark", e.mark}});
    return list;
}

Json skinJson(const Body& body) {
    return {{"volume_mm3", body.volume},
            {"area_mm2", body.area},
            {"bounds_mm", Json::array({point(body.bounds.min), point(body.bounds.max)})}};
}

/// @param frame  of its panel as that plate stands
Json plateJson(const Plate& p, const Frame& frame) {
    Json placement = Json::array();
    for (int row = 0; row < 4; ++row) {
        Json line = Json::array();
        for (int column = 0; column < 4; ++column)
            line.push_back(row == 3 ? (column == 3 ? 1.0 : 0.0)
                                    : figure(column == 3 ? frame.origin[row] : frame.axes(row, column)));
        placement.push_back(std::move(line));
    }
    return {{"name", p.name},
            {"form", p.form},
            {"material", p.stock},
            {"thickness_mm", p.thickness},
            {"rank", p.rank},
            {"volume_mm3", p.volume},
            {"placement", std::move(placement)}};
}

/// Of a blank: where each plate lies in it, and the lines that it is folded about.
Json partsJson(const Panel& panel) {
    Json list = Json::array();
    for (const PanelPart& part : panel.parts)
        list.push_back({{"plate", part.plate},
                        {"turn_deg", degrees(part.turn)},
                        {"shift_mm", point(part.shift)},
                        {"outer_mm", ring(part.outer)},
                        {"inner_mm", ring(part.inner)}});
    return list;
}
Json foldsJson(const Panel& panel) {
    Json list = Json::array();
    for (const PanelFold& fold : panel.folds)
        list.push_back({{"plates", Json::array({panel.parts[static_cast<std::size_t>(fold.a)].plate,
                                                panel.parts[static_cast<std::size_t>(fold.b)].plate})},
                        {"kind", fold.valley ? "valley" : "convex"},
                        {"from_mm", point(fold.from)},
                        {"to_mm", point(fold.to)},
                        {"length_mm", (fold.to - fold.from).norm()},
                        {"dihedral_deg", degrees(fold.dihedral)},
                        {"fold_deg", degrees(fold.angle)},
                        {"groove_face", fold.valley ? "outside" : "inside"},
                        {"groove_width_mm", fold.width},
                        {"groove_mm", ring(fold.mouth)},
                        {"mark", fold.mark}});
    return list;
}

Json guidesJson(const Panel& panel) {
    Json list = Json::array();
    for (const GuideLine& guide : panel.guides)
        list.push_back({{"words", guide.words},
                        {"from_mm", point(guide.from)},
                        {"to_mm", point(guide.to)},
                        {"face", guide.inside ? "inside" : "outside"}});
    return list;
}

/// What each plate cut from the panel meets, edge by edge.
Json copiesJson(const Panel& panel) {
    Json list = Json::array();
    for (const PanelCopy& copy : panel.copies) {
        Json loops = Json::array(), rests = Json::array();
        for (const auto& loop : copy.loops) {
            Json meetings = Json::array();
            for (const EdgeMeeting& edge : loop)
                meetings.push_back(
                    {{"neighbour", edge.neighbour}, {"joint", roleName(edge.role)}, {"mark", edge.mark}});
            loops.push_back(std::move(meetings));
        }
        for (const FaceRest& rest : copy.rests)
            rests.push_back({{"face", rest.outside ? "outside" : "inside"},
                             {"plate", rest.plate},
                             {"plate_face", rest.within ? "inside" : "outside"},
                             {"mark", rest.mark}});
        list.push_back({{"plate", copy.plate}, {"loops", std::move(loops)}, {"rests", std::move(rests)}});
    }
    return list;
}

/// Where plate forms stand and lie on the plates cut from the panel.
Json contactsJson(const Panel& panel) {
    Json list = Json::array();
    for (const PanelCopy& copy : panel.copies)
        for (const Contact& contact : copy.contacts) {
            Json rings = Json::array();
            for (const Ring& one : contact.rings) rings.push_back(ring(one));
            list.push_back({{"on", contact.on},
                            {"face", contact.inside ? "inside" : "outside"},
                            {"plate", contact.plate},
                            {"by", contact.flat ? "face" : "edge"},
                            {"mark", contact.mark},
                            {"rings_mm", std::move(rings)}});
        }
    return list;
}

Json panelJson(const Panel& p) {
    Json holes = Json::array();
    for (const PanelLoop& hole : p.holes)
        holes.push_back({{"opening", hole.opening},
                         {"outer_mm", ring(hole.outer)},
                         {"inner_mm", ring(hole.inner)},
                         {"edges", edges(hole.edges, p)}});
    return {{"name", p.name},
            {"plates", p.plates},
            {"copies", copiesJson(p)},
            {"cut_from", p.cutFrom},
            {"mirror_of", p.mirrorOf.empty() ? Json(nullptr) : Json(p.mirrorOf)},
            {"material", p.stock},
            {"thickness_mm", p.thickness},
            {"outer_mm", ring(p.boundary.outer)},
            {"inner_mm", ring(p.boundary.inner)},
            {"holes", std::move(holes)},
            {"edges", edges(p.boundary.edges, p)},
            {"extra_inner_edges", edges(p.boundary.extraInner, p)},
            {"contacts", contactsJson(p)},
            {"parts", partsJson(p)},
            {"folds", foldsJson(p)},
            {"guides", guidesJson(p)},
            {"up", {{"direction", point(p.up)}, {"word", p.upWord}}},
            {"fingerprint", p.fingerprint}};
}

Json misfits(const std::vector<Misfit>& all) {
    Json list = Json::array();
    for (const Misfit& m : all)
        list.push_back({{"plates", m.plates}, {"volume_mm3", m.volume}, {"at_mm", point(m.at)}});
    return list;
}

const char* stateName(FitState s) {
    return s == FitState::fits ? "fits" : s == FitState::tight ? "tight" : "hits";
}

Json posesJson(const FitResult& fit) {
    Json poses = Json::array();
    for (const FitResult::Posed& p : fit.posed)
        poses.push_back({{"solid", p.pair.solid},
                         {"plate", p.pair.plate},
                         {"pose", p.words},
                         {"state", stateName(p.pair.state)},
                         {"clearance_mm", p.pair.clearance},
                         {"depth_mm", p.pair.depth},
                         {"wanted_mm", p.pair.wanted},
                         {"points_mm", Json::array({point(p.pair.onSolid), point(p.pair.onPlate)})},
                         {"confirmed", p.pair.confirmed}});
    return poses;
}
Json serviceJson(const FitResult& fit) {
    Json service = Json::array();
    for (const ServiceWay& w : fit.service)
        service.push_back({{"name", w.name},
                           {"at_mm", point(w.at)},
                           {"way", point(w.way)},
                           {"hand_mm", w.hand},
                           {"width_mm", w.width},
                           {"reached", w.reached},
                           {"from_seat", w.fromSeat},
                           {"through", w.through},
                           {"binds", w.binds},
                           {"words", w.words}});
    return service;
}

Json fitJson(const Evaluation& e) {
    const FitResult& fit = *e.fit;
    Json pairs = Json::array(), swept = Json::array(), outside = Json::array();
    for (const FitResult::Outside& o : fit.outside)
        outside.push_back({{"group", o.group}, {"gap_mm", o.gap}});
    for (const FitPair& p :
         everyPair(fit, e.donor->solids, withRounds(*e.plates, shownRounds(*e.mechanisms, e.body->rounds))))
        pairs.push_back({{"solid", p.solid},
                         {"plate", p.plate},
                         {"state", stateName(p.state)},
                         {"clearance_mm", p.clearance},
                         {"wanted_mm", p.wanted},
                         {"volume_mm3", p.volume},
                         {"points_mm", Json::array({point(p.onSolid), point(p.onPlate)})},
                         {"confirmed", p.confirmed}});
    for (const FitPair& p : fit.swept)
        swept.push_back({{"solid", p.solid},
                         {"part", p.plate},
                         {"state", stateName(p.state)},
                         {"clearance_mm", p.clearance},
                         {"depth_mm", p.depth},
                         {"wanted_mm", p.wanted}});
    return {{"state", stateName(fit.state)},      {"least_clearance_mm", fit.leastClearance},
            {"least_margin_mm", fit.leastMargin}, {"confirmed", fit.confirmed},
            {"outside", std::move(outside)},      {"pairs", std::move(pairs)},
            {"swept", std::move(swept)},          {"poses", posesJson(fit)},
            {"service", serviceJson(fit)}};
}

Json afloatJson(const FloatFit& fit, const FloatRange& range) {
    Json pairs = Json::array();
    for (const FloatPair& p : fit.pairs)
        pairs.push_back({{"solid", p.pair.solid},
                         {"plate", p.pair.plate},
                         {"state", stateName(p.pair.state)},
                         {"clearance_mm", p.pair.clearance},
                         {"depth_mm", p.pair.depth},
                         {"wanted_mm", p.pair.wanted},
                         {"pose", p.words},
                         {"points_mm", Json::array({point(p.pair.onSolid), point(p.pair.onPlate)})}});
    return {{"state", stateName(fit.state)},
            {"rise_mm", Json::array({figure(range.lowest), figure(range.highest)})},
            {"nose_up_deg", Json::array({degrees(range.noseDown), degrees(range.noseUp)})},
            {"poses", range.poses.size()},
            {"least_clearance_mm", fit.leastClearance},
            {"least_margin_mm", fit.leastMargin},
            {"pairs", std::move(pairs)}};
}

Json sheetsJson(const NestProblem& problem, const NestResult& result) {
    Json list = Json::array();
    for (const NestLayout& layout : result.layouts) {
        const NestSheet& sheet = problem.sheets[static_cast<std::size_t>(layout.sheet)];
        Json panels = Json::array();
        for (const NestPlace& place : layout.places)
            panels.push_back({{"panel", problem.parts[static_cast<std::size_t>(place.part)].id},
                              {"copy", place.copy},
                              {"x_mm", figure(place.x)},
                              {"y_mm", figure(place.y)},
                              {"rotation_deg", degrees(place.rotation)},
                              {"flipped", place.flipped}});
        list.push_back({{"stock", sheet.stock},
                        {"size_mm", Json::array({sheet.length, sheet.width})},
                        {"on_hand", layout.onHand},
                        {"used_percent", layout.used * 100},
                        {"panels", std::move(panels)}});
    }
    return list;
}

Json totalsJson(const Totals& t, const std::string& currency) {
    Json lines = Json::array();
    for (const StockLine& line : t.stock)
        lines.push_back({{"stock", line.stock},
                         {"sheets", line.used},
                         {"on_hand", line.onHand},
                         {"buy", line.buy},
                         {"price", line.price},
                         {"cost", line.cost},
                         {"area_mm2", line.area},
                         {"mass_kg", line.mass}});
    return {{"plates", t.plates},
            {"panels", t.panels},
            {"sheets", t.sheets},
            {"buy", t.buy},
            {"cost", t.cost},
            {"currency", currency},
            {"mass_kg", t.mass},
            {"unweighed", t.unweighed},
            {"cut_length_mm", t.cutLength},
            {"joint_length_mm", t.jointLength},
            {"used_percent", t.usedPercent},
            {"stock", std::move(lines)},
            {"timber", timberReport(t)}};
}

Json findingsJson(const std::vector<Finding>& findings) {
    Json list = Json::array();
    for (const Finding& f : findings) {
        Json one = {{"severity", severityName(f.severity)},
                    {"code", f.code},
                    {"message", f.message},
                    {"about", f.about},
                    {"remedy", f.remedy}};
        if (f.at) one["at_mm"] = point(Vec3((*f.at)[0], (*f.at)[1], (*f.at)[2]));
        list.push_back(std::move(one));
    }
    return list;
}

} // namespace

std::string reportJson(const Project& project, const Evaluation& e) {
    Json report = {{"slabside_report", 1}, {"title", project.title}, {"scale", e.scale}};
    if (e.body) {
        const Box3 built = builtBounds(e);
        report["built"] = {{"bounds_mm", Json::array({point(built.min), point(built.max)})},
                           {"size_mm", point(built.size())}};
        report["skin"] = skinJson(*e.body);
    }
    Json plates = Json::array(), panels = Json::array(), unplaced = Json::array();
    if (e.plates) {
        const auto frames = panelPlacements(*e.plates, e.panels ? *e.panels : std::vector<Panel>{});
        for (const Plate& p : e.plates->plates) {
            const auto frame = frames.find(p.name);
            plates.push_back(plateJson(p, frame == frames.end() ? p.frame : frame->second));
        }
    }
    if (e.panels)
        for (const Panel& p : *e.panels) panels.push_back(panelJson(p));
    report["plates"] = std::move(plates);
    report["panels"] = std::move(panels);
    report["curves"] = curvesReport(e);
    report["likeness"] = likenessReport(project, e);
    report["made_flat"] = madeFlatReport(project, e);
    report["frames"] = framesReport(e);
    report["cleats"] = cleatsReport(e);
    report["seams"] = seamsReport(e);
    report["modules"] = modulesReport(e);
    report["gaps"] = e.plates ? misfits(e.plates->gaps) : Json::array();
    report["plate_overlaps"] = e.plates ? misfits(e.plates->overlaps) : Json::array();
    if (e.fit) report["fit"] = fitJson(e);
    if (e.afloat) report["afloat"] = afloatJson(*e.afloat, e.mechanisms->floating);
    if (e.mechanisms) report["mechanisms"] = mechanismsJson(*e.mechanisms);
    report["measures"] = measuresReport(project, e);
    report["ride"] = trialReport(e);
    report["sheets"] = e.sheets ? sheetsJson(*e.nestProblem, *e.sheets) : Json::array();
    if (e.sheets)
        for (const auto& [part, copy] : e.sheets->unplaced)
            unplaced.push_back(
                {{"panel", e.nestProblem->parts[static_cast<std::size_t>(part)].id}, {"copy", copy}});
    report["unplaced"] = std::move(unplaced);
    report["pictures"] = e.pictures ? picturesJson(*e.pictures) : Json::array();
    report["measured_sizes"] = e.pictures ? measuredSizesJson(*e.pictures) : Json::array();
    report["totals"] = totalsJson(e.totals, e.stock ? e.stock->currency : std::string());
    report["findings"] = findingsJson(e.findings);
    return report.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

} // namespace slab
