// How it stands, line by line.
#include "core/trial/words.h"
#include "ui/ride/ride_rows.h"
#include <algorithm>
#include <cmath>
#include <numeric>

namespace slab::ui {

using trial::Balance;
using trial::Outcome;

namespace {

/// A ride-on toy must stand on 10°: ASTM F963, as quoted in the reference values.
constexpr double steadySlope = 10 * trial::degree;
/// Ramps are built to 1:12 where there is room (ADA 2010 405.2).
const double mildestRamp = std::atan(1.0 / 12);

RideRow headingRow(const QString& title, const QString& value = {}) {
    RideRow row;
    row.heading = true;
    row.title = title;
    row.value = value;
    return row;
}

QString wheelName(const Balance& b, int wheel) {
    const auto at = static_cast<std::size_t>(wheel);
    return at < b.wheels.size() ? QString::fromStdString(b.wheels[at]) : QStringLiteral("wheel");
}

void addLines(const Balance& b, RideRows& rows) {
    rows.push_back(headingRow("Tips over", "at"));
    std::vector<std::size_t> order(b.lines.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t i, std::size_t k) { return b.lines[i].angle < b.lines[k].angle; });
    for (std::size_t n = 0; n < order.size(); ++n) {
        const ride::TipLine& line = b.lines[order[n]];
        RideRow row;
        row.title = sideWords(line.side);
        row.value = QString::fromStdString(printAngle(line.angle));
        row.outcome = line.angle <= 0            ? Outcome::fails
                      : line.angle < steadySlope ? Outcome::tight
                                                 : Outcome::passes;
        row.word = line.angle <= 0 ? "falls over" : line.angle < steadySlope ? "tips easily" : "steady";
        if (n == 0) row.word += ", first";
        row.details = QStringLiteral("over %1 and %2").arg(wheelName(b, line.from), wheelName(b, line.to));
        row.thing = RideThing::line;
        row.index = static_cast<int>(order[n]);
        row.place = {};
        row.place.part = "/ride/slope";
        rows.push_back(row);
    }
}

void addWheels(const Evaluation& e, const Balance& b, int standing, RideRows& rows) {
    const auto at = static_cast<std::size_t>(standing);
    if (at >= b.standings.size()) return;
    const trial::Standing& s = b.standings[at];
    rows.push_back(headingRow("Wheels", QString::fromStdString(s.words)));
    if (!s.stands) {
        RideRow row;
        row.title = "It tips over there";
        row.outcome = Outcome::fails;
        row.word = "does not stand";
        row.place.part = "/ride/slope";
        rows.push_back(row);
        return;
    }
    const double all = std::accumulate(s.loads.begin(), s.loads.end(), 0.0);
    for (std::size_t i = 0; i < s.loads.size(); ++i) {
        RideRow row;
        row.title = wheelName(b, static_cast<int>(i));
        row.value = loadWords(s.loads[i], e.units);
        if (s.loads[i] < 1) {
            row.outcome = Outcome::tight;
            row.word = "lifts";
        } else if (all > 0) {
            row.word = QStringLiteral("%1 %").arg(s.loads[i] / all * 100, 0, 'f', 0);
        }
        row.thing = RideThing::wheel;
        row.index = static_cast<int>(i);
        row.place = choiceOf(e, i < b.wheels.size() ? b.wheels[i] : std::string());
        rows.push_back(row);
    }
}

void addLoad(const Evaluation& e, const Balance& b, RideRows& rows) {
    rows.push_back(headingRow("Load"));
    RideRow row;
    row.thing = RideThing::load;
    row.title = "On the donor";
    row.place.part = "/donor";
    if (b.rating) {
        row.value = QString::fromStdString(printMass(b.rating->carried, e.units));
        row.outcome = b.rating->carried > b.rated ? Outcome::fails
                      : b.rating->holds()         ? Outcome::passes
                                                  : Outcome::tight;
        row.word = *row.outcome == Outcome::fails   ? "too heavy"
                   : *row.outcome == Outcome::tight ? "little to spare"
                                                    : "bears it";
        row.details = QStringLiteral("rated for %1; up to %2 is used")
                          .arg(QString::fromStdString(printMass(b.rated, e.units)),
                               QString::fromStdString(printMass(b.rating->rated, e.units)));
    } else {
        row.outcome = Outcome::unknown;
        row.word = "not known";
        row.details = "Type the donor's rated load; it stands on the plate with its number.";
    }
    rows.push_back(row);
    for (const trial::LoadPart& part : b.load.parts) {
        RideRow one;
        one.title = QString::fromStdString(part.name);
        one.value = QString::fromStdString(printMass(part.mass, e.units));
        rows.push_back(one);
    }
    RideRow all;
    all.title = "All together";
    all.value = QString::fromStdString(printMass(b.load.all.mass, e.units));
    if (!b.load.unweighed.empty())
        all.details = QStringLiteral("without %1 of unknown mass").arg(b.load.unweighed.size());
    rows.push_back(all);
}

void addTurnAndWind(const Evaluation& e, const Balance& b, RideRows& rows) {
    rows.push_back(headingRow("Turn and wind", "tips at"));
    RideRow turn;
    turn.thing = RideThing::turn;
    turn.title = QStringLiteral("turn of %1").arg(lengthText(b.radius, e.units));
    turn.value = speedText(b.turn.least(), e.units);
    if (b.speed > 0) {
        const bool holds = b.turn.least() >= b.speed;
        turn.outcome = holds ? Outcome::passes : Outcome::fails;
        turn.word = holds ? "stands" : "tips";
        turn.details = QStringLiteral("it goes %1").arg(speedText(b.speed, e.units));
    } else {
        turn.outcome = Outcome::unknown;
        turn.word = "speed not known";
    }
    turn.place.part = "/ride/speed";
    rows.push_back(turn);
    for (std::size_t i = 0; i < b.winds.size(); ++i) {
        const trial::WindCase& w = b.winds[i];
        RideRow row;
        row.thing = RideThing::wind;
        row.index = static_cast<int>(i);
        row.title = QStringLiteral("wind ") + QString::fromStdString(w.words);
        row.value = speedText(w.limits.least(), e.units);
        const bool holds = w.limits.least() >= b.wind;
        row.outcome = holds ? Outcome::passes : Outcome::tight;
        row.word = holds ? "stands" : w.limits.tips < w.limits.slides ? "tips" : "slides";
        row.details = QStringLiteral("tips at %1, slides at %2; asked for %3")
                          .arg(speedText(w.limits.tips, e.units), speedText(w.limits.slides, e.units),
                               speedText(b.wind, e.units));
        row.place.part = "/ride/wind";
        rows.push_back(row);
    }
}

/// Angles of the ground that it gets on to, over and off, and what comes first.
void addAngles(const Evaluation& e, RideRows& rows) {
    if (!e.trial->ramps) return;
    const trial::Ramps& r = *e.trial->ramps;
    rows.push_back(headingRow("Clear of the ground", "up to"));
    const auto add = [&](const char* title, double angle, const std::string& binds) {
        RideRow row;
        row.title = title;
        row.value = QString::fromStdString(printAngle(angle));
        row.details = binds.empty() ? QStringLiteral("nothing comes first")
                                    : QString::fromStdString(binds) + " comes first";
        if (angle < mildestRamp) {
            row.outcome = Outcome::tight;
            row.word = "cannot take the mildest ramp, 1:12";
        }
        row.place = choiceOf(e, binds, "/route");
        rows.push_back(row);
    };
    add("on to a slope", r.angles.approach, r.approach);
    add("over a crest", r.angles.breakover, r.breakover);
    add("off a slope", r.angles.departure, r.departure);
}

/// About axes through its middle: what a turn and a stop have to overcome.
void addInertia(const Balance& b, RideRows& rows) {
    rows.push_back(headingRow("Hard to turn", "kg m²"));
    const Mat3& i = b.load.all.inertia;
    const auto add = [&](const char* title, double value) {
        RideRow row;
        row.title = title;
        row.value = QString::number(value / 1e6, 'f', value < 1e7 ? 2 : 1);
        rows.push_back(row);
    };
    add("about the way (roll)", i(0, 0));
    add("about the axle (pitch)", i(1, 1));
    add("about upright (turn)", i(2, 2));
}

void addWhatIf(const Balance& b, RideRows& rows) {
    if (b.changes.empty()) return;
    rows.push_back(headingRow("What would change it", "tips at"));
    for (const trial::BalanceChange& change : b.changes) {
        RideRow row;
        row.title = QString::fromStdString(change.words);
        row.value = QString::fromStdString(printAngle(change.angle));
        const double by = change.angle - b.least.angle;
        row.word =
            std::abs(by) < 0.05 * trial::degree
                ? QStringLiteral("no change")
                : QStringLiteral("%1 by %2")
                      .arg(by > 0 ? "better" : "worse", QString::fromStdString(printAngle(std::abs(by))));
        row.place.part = "/ride";
        rows.push_back(row);
    }
}

} // namespace

RideRows standRows(const Project&, const Evaluation& e, int standing) {
    RideRows rows;
    if (!e.trial || !e.trial->balance) return rows;
    const Balance& b = *e.trial->balance;
    addLines(b, rows);
    addWheels(e, b, standing, rows);
    addLoad(e, b, rows);
    addTurnAndWind(e, b, rows);
    addAngles(e, rows);
    addInertia(b, rows);
    addWhatIf(b, rows);
    tellRows(rows, e);
    return rows;
}

} // namespace slab::ui
