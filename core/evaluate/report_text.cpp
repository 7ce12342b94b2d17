// The report in words, for the terminal.
#include "core/evaluate/evaluate.h"
#include "core/evaluate/report_likeness.h"
#include "core/evaluate/report_mechanisms.h"
#include "core/evaluate/report_parts.h"
#include "core/evaluate/report_pictures.h"
#include "core/evaluate/report_trial.h"
#include <algorithm>
#include <cstdio>
#include <map>

namespace slab {

namespace {

std::string fixed(double value, int decimals) {
    char buffer[64];
    std::snprintf(buffer, sizeof buffer, "%.*f", decimals, value);
    return buffer;
}

std::string padded(std::string text, std::size_t width) {
    if (text.size() < width) text.append(width - text.size(), ' ');
    return text;
}

void line(std::string& out, const std::string& name, const std::string& value) {
    out += "  " + padded(name, 16) + value + "\n";
}

void bodyLines(std::string& out, const Evaluation& e) {
    const UnitStyle& u = e.units;
    const Vec3 size = builtBounds(e).size();
    line(out, "built",
         printLength(size.x(), u) + " long, " + printLength(size.y(), u) + " wide, " +
             printLength(size.z(), u) + " high");
    line(out, "plates",
         std::to_string(e.totals.plates) + " in " + std::to_string(e.totals.panels) + " panels");
}

void fitLines(std::string& out, const Evaluation& e) {
    if (e.donor->solids.empty()) return line(out, "fit", "no donor and no rider to fit");
    if (e.fit->pairs.empty() && e.fit->swept.empty() && e.fit->outside.empty())
        return line(out, "fit", "no plates to compare");
    const char* words = e.fit->state == FitState::fits    ? "fits"
                        : e.fit->state == FitState::tight ? "tight"
                                                          : "hits";
    line(out, "fit",
         std::string(words) + ", least gap " + printLength(e.fit->leastClearance, e.units) +
             (e.fit->confirmed ? "" : " (not yet confirmed)"));
    if (!e.afloat || e.afloat->pairs.empty()) return;
    const FloatRange& range = e.mechanisms->floating;
    line(out, "afloat",
         std::string(e.afloat->state == FitState::fits    ? "fits"
                     : e.afloat->state == FitState::tight ? "tight"
                                                          : "hits") +
             ", least gap " + printLength(e.afloat->leastClearance, e.units) + " while it rises " +
             printLength(range.highest, e.units) + ", sinks " + printLength(-range.lowest, e.units) +
             ", pitches " + printAngle(range.noseUp) + " up and " + printAngle(-range.noseDown) + " down");
}

void sheetLines(std::string& out, const Evaluation& e) {
    line(out, "sheets",
         std::to_string(e.totals.sheets) + ", to buy " + std::to_string(e.totals.buy) + ", " +
             e.stock->currency + " " + fixed(e.totals.cost, 2) + ", " + fixed(e.totals.usedPercent, 0) +
             " % used");
    for (const StockLine& s : e.totals.stock)
        if (s.used > 0)
            out += "    " + padded(s.stock, 20) + std::to_string(s.used) +
                   (s.used == 1 ? " sheet, " : " sheets, ") + std::to_string(s.onHand) +
                   " in the shed, buy " + std::to_string(s.buy) + "\n";
    std::string missing;
    for (const std::string& sheet : e.totals.unweighed)
        missing += (missing.empty() ? ", without what is cut from " : ", ") + sheet;
    line(out, "shell mass",
         (e.totals.mass > 0 ? printMass(e.totals.mass, e.units) : std::string("not known")) + missing);
}

} // namespace

std::string reportText(const Project& project, const Evaluation& e) {
    std::string out = (project.title.empty() ? "Untitled" : project.title) + ", scale " + project.scale +
                      " (" + fixed(e.scale, 4) + ")\n";
    if (e.body && e.plates && e.sheets && e.fit) {
        bodyLines(out, e);
        fitLines(out, e);
        sheetLines(out, e);
    }
    if (e.panels && !e.panels->empty()) {
        out += "\nPanels\n";
        for (const Panel& p : *e.panels) {
            const Vec2 size = bounds(p.boundary.outer).size();
            out += "  " + padded(p.name, 32) + padded(std::to_string(p.copyCount()) + " x", 6) +
                   padded(p.stock, 16) + printLength(size.x(), e.units) + " x " +
                   printLength(size.y(), e.units) + "\n";
        }
    }
    if (e.pictures && !e.pictures->sizes.empty())
        out += "\nMeasured on pictures\n" + measuredSizesText(*e.pictures, e.units);
    if (e.mechanisms) out += mechanismsText(*e.mechanisms, e.units);
    out += curvesText(e) + likenessText(project, e) + framesText(e) + cleatsText(e) + seamsText(e) +
           modulesText(e) + trialText(e);
    out += "\nPunch list" + std::string(e.findings.empty() ? ": nothing to do\n" : "\n");
    for (const Finding& f : e.findings) {
        out +=
            "  " + padded(std::string(severityName(f.severity)), 6) + padded(f.code, 24) + f.message + "\n";
        if (!f.remedy.empty()) out += std::string(32, ' ') + "-> " + f.remedy + "\n";
    }
    return out;
}

} // namespace slab
