// Getting out, gaps, air and cautions, line by line.
#include "core/trial/words.h"
#include "ui/ride/ride_rows.h"
#include <algorithm>

namespace slab::ui {

using trial::Outcome;

namespace {

/// mm² below and above, a hand's breadth square each (common practice).
constexpr double airWanted = 1e4;

RideRow captionRow(const QString& title, const QString& value = {}) {
    RideRow row;
    row.heading = true;
    row.title = title;
    row.value = value;
    return row;
}

void addWays(const Project& project, const Evaluation& e, RideRows& rows) {
    rows.push_back(captionRow("Ways out", "clear"));
    for (std::size_t i = 0; i < e.trial->waysOut.size(); ++i) {
        const trial::WayOut& w = e.trial->waysOut[i];
        RideRow row;
        row.thing = RideThing::way;
        row.index = static_cast<int>(i);
        row.title = QString::fromStdString(w.opening);
        row.value = lengthText(w.width, e.units) + " × " + lengthText(w.height, e.units);
        row.outcome = w.outcome;
        row.word = w.outcome == Outcome::passes  ? "lets out"
                   : w.outcome == Outcome::tight ? "something is in the way"
                   : w.outcome == Outcome::fails ? "too small"
                                                 : "nobody aboard";
        QStringList words;
        if (w.wantedWidth > 0)
            words << QStringLiteral("%1 wants %2 × %3")
                         .arg(QString::fromStdString(w.who), lengthText(w.wantedWidth, e.units),
                              lengthText(w.wantedHeight, e.units));
        for (const std::string& solid : w.inTheWay)
            words << QStringLiteral("%1 stands before it").arg(QString::fromStdString(solid));
        if (w.path.size() > 2) words << QStringLiteral("out round a bend, as drawn");
        if (w.lidMass > 0) {
            words << QStringLiteral("lid of %1").arg(QString::fromStdString(printMass(w.lidMass, e.units)));
            words << QStringLiteral("its catches hold %1 (3 × its weight): %2")
                         .arg(QString::fromStdString(trial::forceWords(w.catches, e.units)),
                              w.frees ? QStringLiteral("magnets or hook-and-loop, and a push opens it")
                                      : QStringLiteral("more than a push of %1 undoes, so turn buttons or a "
                                                       "strap that a hand reaches from both sides")
                                            .arg(QString::fromStdString(
                                                trial::forceWords(trial::latchPush, e.units))));
        }
        row.details = words.join(" · ");
        row.place.part = QString::fromStdString(openingPlace(project, w.opening));
        const auto host =
            std::find_if(project.openings.begin(), project.openings.end(),
                         [&](const Opening& o) { return o.name == w.opening && !o.plate.empty(); });
        if (host != project.openings.end())
            row.place = choiceOf(e, host->plate, openingPlace(project, w.opening));
        rows.push_back(row);
    }
    if (!e.trial->waysOut.empty()) return;
    RideRow none;
    none.title = "No opening is an exit";
    none.details = "Put a hatch into a plate (key O in Fit), and set its purpose to exit.";
    if (isTold(e, "exit-none")) {
        none.outcome = Outcome::fails;
        none.word = "no way out";
    }
    none.place.part = "/openings";
    rows.push_back(none);
}

void addGaps(const Project& project, const Evaluation& e, RideRows& rows) {
    if (e.trial->gaps.empty()) return;
    rows.push_back(captionRow("Gaps that catch", "wide"));
    for (std::size_t i = 0; i < e.trial->gaps.size(); ++i) {
        const trial::Gap& g = e.trial->gaps[i];
        RideRow row;
        row.thing = RideThing::gap;
        row.index = static_cast<int>(i);
        row.title = QString::fromStdString(g.what);
        row.value = lengthText(g.size, e.units);
        row.word = g.moving ? "closes" : "catches";
        row.details = QString::fromStdString(g.rule);
        const std::string head = "opening ";
        if (g.what.starts_with(head))
            row.place.part = QString::fromStdString(openingPlace(project, g.what.substr(head.size())));
        rows.push_back(row);
    }
}

void addAir(const Evaluation& e, RideRows& rows) {
    rows.push_back(captionRow("Air", "open"));
    const auto add = [&](const QString& title, double area) {
        RideRow row;
        row.title = title;
        row.value = QString::fromStdString(printArea(area, e.units));
        row.word = area >= airWanted ? "enough" : "little";
        if (area >= airWanted)
            row.outcome = Outcome::passes;
        else if (isTold(e, "air-little")) // where nobody sits nothing is asked
            row.outcome = Outcome::tight;
        rows.push_back(row);
    };
    add("below the shoulders", e.trial->air.low);
    add("above the shoulders", e.trial->air.high);
}

} // namespace

RideRows leavingRows(const Project& project, const Evaluation& e) {
    RideRows rows;
    if (!e.trial) return rows;
    addWays(project, e, rows);
    addGaps(project, e, rows);
    addAir(e, rows);
    tellRows(rows, e);
    if (!e.trial->cautions.empty()) rows.push_back(captionRow("Before every ride"));
    for (const std::string& caution : e.trial->cautions) {
        RideRow row;
        row.details = QString::fromStdString(caution);
        rows.push_back(row);
    }
    return rows;
}

} // namespace slab::ui
