#pragma once
#include <QIcon>
#include <QString>

namespace slab::ui {

/// Small drawings that stand before the words of the board's tools: "choose", "profile", "taper", "plate",
/// "round", "facet", "measure", "dimension", "picture", "grid", "fit". Drawn in the colours of the theme.
[[nodiscard]] QIcon boardGlyph(const QString& name);

} // namespace slab::ui
