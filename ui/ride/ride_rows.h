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
    /// All of it as one sentence.
    [[nodiscard]] QString spoken() const;
};
using RideRows = std::vector<RideRow>;

/// @param standing  which of Balance::standings the wheels' loads are of
[[nodiscard]] RideRows standRows(const Project& project, const Evaluation& evaluation, int standing);
[[nodiscard]] RideRows routeRows(const Project& project, const Evaluation& evaluation);
[[nodiscard]] RideRows sightRows(const Project& project, const Evaluation& evaluation);
[[nodiscard]] RideRows leavingRows(const Project& project, const Evaluation& evaluation);

/// The worst of the outcomes; nothing if no row has one.
[[nodiscard]] std::optional<trial::Outcome> worstOf(const RideRows& rows);
/// Words of a page's button: "Route · 1 does not pass".
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
