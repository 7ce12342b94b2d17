#include "core/donor/sizes.h"
#include "core/donor/generic.h"
#include "core/donor/measures.h"
#include "core/donor/own_chassis.h"
#include <algorithm>

namespace slab {

namespace {

/// More than any donor has: mm, kg or km/h.
double mostOf(const DonorSize& size) {
    if (size.kind == Kind::length) return 1e4;
    return size.name == "top_speed" ? 100 : 5000;
}

void change(const NamedText& c, const std::vector<DonorSize>& known, const std::string& kind,
            SizeValues& sizes, Reading& reading) {
    const std::string place = "/donor/changes/" + c.name;
    const auto it =
        std::find_if(known.begin(), known.end(), [&](const DonorSize& s) { return s.name == c.name; });
    if (it == known.end()) {
        reading.report(Severity::look, "donor-unknown-size",
                       "The donor " + kind + " has no size called \"" + c.name + "\".", {"document:" + place},
                       "Take it out, or use one of the names in the donor table.");
        return;
    }
    double& size = sizes[c.name];
    const double value = reading.read(c.value, it->kind, place, "Donor size " + c.name, size);
    if (it->kind == Kind::angle) {
        size = soundLock(value, size, "Donor size " + c.name, {"document:" + place}, reading);
        return;
    }
    const bool none = c.name == "climb" && value == 0; // its maker says nothing
    const bool under = !isPosition(c.name) && !(value > 0) && value != size && !none;
    if (under || std::abs(value) > mostOf(*it)) {
        reading.report(
            Severity::stop, "donor-size",
            "Donor size " + c.name + (under ? " is not above zero." : " is far more than any has."),
            {"document:" + place}, "Measure it and type it in; the generic size is used meanwhile.");
        return;
    }
    size = value;
}

} // namespace

SizeValues readSizes(const Donor& donor, const std::string& kind, Reading& reading) {
    const std::vector<DonorSize> known = donorSizes(kind);
    SizeValues sizes;
    for (const DonorSize& s : known) sizes[s.name] = s.value;
    applyMeasures(donor, kind, reading, sizes);
    for (const NamedText& c : donor.changes) change(c, known, donor.kind, sizes, reading);
    return sizes;
}

} // namespace slab
