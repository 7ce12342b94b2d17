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

} // namespace slab::ui
