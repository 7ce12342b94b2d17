// What is passed on the way, and what is seen from inside, line by line.
#include "core/trial/examples.h"
#include "core/trial/words.h"
#include "ui/ride/ride_ink.h"
#include "ui/ride/ride_rows.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

using trial::Outcome;

namespace {

RideRow titleRow(const QString& title, const QString& value = {}) {
    RideRow row;
    row.heading = true;
    row.title = title;
    row.value = value;
    return row;
}

QString signedLength(double mm, const UnitStyle& units) {
    const QString text = QString::fromStdString(printFine(std::abs(mm), units));
    return mm < 0 ? QStringLiteral("−") + text : QStringLiteral("+") + text;
}

/// What the line says behind the part's name.
QString withoutName(const trial::RouteResult& r) {
    const std::string head = r.name + ": ";
    QString words = QString::fromStdString(r.words.starts_with(head) ? r.words.substr(head.size()) : r.words);
    if (!words.isEmpty()) words[0] = words[0].toUpper();
    return words;
}

RideRow resultRow(const Evaluation& e, std::size_t entry, int index) {
    const trial::RouteResult& r = e.trial->route[static_cast<std::size_t>(index)];
    RideRow row;
    row.thing = RideThing::part;
    row.index = index;
    row.outcome = r.outcome;
    row.word = outcomeWord(r.outcome);
    row.title = QString::fromStdString(r.name);
    if (r.outcome != Outcome::unknown) row.value = signedLength(r.margin, e.units);
    row.details = withoutName(r);
    row.place = choiceOf(e, r.binds, "/route/" + std::to_string(entry));
    return row;
}

RideRow untriedRow(const RoutePart& part, std::size_t entry) {
    RideRow row;
    row.thing = RideThing::untried;
    row.index = static_cast<int>(entry);
    row.title = QString::fromStdString(part.name);
    row.word = part.off ? "left out" : "not known";
    if (!part.off) row.outcome = Outcome::unknown;
    row.details = part.off ? QStringLiteral("Switched off in the table.")
                           : QStringLiteral("A size is missing or cannot be read; see the punch list.");
    row.place.part = QStringLiteral("/route/%1").arg(entry);
    return row;
}

} // namespace

RideRows routeRows(const Project& project, const Evaluation& e) {
    RideRows rows;
    if (!e.trial) return rows;
    if (!project.route.empty()) rows.push_back(titleRow("On the way", "to spare"));
    const auto& results = e.trial->route;
    for (std::size_t i = 0; i < project.route.size(); ++i) {
        const auto found = std::find_if(results.begin(), results.end(), [&](const trial::RouteResult& r) {
            return r.name == project.route[i].name;
        });
        rows.push_back(found == results.end() ? untriedRow(project.route[i], i)
                                              : resultRow(e, i, static_cast<int>(found - results.begin())));
    }
    tellRows(rows, e);
    if (!e.trial->turning || project.route.empty()) return rows;
    const trial::Turning& t = *e.trial->turning;
    rows.push_back(titleRow("Turning room"));
    RideRow row;
    row.thing = RideThing::circle;
    row.title = "tightest turn";
    row.value = lengthText(t.path.diameter(), e.units);
    row.word = "wall to wall";
    row.details = QStringLiteral("%1 sweeps widest").arg(QString::fromStdString(t.outer));
    if (t.path.inner > 0)
        row.details +=
            QStringLiteral("; it leaves %1 free within").arg(lengthText(2 * t.path.inner, e.units));
    row.place = choiceOf(e, t.outer);
    rows.push_back(row);
    return rows;
}

namespace {

void addSlits(const Project& project, const Evaluation& e, const trial::View& view, RideRows& rows) {
    if (view.openings.empty()) return;
    rows.push_back(titleRow("Openings", "horizon through it"));
    for (std::size_t i = 0; i < view.openings.size(); ++i) {
        const trial::OpeningSeen& o = view.openings[i];
        RideRow row;
        row.thing = RideThing::slit;
        row.index = static_cast<int>(i);
        row.title = QString::fromStdString(o.opening);
        row.value = QString::fromStdString(printAngle(o.field, 0));
        QStringList words;
        if (o.ahead && o.raise != 0)
            words << QStringLiteral("%1 it by %2 to look straight ahead")
                         .arg(o.raise > 0 ? "raise" : "lower", lengthText(std::abs(o.raise), e.units));
        if (o.ahead && o.lower > 0)
            words << QStringLiteral("cut it %1 further down to see the ground that is wanted")
                         .arg(lengthText(o.lower, e.units));
        if (o.ahead && words.isEmpty()) words << QStringLiteral("shows what is wanted ahead");
        if (!words.isEmpty()) {
            row.details = words.join("; ");
            row.details[0] = row.details[0].toUpper();
        }
        row.place = choiceOf(e, o.plate, openingPlace(project, o.opening));
        rows.push_back(row);
    }
}

} // namespace

RideRows sightRows(const Project& project, const Evaluation& e) {
    RideRows rows;
    if (!e.trial || e.trial->views.empty()) return rows;
    const trial::View& view = e.trial->views.front();
    const bool opensAhead = view.field.port > 0 || view.field.starboard > 0;
    rows.push_back(titleRow("Seen from inside"));
    RideRow ground;
    ground.thing = RideThing::ground;
    ground.title = "ground ahead from";
    ground.value =
        std::isfinite(view.beyondNose) ? lengthText(view.beyondNose, e.units) : QStringLiteral("not seen");
    ground.outcome = !(view.wanted > 0)                      ? Outcome::unknown
                     : view.beyondNose <= view.wanted + 1e-6 ? Outcome::passes
                                                             : Outcome::fails;
    ground.word = *ground.outcome == Outcome::passes  ? "in time"
                  : *ground.outcome == Outcome::fails ? "too late"
                                                      : "nothing asked";
    ground.details = QStringLiteral("before the body; wanted from %1, it stops within %2")
                         .arg(lengthText(view.wanted, e.units), lengthText(view.stops, e.units));
    ground.place.part = "/ride/sees";
    rows.push_back(ground);
    const auto side = [&](const QString& name, double open) {
        RideRow row;
        row.thing = RideThing::field;
        row.title = "open to " + name;
        row.value = QString::fromStdString(printAngle(open, 0));
        row.outcome = !opensAhead                      ? Outcome::fails
                      : open + 1e-6 < view.wantedField ? Outcome::tight
                                                       : Outcome::passes;
        row.word = !opensAhead ? "blind ahead" : *row.outcome == Outcome::tight ? "narrow" : "open";
        row.details = QStringLiteral("wanted %1 from straight ahead")
                          .arg(QString::fromStdString(printAngle(view.wantedField, 0)));
        row.place.part = "/ride/field";
        return row;
    };
    rows.push_back(side("port", view.field.port));
    rows.push_back(side("starboard", view.field.starboard));
    RideRow eye;
    eye.title = "eyes above the ground";
    eye.value = lengthText(view.eye.z(), e.units);
    eye.place.solid = "rider/head";
    rows.push_back(eye);
    if (view.map.reach > 0) {
        RideRow blind;
        blind.title = "blind ground";
        const double all = 3.14159265358979323846 * view.map.reach * view.map.reach;
        blind.value = QStringLiteral("%1 %").arg(view.map.blindArea / all * 100, 0, 'f', 0);
        blind.details = QStringLiteral("of the ground within %1").arg(lengthText(view.map.reach, e.units));
        rows.push_back(blind);
    }
    addSlits(project, e, view, rows);
    tellRows(rows, e);
    return rows;
}

} // namespace slab::ui
