#include "core/ride/people.h"
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace slab::ride {

namespace {

constexpr double inchOf = 25.4;

Unexpected bodyFigures() {
    return fail("out-of-range", "A size must be 0 or more.", {}, "Give sizes in range.");
}

// CPSC public playground handbook B.2.5.1 (head); its child care quotation 6.2.1.9 (fingers, standing);
// CEN/TR 13387:2004 (fingers, standing); EN 71-1:2005+A8 A.14 and ANEC's remark on it (moving: 12 mm does not
// protect a fingertip, under 5 mm does).
const std::vector<GapRule> rules{
    {"head", "holds a child's head", Caught::head, 3.5 * inchOf, 9 * inchOf, false,
     "CPSC playground handbook B.2.5.1"},
    {"finger-standing", "holds a finger", Caught::finger, 3 / 8.0 * inchOf, inchOf, false, "CFOC 6.2.1.9"},
    {"finger-child", "holds a child's finger", Caught::finger, 5, 12, false, "CEN/TR 13387:2004"},
    {"finger-moving", "pinches a finger as it closes", Caught::finger, 5, 12, true, "EN 71-1:2005+A8 A.14"},
};

// Snyder et al. 1977, both sexes: middle of the age group in years, seated centre of mass as a share of
// sitting height, and forward of the back plane, mm.
struct CentreRow {
    double age, share, forward;
};
constexpr std::array<CentreRow, 7> centres{{{5, 0.325, 145},
                                            {7, 0.306, 159},
                                            {9, 0.288, 180},
                                            {11.5, 0.269, 208},
                                            {14.5, 0.264, 230},
                                            {18, 0.271, 240},
                                            {20, 0.26, 240}}};

} // namespace

const std::vector<GapRule>& gapRules() {
    return rules;
}

Expected<std::vector<GapRule>> gapHazards(double gap, bool moving) {
    if (!(gap >= 0) || !std::isfinite(gap)) return bodyFigures();
    std::vector<GapRule> out;
    for (const GapRule& rule : rules)
        if ((moving || !rule.moving) && gap > rule.from && gap < rule.to) out.push_back(rule);
    return out;
}

double leastVAngle() {
    return 55 * std::numbers::pi / 180;
}

Expected<double> exitWidth(double shoulders, double hips, double allowance) {
    if (!(shoulders > 0) || !(hips > 0) || !(allowance >= 0) || !std::isfinite(shoulders + hips + allowance))
        return bodyFigures();
    return std::max(shoulders, hips) + 2 * allowance;
}

Expected<EscapeCheck> escapeOpening(double width, double height) {
    if (!(width >= 0) || !(height >= 0) || !std::isfinite(width * height)) return bodyFigures();
    constexpr double foot = 12 * inchOf;
    return EscapeCheck{width - 20 * inchOf, height - 24 * inchOf, width * height - 5.7 * foot * foot};
}

Expected<double> seatedHeight(double seat, double above, double worn) {
    if (!(seat >= 0) || !(above > 0) || !(worn >= 0) || !std::isfinite(seat + above + worn))
        return bodyFigures();
    return seat + above + worn;
}

Expected<SeatedCentre> seatedCentre(double sittingHeight, double age) {
    if (!(sittingHeight > 0) || !(age >= 4) || !std::isfinite(sittingHeight) || !std::isfinite(age))
        return bodyFigures();
    std::size_t next = 0;
    while (next < centres.size() && centres[next].age < age) ++next;
    if (next == 0) return SeatedCentre{centres.front().share * sittingHeight, centres.front().forward};
    if (next == centres.size())
        return SeatedCentre{centres.back().share * sittingHeight, centres.back().forward};
    const CentreRow &a = centres[next - 1], &b = centres[next];
    const double t = (age - a.age) / (b.age - a.age);
    return SeatedCentre{(a.share + t * (b.share - a.share)) * sittingHeight,
                        a.forward + t * (b.forward - a.forward)};
}

} // namespace slab::ride
