// Which finding of the punch list stands at which row.
#include "ui/ride/ride_rows.h"
#include <algorithm>

namespace slab::ui {

using trial::Outcome;

namespace {

bool isAbout(const Finding& f, const std::string& thing) {
    return std::find(f.about.begin(), f.about.end(), thing) != f.about.end();
}

/// "document:/route/1/slope" is about "/route/1", "document:/route/10" is not.
bool isAboutEntry(const Finding& f, const std::string& entry) {
    const std::string head = "document:" + entry;
    return std::any_of(f.about.begin(), f.about.end(), [&](const std::string& about) {
        return about == head || about.starts_with(head + "/");
    });
}

bool comesShort(const RideRow& row) {
    return row.outcome == Outcome::fails || row.outcome == Outcome::tight;
}

/// It tips over there: the lines that are not steeper than that ground, the first of them in any case.
bool isTippedOver(const Finding& f, const RideRow& row, const trial::Balance& b) {
    const trial::Standing* ground = nullptr;
    for (const trial::Standing& s : b.standings)
        if (!s.stands && f.message.find(s.words) != std::string::npos) ground = &s;
    const auto& line = b.lines[static_cast<std::size_t>(row.index)];
    return line == b.least.line || (ground && line.angle <= ground->slope.angle);
}

/// Of how it stands.
bool isOfStanding(const Finding& f, const RideRow& row, const trial::Trial& trial) {
    if (!trial.balance) return false;
    switch (row.thing) {
    case RideThing::line:
        if (f.code == "tips-on-slope") return isTippedOver(f, row, *trial.balance);
        return f.code == "tips-easily" &&
               trial.balance->lines[static_cast<std::size_t>(row.index)] == trial.balance->least.line;
    case RideThing::wheel:
        return f.code == "wheel-lifts" && f.message.find(row.title.toStdString()) != std::string::npos &&
               comesShort(row);
    case RideThing::load:
        return f.code.starts_with("load-");
    case RideThing::turn:
        return f.code == "turn-tips";
    case RideThing::wind:
        return f.code == "wind-tips" && comesShort(row);
    default:
        return f.code == "tips-on-slope" && row.title == QStringLiteral("It tips over there");
    }
}

/// A gap by its name; one that closes by the mechanism that closes it.
bool isOfGap(const Finding& f, const std::string& gap) {
    if (f.code == "gap-catches") return f.message.find(" in " + gap + " ") != std::string::npos;
    return f.code.ends_with("-pinch") &&
           std::any_of(f.about.begin(), f.about.end(), [&](const std::string& about) {
               const std::string head = "mechanism:";
               return about.starts_with(head) &&
                      gap.find(about.substr(head.size()) + "/") != std::string::npos;
           });
}

/// Of what is seen and of getting out.
bool isOfPeople(const Finding& f, const RideRow& row) {
    const std::string title = row.title.toStdString();
    switch (row.thing) {
    case RideThing::ground:
        return f.code == "sight-ground";
    case RideThing::field:
        return (f.code == "sight-ahead" || f.code == "sight-field") && comesShort(row);
    case RideThing::way:
        return f.code.starts_with("exit-") && isAbout(f, "opening:" + title);
    case RideThing::gap:
        return isOfGap(f, title);
    default:
        return (f.code == "exit-none" && row.title == QStringLiteral("No opening is an exit")) ||
               (f.code == "air-little" && comesShort(row) && row.title.endsWith("the shoulders"));
    }
}

/// What the row's own words say already.
bool isSaidAlready(const Finding& f) {
    return f.code.starts_with("route-") && f.code != "route-load";
}

/// Without the part's name, which stands above; what to do about it where it is more than a note.
QString rowWords(const Finding& f, const RideRow& row) {
    QString words = QString::fromStdString(f.message);
    if (words.startsWith(row.title + ": ")) words.remove(0, row.title.size() + 2);
    if (!words.isEmpty()) words[0] = words[0].toUpper();
    if (f.severity != Severity::note && !f.remedy.empty()) words += ' ' + QString::fromStdString(f.remedy);
    return words;
}

} // namespace

bool isTold(const Evaluation& e, const char* code) {
    return std::any_of(e.findings.begin(), e.findings.end(),
                       [&](const Finding& f) { return f.code == code; });
}

void tellRows(RideRows& rows, const Evaluation& e) {
    for (RideRow& row : rows) {
        const std::string entry = row.place.part.toStdString();
        const bool ofRoute = row.thing == RideThing::part || row.thing == RideThing::untried;
        for (const Finding& f : e.findings) {
            if (row.heading) break;
            if (ofRoute ? !isAboutEntry(f, entry) : !isOfStanding(f, row, *e.trial) && !isOfPeople(f, row))
                continue;
            row.told.push_back(f);
            if (!ofRoute || isSaidAlready(f)) continue;
            if (!row.details.isEmpty()) row.details += '\n';
            row.details += rowWords(f, row);
        }
    }
}

} // namespace slab::ui
