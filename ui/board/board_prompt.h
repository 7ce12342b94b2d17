#pragma once
// What is asked for now, written on the board itself.
#include <QRectF>
#include <QString>
#include <optional>

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

/// Paints what is asked for, and under it why something could not be done, near the upper edge; near the
/// lower one while the pointer is up there.
/// @return where it was painted; empty = there was nothing to say
QRectF paintPrompt(QPainter& painter, const QRectF& paper, const BoardPrompt& prompt, const QString& told,
                   const std::optional<QPointF>& pointer);

} // namespace slab::ui
