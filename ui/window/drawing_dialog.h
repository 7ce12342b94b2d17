#pragma once
// Asking for a picture or a drawing.
#include <QString>

class QWidget;

namespace slab::ui {

/// Where pictures are looked for: where the last one was found; before there was one, or when that folder is
/// gone, the document's folder; without a document the user's pictures.
[[nodiscard]] QString drawingFolder(const QString& document);
/// Asks for a file and remembers its folder.
/// @param document  path; empty = it has no file yet
/// @param kinds     "Pictures (*.png *.jpg)"
/// @return empty if none was chosen
[[nodiscard]] QString askDrawing(QWidget* over, const QString& title, const QString& document,
                                 const QString& kinds);
inline constexpr const char* pictureKinds = "Pictures (*.png *.jpg *.jpeg *.svg)";

} // namespace slab::ui
