#include "core/donor/rider.h"
#include "core/donor/rider_table.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <string_view>

namespace slab {

namespace {

template <std::size_t N>
double interpolated(const std::array<double, N>& at, const std::array<double, N>& values, double x) {
    x = std::clamp(x, at.front(), at.back());
    std::size_t i = 1;
    while (i + 1 < N && x > at[i]) ++i;
    return values[i - 1] + (values[i] - values[i - 1]) * (x - at[i - 1]) / (at[i] - at[i - 1]);
}

double inverse(const std::function<double(double)>& rising, double low, double high, double value) {
    if (value <= rising(low)) return low;
    if (value >= rising(high)) return high;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (rising(middle) < value ? low : high) = middle;
    }
    return (low + high) / 2;
}
/// Share of a normal distribution below z.
double below(double z) {
    return std::erfc(-z / std::numbers::sqrt2) / 2;
}

double adult(std::string_view dimension, const std::string& sex, double percentile) {
    for (const AdultRow& row : adultRows()) {
        if (dimension != row.dimension) continue;
        const double female = interpolated(adultPercentiles, row.female, percentile);
        const double male = interpolated(adultPercentiles, row.male, percentile);
        return sex == "female" ? female : sex == "male" ? male : (female + male) / 2;
    }
    return 0;
}

/// The group for an age: of the asked sex where the table has one, else of both.
double child(std::string_view dimension, const std::string& sex, double percentile, double age) {
    const double inTable = std::clamp(age, 3.0, 13.999);
    const ChildRow* best = nullptr;
    for (const ChildRow& row : childRows()) {
        if (dimension != row.dimension || inTable < row.from || inTable >= row.before) continue;
        if (row.sex == sex || (row.sex == std::string_view("both") && !best)) best = &row;
    }
    return best ? interpolated(childPercentiles, best->values, percentile) : 0;
}

/// Those that keep in proportion to stature.
bool isLength(std::string_view dimension) {
    static constexpr std::array lengths = {
        "stature",           "sitting height",        "eye height",         "acromial height",
        "elbow rest height", "knee height",           "popliteal height",   "buttock-knee length",
        "foot length",       "shoulder-elbow length", "forearm-hand length"};
    return std::any_of(lengths.begin(), lengths.end(), [&](const char* l) { return dimension == l; });
}

} // namespace

std::vector<std::string> BodyTable::dimensions() const {
    std::vector<std::string> names;
    const auto add = [&](const char* name) {
        if (std::find(names.begin(), names.end(), name) == names.end()) names.emplace_back(name);
    };
    if (child)
        for (const ChildRow& row : childRows()) add(row.dimension);
    else
        for (const AdultRow& row : adultRows()) add(row.dimension);
    return names;
}

double BodyTable::at(std::string_view dimension, double percentile) const {
    return child ? slab::child(dimension, sex, percentile, age) : adult(dimension, sex, percentile);
}

double BodyTable::percentileOf(std::string_view dimension, double size) const {
    return inverse([&](double p) { return at(dimension, p); }, lowest(), highest(), size);
}

double sizeByStature(const BodyTable& table, std::string_view dimension, double stature) {
    constexpr double withBreadths = 0.4, withMass = 0.5;
    const double middle = table.at("stature", 50);
    if (isLength(dimension)) return table.at(dimension, 50) * stature / middle;
    const double held =
        std::clamp(stature, table.at("stature", table.lowest()), table.at("stature", table.highest()));
    const double share = table.percentileOf("stature", held) / 100;
    const double z = inverse(below, -6, 6, share);
    const double size = table.at(dimension, 100 * below((dimension == "mass" ? withMass : withBreadths) * z));
    // Beyond the table as stout as at its end: mass with the square of stature, as the body mass index keeps
    // it, and breadths and depths with its root.
    const double beyond = stature / held;
    return size * (dimension == "mass" ? beyond * beyond : std::sqrt(beyond));
}

namespace {

using SizeNamed = std::function<double(std::string_view)>;

RiderFigures adultFrom(const SizeNamed& get) {
    RiderFigures f;
    f.stature = get("stature");
    f.mass = get("mass");
    f.sittingHeight = get("sitting height");
    f.eyeHeight = get("eye height");
    // Acromion above the seat = standing height of it less what stature exceeds sitting height by.
    f.shoulderHeight = get("acromial height") - (f.stature - f.sittingHeight);
    f.elbowRest = get("elbow rest height");
    f.thighClearance = get("thigh clearance");
    f.kneeHeight = get("knee height");
    f.poplitealHeight = get("popliteal height");
    f.buttockKnee = get("buttock-knee length");
    f.hipBreadth = get("hip breadth");
    f.shoulderBreadth = get("shoulder breadth");
    f.biacromial = get("biacromial breadth");
    f.elbowSpan = get("elbow span");
    f.abdomenDepth = get("abdomen depth");
    f.chestDepth = get("chest depth");
    f.footLength = get("foot length");
    f.footBreadth = get("foot breadth");
    f.headBreadth = get("head breadth");
    f.headLength = get("head length");
    f.tragionToTop = get("tragion to top");
    f.shoulderElbow = get("shoulder-elbow length");
    f.forearmHand = get("forearm-hand length");
    f.handBreadth = get("hand breadth");
    return f;
}

RiderFigures childFrom(const SizeNamed& get) {
    RiderFigures f;
    f.stature = get("stature");
    f.mass = get("mass");
    f.sittingHeight = get("sitting height");
    f.eyeHeight = get("eye height");
    f.thighClearance = get("thigh clearance");
    f.kneeHeight = get("knee height");
    f.buttockKnee = get("buttock-knee length");
    f.hipBreadth = get("hip breadth");
    f.shoulderBreadth = get("shoulder breadth");
    f.footLength = get("foot length");
    f.headBreadth = get("head breadth");
    f.headLength = get("head length");
    f.shoulderElbow = get("shoulder-elbow length");
    f.forearmHand = get("forearm-hand length");
    // The child table lacks the rest. Shoulder height is 0.62 of sitting height (from memory); the others
    // keep the proportion of the adults' 50th percentile (mean of both sexes, ANSUR II).
    const RiderFigures a = adultFigures("both", 50);
    f.shoulderHeight = 0.62 * f.sittingHeight;
    f.elbowRest = f.shoulderHeight - f.shoulderElbow;
    f.poplitealHeight = f.kneeHeight * a.poplitealHeight / a.kneeHeight;
    f.biacromial = f.shoulderBreadth * a.biacromial / a.shoulderBreadth;
    f.elbowSpan = f.shoulderBreadth * a.elbowSpan / a.shoulderBreadth;
    f.chestDepth = f.shoulderBreadth * a.chestDepth / a.shoulderBreadth;
    f.abdomenDepth = f.shoulderBreadth * a.abdomenDepth / a.shoulderBreadth;
    f.footBreadth = f.footLength * a.footBreadth / a.footLength;
    f.tragionToTop = f.headLength * a.tragionToTop / a.headLength;
    f.handBreadth = f.forearmHand * a.handBreadth / a.forearmHand;
    return f;
}

} // namespace

RiderFigures figuresOf(const BodyTable& table, const SizeNamed& size) {
    return table.child ? childFrom(size) : adultFrom(size);
}

RiderFigures adultFigures(const std::string& sex, double percentile) {
    return adultFrom([&](std::string_view name) { return adult(name, sex, percentile); });
}

RiderFigures childFigures(const std::string& sex, double percentile, double age) {
    return childFrom([&](std::string_view name) { return child(name, sex, percentile, age); });
}

} // namespace slab
