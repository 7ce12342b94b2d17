#include "ui/ride/ride_rows.h"
#include "core/trial/words.h"
#include "ui/findings/findings_model.h"
#include "ui/ride/ride_ink.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

QString RideRow::spoken() const {
    QStringList parts{title};
    if (!value.isEmpty()) parts << value;
    if (!word.isEmpty()) parts << word;
    if (const auto worst = severity()) parts << wordOf(*worst);
    QString out = parts.join(QStringLiteral(", "));
    if (!details.isEmpty()) out += QStringLiteral(": ") + details;
    return out;
}

std::optional<Severity> RideRow::severity() const {
    std::optional<Severity> worst;
    for (const Finding& f : told)
        if (!worst || f.severity > *worst) worst = f.severity;
    return worst;
}

std::optional<Severity> worstOf(const RideRows& rows) {
    std::optional<Severity> worst;
    for (const RideRow& row : rows)
        if (const auto one = row.severity(); one && (!worst || *one > *worst)) worst = one;
    return worst;
}

QString summaryOf(const QString& page, const RideRows& rows) {
    std::vector<Finding> all; // one may stand at several rows
    for (const RideRow& row : rows)
        for (const Finding& f : row.told)
            if (std::find(all.begin(), all.end(), f) == all.end()) all.push_back(f);
    QStringList words{page};
    for (const Severity severity : {Severity::stop, Severity::look, Severity::note}) {
        if (severity == Severity::note && words.size() > 1) break; // there is worse
        const auto count =
            std::count_if(all.begin(), all.end(), [&](const Finding& f) { return f.severity == severity; });
        if (count > 0) words << countWords(severity, static_cast<int>(count));
    }
    return words.join(QStringLiteral(" · "));
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
