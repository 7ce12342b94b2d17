#include "ui/ride/ride_rows.h"
#include "core/trial/words.h"
#include "ui/ride/ride_ink.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

using trial::Outcome;

QString RideRow::spoken() const {
    QStringList parts{title};
    if (!value.isEmpty()) parts << value;
    if (!word.isEmpty()) parts << word;
    QString out = parts.join(QStringLiteral(", "));
    if (!details.isEmpty()) out += QStringLiteral(": ") + details;
    return out;
}

std::optional<Outcome> worstOf(const RideRows& rows) {
    const auto rank = [](Outcome o) {
        return o == Outcome::fails ? 3 : o == Outcome::tight ? 2 : o == Outcome::unknown ? 1 : 0;
    };
    std::optional<Outcome> worst;
    for (const RideRow& row : rows)
        if (row.outcome && (!worst || rank(*row.outcome) > rank(*worst))) worst = row.outcome;
    return worst;
}

QString summaryOf(const QString& page, const RideRows& rows) {
    const auto count = [&](Outcome o) {
        return std::count_if(rows.begin(), rows.end(), [&](const RideRow& r) { return r.outcome == o; });
    };
    if (const auto stops = count(Outcome::fails); stops > 0)
        return QStringLiteral("%1 · %2 %3").arg(page).arg(stops).arg(stops == 1 ? "stop" : "stops");
    if (const auto looks = count(Outcome::tight); looks > 0)
        return QStringLiteral("%1 · %2 to look at").arg(page).arg(looks);
    return page;
}

Selection choiceOf(const Evaluation& evaluation, const std::string& owner, const std::string& part) {
    Selection out;
    out.part = QString::fromStdString(part);
    if (owner.empty()) return out;
    if (evaluation.plates)
        for (const Plate& plate : evaluation.plates->plates)
            if (plate.name == owner) {
                out.plate = QString::fromStdString(owner);
                out.form = QString::fromStdString(plate.form);
                return out;
            }
    if (evaluation.donor)
        for (const FitSolid& solid : evaluation.donor->solids)
            if (solid.name == owner || solid.name == "donor/" + owner) {
                out.solid = QString::fromStdString(solid.name);
                return out;
            }
    return out;
}

std::string openingPlace(const Project& project, const std::string& opening) {
    for (std::size_t i = 0; i < project.openings.size(); ++i)
        if (project.openings[i].name == opening) return "/openings/" + std::to_string(i);
    return {};
}

QString loadWords(double newtons, const UnitStyle& units) {
    return QString::fromStdString(printMass(newtons * 1000 / ride::gravity, units));
}

QString sideWords(ride::Side side) {
    return side == ride::Side::front  ? QStringLiteral("forward")
           : side == ride::Side::rear ? QStringLiteral("back")
           : side == ride::Side::port ? QStringLiteral("to port")
                                      : QStringLiteral("to starboard");
}

QString speedText(double speed, const UnitStyle& units) {
    if (!std::isfinite(speed)) return QStringLiteral("any speed");
    return QString::fromStdString(trial::speedWords(speed, units));
}

QString lengthText(double mm, const UnitStyle& units) {
    if (!std::isfinite(mm)) return QStringLiteral("none");
    return QString::fromStdString(printLength(mm, units));
}

} // namespace slab::ui
