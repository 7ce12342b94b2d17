// What is told of points of the donor that no hand reaches.
#include "core/fit/service.h"
#include "core/mechanisms/rounds.h"
#include <algorithm>
#include <cmath>

namespace slab {

/// "from port and above"
std::string fromWords(const Vec3& way) {
    constexpr double counts = 0.38; // sine of 22.5°
    std::string words;
    const auto add = [&](double part, const char* plus, const char* minus) {
        if (std::abs(part) < counts) return;
        words += (words.empty() ? "from " : " and ") + std::string(part > 0 ? plus : minus);
    };
    add(way.x(), "ahead", "behind");
    add(way.y(), "port", "starboard");
    add(way.z(), "above", "below");
    return words.empty() ? "from beside" : words;
}

namespace {

/// Length along the slant of a hole, its walls square to the plate, that a round way as wide as the hand goes
/// through, mm: d / cos α + t tan α.
double slantedHole(const ServiceWay& way, const Plate& plate) {
    const double cosine = std::abs(way.way.normalized().dot(plate.frame.axes.col(2)));
    if (cosine < 1e-3) return 1e6;
    return way.hand / cosine + plate.thickness * std::sqrt(1 - cosine * cosine) / cosine;
}

/// How wide a hole must be: a round one as wide as the longer figure.
std::string wideWords(const ServiceWay& way, double hole, const UnitStyle& style) {
    constexpr double spared = 0.5; // mm that a hand does not mind, as where ways are judged
    if (hole < way.hand + spared) return "at least " + printLengthUp(way.hand, style) + " wide";
    return "at least " + printLengthUp(way.hand, style) + " across and " + printLengthUp(hole, style) +
           " along, for the way slants,";
}

/// @param plate  that binds; null if it is the donor itself
std::string messageOf(const ServiceWay& way, const Plate* plate, const UnitStyle& style) {
    if (way.width > 0)
        return "Too narrow for a hand: the donor's " + way.name + " is reached " + fromWords(way.way) +
               (way.through.empty() ? "" : " through opening " + way.through) + ", but " + way.binds +
               " leaves " + printLength(way.width, style) + "; wanted " + printLength(way.hand, style) + ".";
    if (plate) return "No hand gets to the donor's " + way.name + ": " + way.binds + " is in the way.";
    return "No hand gets to the donor's " + way.name + ": the donor itself leaves no way there" +
           (way.binds.empty() ? "." : ", nearest is " + way.binds + ".");
}

std::string remedyOf(const ServiceWay& way, const Plate* plate, const UnitStyle& style) {
    if (!plate) return "Check where the point is and the side that the hand comes from.";
    const double hole = slantedHole(way, *plate);
    constexpr double tooLong = 4; // hands
    if (hole > tooLong * way.hand)
        return "Let " + way.binds +
               " come off there, or turn the donor: the only way grazes it, and a hole would be " +
               (hole < 5000 ? printLengthUp(hole, style) + " long." : "endless.");
    if (way.width > 0 && !way.through.empty())
        return "Make opening " + way.through + " " + wideWords(way, hole, style) + " all along the way.";
    return "Cut a hand hole " + wideWords(way, hole, style) + " in " + way.binds + " " + fromWords(way.way) +
           " of it, with a lid where it must close, or let " + way.binds + " come off.";
}

/// Where the way meets the plate's outside plane; the point itself where it runs along it.
Vec3 placeOn(const ServiceWay& way, const Plate& plate) {
    const Vec3 normal = plate.frame.axes.col(2);
    const double along = normal.dot(way.way);
    if (std::abs(along) <= 1e-6) return way.at;
    return way.at + normal.dot(plate.frame.origin - way.at) / along * way.way;
}

} // namespace

std::vector<Finding> serviceFindings(const std::vector<ServiceWay>& ways, const PlateSet& plates,
                                     const UnitStyle& style) {
    std::vector<Finding> findings;
    for (const ServiceWay& way : ways) {
        if (way.reached) continue;
        const auto found = std::find_if(plates.plates.begin(), plates.plates.end(),
                                        [&](const Plate& p) { return p.name == way.binds; });
        const Plate* plate = found == plates.plates.end() ? nullptr : &*found;
        const bool narrow = way.width > 0;
        Finding f;
        f.severity = Severity::look;
        f.code = narrow ? "service-narrow" : "service-blocked";
        f.message = messageOf(way, plate, style);
        f.remedy = remedyOf(way, plate, style);
        const Vec3 at = plate && !narrow ? placeOn(way, *plate) : way.at;
        f.at = std::array<double, 3>{at.x(), at.y(), at.z()};
        if (plate) f.about.push_back(subjectOf(*plate));
        if (narrow && !way.through.empty()) f.about.push_back("opening:" + way.through);
        f.about.push_back(plate || way.binds.empty() ? "document:/donor" : "solid:" + way.binds);
        findings.push_back(std::move(f));
    }
    return findings;
}

} // namespace slab
