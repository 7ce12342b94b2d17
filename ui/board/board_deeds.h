#pragma once
// What keys and buttons of the board do to what is chosen. Each is one step to undo.
#include "ui/board/board_desk.h"

namespace slab::ui {

/// Splits an edge of a view nearest to a place, and chooses the new point.
bool insertAt(BoardDesk& desk, BoardView view, const std::string& edge, const Vec2& at, double step);
/// Puts a corner on the edge of a facet form that two chosen corners are the ends of, and chooses it.
bool insertCornerAt(BoardDesk& desk, BoardView view, const std::array<PointRef, 2>& ends, const Vec2& at);
/// Splits every chosen edge in its middle, or the edge of a facet form between two chosen corners.
bool insertInChosen(BoardDesk& desk);
/// Deletes what is chosen: points, a dimension line, a picture; a form by its place.
bool removeChosen(BoardDesk& desk);
/// Points or a picture are chosen: arrows move them.
[[nodiscard]] bool canNudge(const BoardDesk& desk);
/// Moves what is chosen, mm at build size in its view. @param gesture  moves of one key run are one step
bool nudgeChosen(BoardDesk& desk, const Vec2& by, const std::string& gesture);
/// Chosen points (or all of the chosen form's) reflected across the middle of them. @param direction  0
/// right, 1 up
bool mirrorChosen(BoardDesk& desk, int direction);
/// The port half of the chosen form's plan outline is reflected to starboard, or the other way round.
bool makeChosenSymmetric(BoardDesk& desk, bool keepPort);
/// A copy of the chosen form beside it, chosen.
bool duplicateChosen(BoardDesk& desk);
/// Pictures that were hidden are seen again.
bool showHiddenPictures(BoardDesk& desk);
/// Every point of the chosen form in the view of the choice, or every point of the view.
void chooseAll(BoardDesk& desk);
/// The next (1) or last (-1) point of the chosen form, or the first of the view.
void chooseNext(BoardDesk& desk, int by);
/// One step of the arrow keys: 1 mm, or 1/16 in.
[[nodiscard]] double nudgeStep(const UnitStyle& units);
/// The form that the last edit has added is chosen by its place.
void chooseForm(BoardDesk& desk, int form, BoardView view);

} // namespace slab::ui
