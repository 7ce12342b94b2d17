// What the trial tells in the punch list: sight and getting out.
#include "core/trial/stuff.h"
#include "core/trial/words.h"
#include <cmath>
#include <numbers>

namespace slab::trial {

namespace {

constexpr double heavyLid = 5;   ///< kg that a seated person pushes off (from memory)
constexpr double leastAir = 1e4; ///< mm² below and above: a hand's breadth square each (common practice)
constexpr double leastBare = 20 * 25.4 * 24 * 25.4; ///< mm²: as an escape window, IRC R310, from memory

std::array<double, 3> at3(const Vec3& p) {
    return {p.x(), p.y(), p.z()};
}

/// The opening that looks ahead and comes nearest to doing what is wanted.
const OpeningSeen* aheadOf(const View& view) {
    const OpeningSeen* best = nullptr;
    for (const OpeningSeen& o : view.openings)
        if (o.ahead && (!best || std::abs(o.raise) < std::abs(best->raise))) best = &o;
    return best;
}

void tellAhead(const Stuff& stuff, const View& view, std::vector<Finding>& findings) {
    if (view.field.port > 0 || view.field.starboard > 0) return;
    const OpeningSeen* slit = aheadOf(view);
    const std::string eyes = printLength(view.eye.z(), stuff.units) + " above the ground";
    Finding f{Severity::look, "sight-ahead", "", {}, "", {}};
    // Ground ahead may be seen all the same, under the level that the eyes look along.
    const std::string nothing =
        std::isfinite(view.beyondNose)
            ? "Straight ahead the rider sees the ground, but nothing level with the eyes"
            : "The rider sees nothing straight ahead";
    if (slit && slit->raise != 0) {
        const std::string by = printLengthUp(std::abs(slit->raise), stuff.units);
        f.message = nothing + ": opening " + slit->opening + " lies " + by +
                    (slit->raise > 0 ? " below" : " above") + " the rider's eyes, which are " + eyes + ".";
        f.about = {"opening:" + slit->opening, "plate:" + slit->plate};
        f.remedy = std::string(slit->raise > 0 ? "Raise" : "Lower") + " it by " + by +
                   " or more, make it taller, or seat the rider " + (slit->raise > 0 ? "lower." : "higher.");
        f.at = at3(slit->at);
    } else {
        f.message = nothing + "; the eyes are " + eyes + ".";
        f.about = {"solid:rider/head"};
        f.remedy = "Cut a sight slit at that height in what stands before them.";
        f.at = at3(view.eye);
    }
    findings.push_back(std::move(f));
}

void tellGround(const Stuff& stuff, const View& view, std::vector<Finding>& findings) {
    if (!(view.wanted > 0) || view.beyondNose <= view.wanted + 1e-6) return;
    const OpeningSeen* slit = nullptr;
    for (const OpeningSeen& o : view.openings)
        if (o.ahead && o.lower > 0 && (!slit || o.lower < slit->lower)) slit = &o;
    Finding f{Severity::look, "sight-ground", "", {"solid:rider/head"}, "", {}};
    f.message =
        (std::isfinite(view.beyondNose)
             ? "Ahead, the rider sees the ground only from " + printLength(view.beyondNose, stuff.units) +
                   " before the body on"
             : std::string("Ahead, the rider sees no ground at all")) +
        "; it is wanted from " + printLength(view.wanted, stuff.units) +
        (stuff.ride.sees ? "." : ", the way to stop from " + speedWords(stuff.ride.speed, stuff.units) + ".");
    std::string slower;
    if (const auto speed =
            sight::speedToStopWithin(std::isfinite(view.beyondNose) ? std::max(view.beyondNose, 0.0) : 0,
                                     stuff.ride.reaction, stuff.ride.braking);
        speed && *speed > 0 && !std::isfinite(view.beyondNose))
        slower = ", or ride at " + speedWords(*speed, stuff.units) + " at most";
    if (const OpeningSeen* first = aheadOf(view);
        first && first->raise != 0 && !(view.field.port > 0 || view.field.starboard > 0)) {
        f.about = {"opening:" + first->opening, "plate:" + first->plate};
        f.remedy = "Bring opening " + first->opening + " to the rider's eyes first; then see again.";
        f.at = at3(first->at);
    } else if (slit) {
        f.about = {"opening:" + slit->opening, "plate:" + slit->plate};
        f.remedy = "Bring the lower edge of opening " + slit->opening + " down by " +
                   printLengthUp(slit->lower, stuff.units) + slower + "; else somebody walks ahead.";
        f.at = at3(slit->at);
    } else {
        f.remedy = "Cut an opening lower ahead of the rider, or have somebody walk ahead.";
        f.at = at3(view.eye);
    }
    findings.push_back(std::move(f));
}

void tellField(const View& view, std::vector<Finding>& findings) {
    if (!(view.field.port > 0 || view.field.starboard > 0)) return; // told already
    const double least = std::min(view.field.port, view.field.starboard);
    if (least >= view.wantedField - 1e-9) return;
    // So many digits that what is short can be seen to be.
    const int digits = printAngle(least) == printAngle(view.wantedField) ? 3 : 1;
    Finding f{Severity::look,
              "sight-field",
              "The rider sees " + printAngle(view.field.port, digits) + " to port and " +
                  printAngle(view.field.starboard, digits) +
                  " to starboard of straight ahead without a break; " + printAngle(view.wantedField) +
                  " are wanted.",
              {"document:/ride/field", "solid:rider/head"},
              "Widen the sight slit, or cut one in the sides beside it.",
              at3(view.eye)};
    findings.push_back(std::move(f));
}

void tellExit(const Stuff& stuff, const WayOut& way, std::vector<Finding>& findings) {
    const std::string about = "opening:" + way.opening;
    if (way.outcome == Outcome::fails) {
        std::string short1;
        if (way.width < way.wantedWidth - exitSlack)
            short1 = printLengthUp(way.wantedWidth - way.width, stuff.units) + " wider";
        if (way.height < way.wantedHeight - exitSlack)
            short1 += (short1.empty() ? "" : " and ") +
                      printLengthUp(way.wantedHeight - way.height, stuff.units) + " taller";
        findings.push_back(
            {Severity::look,
             "exit-small",
             "Opening " + way.opening + ", the way out, is clear " + printLength(way.width, stuff.units) +
                 " × " + printLength(way.height, stuff.units) + ", and " + way.who + " needs " +
                 printLength(way.wantedWidth, stuff.units) + " × " +
                 printLength(way.wantedHeight, stuff.units) + " to get out.",
             {about},
             way.wantedAcross > 0
                 ? "Make it " + printLengthUp(way.wantedAcross, stuff.units) + " or more in diameter."
                 : "Make it " + short1 + ".",
             at3(way.at)});
    }
    if (!way.inTheWay.empty()) {
        std::string list;
        for (const std::string& s : way.inTheWay) list += (list.empty() ? "" : ", ") + s;
        findings.push_back({Severity::note,
                            "exit-way",
                            "On the straight way from the seat out through opening " + way.opening +
                                " stands " + list +
                                (stuff.depth == Depth::full ? ", and no way round a bend is free." : "."),
                            {about},
                            "See that it folds or swings away, or put the exit elsewhere; try it out.",
                            at3(way.at)});
    }
    if (way.lidMass > heavyLid)
        findings.push_back({Severity::look,
                            "exit-lid-heavy",
                            "The lid of opening " + way.opening + ", the way out, weighs " +
                                printMass(way.lidMass, stuff.units) + "; from a seat about " +
                                printMass(heavyLid, stuff.units) + " can be pushed off.",
                            {about},
                            "Make it of lighter stock, or leave it open.",
                            at3(way.at)});
}

/// Somebody sits inside, and neither a way out nor an open side or top is there.
void tellShutIn(const Stuff& stuff, const Trial& trial, std::vector<Finding>& findings) {
    if (!trial.waysOut.empty() || stuff.donor.people.empty() || stuff.plates.plates.empty()) return;
    const Person& who = stuff.donor.people.front();
    for (std::size_t i = 0; i < stuff.bare.size(); ++i)
        if (stuff.bare[i] >= leastBare && stuff.bareAt[i].z() > who.seat.z()) return;
    findings.push_back(
        {Severity::look,
         "exit-none",
         "Nothing is there to get out by: no opening is a way out, and no side or top is open.",
         {"document:/openings"},
         "Put a hatch into a plate and set its purpose to exit, or leave a plate out.",
         at3(who.seat)});
}

} // namespace

void tellViews(const Stuff& stuff, const std::vector<View>& views, std::vector<Finding>& findings) {
    for (const View& view : views) {
        tellAhead(stuff, view, findings);
        tellGround(stuff, view, findings);
        tellField(view, findings);
    }
}

void tellLeaving(const Stuff& stuff, const Trial& trial, std::vector<Finding>& findings) {
    for (const WayOut& way : trial.waysOut) tellExit(stuff, way, findings);
    tellShutIn(stuff, trial, findings);
    for (const Gap& gap : trial.gaps)
        if (!gap.moving)
            findings.push_back( // of what moves, mechanisms tell themselves
                {Severity::note,
                 "gap-catches",
                 "A gap of " + printLength(gap.size, stuff.units) + " in " + gap.what + " " + gap.rule + ".",
                 {gap.what.rfind("opening ", 0) == 0 ? "opening:" + gap.what.substr(8) : "document:/ride"},
                 "Make it smaller or larger, or line its edge and keep children's hands away.",
                 at3(gap.at)});
    if (stuff.donor.people.empty() || stuff.plates.plates.empty()) return;
    if (trial.air.low < leastAir || trial.air.high < leastAir)
        findings.push_back(
            {Severity::look,
             "air-little",
             std::string("Too little is open ") + (trial.air.low < leastAir ? "low down" : "high up") +
                 " for air to move: " + printArea(std::min(trial.air.low, trial.air.high), stuff.units) + ".",
             {"document:/openings"},
             "Open at least a hand's breadth square, low and high; warm days want far more.",
             {}});
}

} // namespace slab::trial
