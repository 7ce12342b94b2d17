#pragma once
// What is asked for now, written on the board itself.
#include <QRectF>
#include <QString>
#include <optional>
#include <vector>

class QPainter;

namespace slab::ui {

/// What a tool waits for.
struct BoardPrompt {
    QString words;        ///< empty = it waits for nothing
    int step = 0, of = 0; ///< "2 of 4"; of = 0: as many as one likes; step = 0: not counted
    [[nodiscard]] QString count() const {
        return step == 0 ? QString()
               : of == 0 ? QString::number(step)
                         : QString("%1 of %2").arg(step).arg(of);
    }
};

/// What is said of what was just done.
struct BoardTold {
    QString words;     ///< empty = nothing
    bool fine = false; ///< it is all right: no warning, and not in a warning's colour
    bool operator==(const BoardTold&) const = default;
};

/// Where it may stand.
struct PromptRoom {
    QRectF paper;
    std::optional<QPointF> pointer; ///< what is worked on is not covered
    std::vector<QRectF> taken{};    ///< titles of the views, cards that lie on the board
    std::vector<QRectF> drawn{};    ///< the elevations: covered only where there is nowhere else
};
/// Paints what is asked for, and under it what is told: in the middle of the upper edge where that is free,
/// else where it covers nothing, in more lines if need be; where there is no such place, where it covers
/// least.
/// @return where it was painted; empty = there was nothing to say
QRectF paintPrompt(QPainter& painter, const PromptRoom& room, const BoardPrompt& prompt,
                   const BoardTold& told);

} // namespace slab::ui
