#include "core/evaluate/report_pictures.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

using Json = nlohmann::ordered_json;

double told(double value) {
    return std::abs(value) < 1e-9 ? 0.0 : value;
}
double toldDegrees(double radians) {
    return told(radians * 180 / std::numbers::pi);
}
Json toldPoint(const Vec2& p) {
    return Json::array({told(p.x()), told(p.y())});
}
Json toldRing(const Ring& points) {
    Json list = Json::array();
    for (const Vec2& p : points) list.push_back(toldPoint(p));
    return list;
}

Json pictureJson(const PlacedPicture& p) {
    static constexpr const char* states[] = {"unseen", "present", "missing", "unreadable", "changed"};
    static constexpr const char* scales[] = {"none", "distance", "rectangle"};
    Json map = Json::array(), points = Json::array(), lines = Json::array();
    for (int row = 0; row < 3; ++row)
        map.push_back(Json::array({p.fix.map(row, 0), p.fix.map(row, 1), p.fix.map(row, 2)}));
    for (const PlacedPoint& f : p.features)
        points.push_back({{"name", f.name},
                          {"pixel", toldPoint(f.pixel)},
                          {"at_mm", toldPoint(f.at)},
                          {"error_mm", Json::array({told(f.error.major), told(f.error.minor)})},
                          {"error_turn_deg", toldDegrees(f.error.turn)}});
    for (const PlacedLine& l : p.lines)
        lines.push_back({{"name", l.name},
                         {"from_mm", toldPoint(l.from)},
                         {"to_mm", toldPoint(l.to)},
                         {"length_mm", l.length.value},
                         {"error_mm", l.length.error},
                         {"size", l.size.empty() ? Json(nullptr) : Json(l.size)}});
    Json check(nullptr);
    if (p.check)
        check = {{"stated_mm", p.check->stated},
                 {"found_mm", p.check->found.value},
                 {"error_mm", p.check->found.error},
                 {"taken", p.check->taken},
                 {"error_after_mm", p.check->after}};
    return {{"name", p.name},
            {"file", p.file},
            {"state", states[static_cast<int>(p.state)]},
            {"view", p.view},
            {"size_px", Json::array({p.width, p.height})},
            {"scale_from", scales[static_cast<int>(p.scale)]},
            {"map", std::move(map)},
            {"outline_mm", toldRing(p.outline)},
            {"click_error_px", p.fix.click},
            {"residual_px", told(p.residual)},
            {"check", std::move(check)},
            {"points", std::move(points)},
            {"lines", std::move(lines)}};
}

} // namespace

Json picturesJson(const PictureSet& set) {
    Json list = Json::array();
    for (const PlacedPicture& p : set.pictures) list.push_back(pictureJson(p));
    return list;
}

Json measuredSizesJson(const PictureSet& set) {
    Json list = Json::array();
    for (const MeasuredSize& s : set.sizes)
        list.push_back({{"size", s.size},
                        {"value_mm", s.value.value},
                        {"error_mm", s.value.error},
                        {"lines", s.lines},
                        {"worst_errors", told(s.worst)}});
    return list;
}

std::string measuredSizesText(const PictureSet& set, const UnitStyle& units) {
    std::string out;
    for (const MeasuredSize& s : set.sizes) {
        out += "  " + s.label + ": " + printFine(s.value.value, units) + " ± " +
               printFine(s.value.error, units) + " (";
        for (std::size_t i = 0; i < s.lines.size(); ++i) out += (i > 0 ? ", " : "") + s.lines[i];
        out += ")\n";
    }
    return out;
}

} // namespace slab
