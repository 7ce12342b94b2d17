#pragma once
// What route and ride come to, line by line: plain values for the lists beside the drawings.
#include "core/document/project.h"
#include "core/evaluate/evaluate.h"
#include "ui/session/session.h"
#include <optional>
#include <vector>

namespace slab::ui {

/// One line of a list.
struct RideRow {
    bool heading = false;
    std::optional<trial::Outcome> outcome; ///< nothing: a plain fact
    QString title, value;
    QString word;    ///< of the outcome
    QString details; ///< a second line, wrapped
    Selection place; ///< what a click chooses; empty: nothing
    RideThing thing = RideThing::none;
    int index = -1;
    std::vector<Finding> told; ///< what the punch list tells of it
    /// The worst of those; nothing if nothing is told.
    [[nodiscard]] std::optional<Severity> severity() const;
    /// All of it as one sentence.
    [[nodiscard]] QString spoken() const;
};
using RideRows = std::vector<RideRow>;

/// @param standing  which of Balance::standings the wheels' loads are of
[[nodiscard]] RideRows standRows(const Project& project, const Evaluation& evaluation, int standing);
[[nodiscard]] RideRows routeRows(const Project& project, const Evaluation& evaluation);
[[nodiscard]] RideRows sightRows(const Project& project, const Evaluation& evaluation);
[[nodiscard]] RideRows leavingRows(const Project& project, const Evaluation& evaluation);

/// Gives each finding of the punch list to the rows that it is about, and its words where a row lacks them.
void tellRows(RideRows& rows, const Evaluation& evaluation);
/// Whether the punch list has an entry of that kind.
[[nodiscard]] bool isTold(const Evaluation& evaluation, const char* code);
/// The worst that is told of any row.
[[nodiscard]] std::optional<Severity> worstOf(const RideRows& rows);
/// Words of a page's button, counted like the punch list: "Route · 1 stop · 2 looks".
[[nodiscard]] QString summaryOf(const QString& page, const RideRows& rows);

/// What a name of a plate, solid or wheel in a result stands for, with an entry of the document beside it.
[[nodiscard]] Selection choiceOf(const Evaluation& evaluation, const std::string& owner,
                                 const std::string& part = {});
/// "/openings/2" of an opening's name; empty if there is none.
[[nodiscard]] std::string openingPlace(const Project& project, const std::string& opening);
/// A wheel's load as what a scale under it would show.
[[nodiscard]] QString loadWords(double newtons, const UnitStyle& units);
/// "to port", "forward" …
[[nodiscard]] QString sideWords(ride::Side side);
/// In whole or tenths of km/h; inch styles mph.
[[nodiscard]] QString speedText(double millimetresPerSecond, const UnitStyle& units);
/// A length for people; "none" if it is infinite.
[[nodiscard]] QString lengthText(double mm, const UnitStyle& units);

} // namespace slab::ui
