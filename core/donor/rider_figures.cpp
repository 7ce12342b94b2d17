#include "core/donor/rider.h"
#include "core/donor/rider_table.h"
#include <algorithm>
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

} // namespace

RiderFigures adultFigures(const std::string& sex, double percentile) {
    const auto get = [&](const char* name) { return adult(name, sex, percentile); };
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

RiderFigures childFigures(const std::string& sex, double percentile, double age) {
    const auto get = [&](const char* name) { return child(name, sex, percentile, age); };
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

} // namespace slab
