#pragma once
#include <QFont>
#include <QLineF>
#include <QRectF>
#include <QStringList>
#include <vector>

namespace slab::ui {

/// Places for the labels of lines on the screen, px, one each in their order: beside the middle of its line,
/// or along it and further out where that is taken by another label or crossed by another line. Where nothing
/// is free it is the place that covers least.
[[nodiscard]] std::vector<QRectF> labelBoxes(const std::vector<QLineF>& lines, const QStringList& words,
                                             const QFont& font);

/// Where a word may stand beside what it names.
struct WordRoom {
    std::vector<QPointF> anchors; ///< of what it names, the best first
    double first = -1;            ///< side that is looked at first: -1 above, 1 below
    QRectF within;                ///< px
    std::vector<QLineF> lines{};  ///< that it should not cover
    std::vector<QRectF> taken{};  ///< the same of areas
};
/// The first place above or below an anchor that covers nothing, else the one that covers least.
[[nodiscard]] QRectF wordBox(const QSizeF& size, const WordRoom& room);

} // namespace slab::ui
