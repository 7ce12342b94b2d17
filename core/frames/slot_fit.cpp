#include "core/frames/slot_fit.h"
#include <algorithm>

namespace slab::frames {

namespace {

constexpr double readTo = 0.0127; ///< mm: half of what a told fit is rounded to, 0.001 in

bool cuts(double fit, double thickness) {
    return fit >= -thickness / 2 && fit <= thickness;
}

Finding told(const FrameChoice& c, Severity severity, const char* code, const FrameChoice& other,
             const UnitStyle& units) {
    const FitRange usual = usualFit(other.thickness, c.soft || other.soft);
    Finding f{severity, code, {}, {}, {}, {}};
    f.about = {"frame:" + c.name, "document:/frames/" + std::to_string(c.index) + "/fit"};
    f.remedy = "Type a fit between " + printThickness(usual.tightest, units) + " (driven in) and " +
               printThickness(usual.loosest, units) + " (loose).";
    return f;
}

std::string rule(const FrameChoice& other, const UnitStyle& units) {
    return "a slot is as wide as the board that goes in, " + printThickness(other.thickness, units) +
           ", and the fit more";
}

/// The board of another frame with which a fit is worst, for a test that is true of those it is bad with.
template <class Bad>
const FrameChoice* worst(const std::vector<FrameChoice>& others, bool tight, const Bad& bad) {
    const FrameChoice* found = nullptr;
    for (const FrameChoice& o : others)
        if (bad(o) && (!found || (tight ? o.thickness > found->thickness : o.thickness < found->thickness)))
            found = &o;
    return found;
}

} // namespace

FitRange usualFit(double thickness, bool soft) {
    return {-thickness * (soft ? 0.1 : 0.05), std::max(1.0, thickness / 8)};
}

std::vector<FrameChoice> withSoundFits(const std::vector<FrameChoice>& choices,
                                       const std::vector<Board>& boards, const UnitStyle& units,
                                       std::vector<Finding>& findings) {
    std::vector<FrameChoice> sound = choices;
    for (std::size_t i = 0; i < choices.size(); ++i) {
        const FrameChoice& c = choices[i];
        if (std::all_of(choices.begin(), choices.end(),
                        [&](const FrameChoice& o) { return cuts(c.fit, o.thickness); }))
            continue;
        std::vector<FrameChoice> met;
        for (std::size_t k = 0; k < choices.size(); ++k)
            if (k != i && lap(boards[i], boards[k])) met.push_back(choices[k]);
        const FrameChoice* other =
            worst(met, c.fit < 0, [&](const FrameChoice& o) { return !cuts(c.fit, o.thickness); });
        if (!other) continue;
        sound[i].fit = 0;
        Finding f = told(c, Severity::stop, "frame-fit", *other, units);
        const double width = other->thickness + c.fit;
        f.message = "Frame " + c.name + ": a fit of " + printThickness(c.fit, units);
        if (width <= 0)
            f.message += " leaves no slot for " + other->name;
        else
            f.message += " makes the slot for " + other->name + " " + printThickness(width, units) + " wide";
        f.message += ", since " + rule(*other, units) +
                     ". Its slots are cut as wide as the boards instead, as if the fit were 0.";
        findings.push_back(std::move(f));
    }
    return sound;
}

void checkFits(const std::vector<FrameChoice>& choices, const UnitStyle& units, FrameSet& set) {
    for (const FrameChoice& c : choices) {
        if (c.fit == 0) continue;
        std::vector<FrameChoice> met;
        for (const FrameCrossing& x : set.crossings)
            for (const FrameChoice& o : choices)
                if ((x.a == c.name && x.b == o.name) || (x.b == c.name && x.a == o.name)) met.push_back(o);
        const bool tight = c.fit < 0;
        // The thinnest is the one that gives way least.
        const FrameChoice* other = worst(met, !tight, [&](const FrameChoice& o) {
            const FitRange usual = usualFit(o.thickness, c.soft || o.soft);
            return c.fit < usual.tightest - readTo || c.fit > usual.loosest + readTo;
        });
        if (!other) continue;
        Finding f = told(c, Severity::look, tight ? "frame-fit-tight" : "frame-fit-loose", *other, units);
        const bool soft = c.soft || other->soft;
        f.message = "Frame " + c.name + ": its fit of " + printThickness(c.fit, units) +
                    " makes the slot for " + other->name + " " +
                    printThickness(other->thickness + c.fit, units) + " wide, and " + other->name + " is " +
                    printThickness(other->thickness, units) + " thick: ";
        f.message += !tight ? "it wobbles, and glue does not bridge that."
                     : soft ? "it hardly goes in, and the board breaks beside the slot."
                            : "it hardly goes in, and driven in it splits the board beside the slot.";
        set.findings.push_back(std::move(f));
    }
}

} // namespace slab::frames
