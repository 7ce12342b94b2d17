#pragma once
#include "ui/session/session.h"
#include "ui/tables/document_tree.h"
#include <QString>

namespace slab::ui {

/// What a row builds at this scale.
struct Built {
    QString text;    ///< "7′ 5-1/4″"; empty if the row is no figure
    QString trouble; ///< why a formula cannot be read; empty = sound
};
[[nodiscard]] Built builtValue(const Session& session, const Node& node);
/// What a row of a list amounts to: a form's plates, a sheet's "1 + buy 4", an opening's plate.
[[nodiscard]] Built summaryOf(const Session& session, const Node& entry);
/// The field that stands in the middle column of a list's row ("value" of a dimension), or null.
[[nodiscard]] const Node* mainField(const Node& entry);
/// Words in the middle column when there is no main field.
[[nodiscard]] QString mainWords(const Node& entry);
/// "kg" or "km/h" of a field that was typed without its unit; empty for others.
[[nodiscard]] QString unitMeant(const Node& node);
[[nodiscard]] bool isFormula(Role role);
/// A formula rather than a plain literal: it uses a name.
[[nodiscard]] bool usesNames(const std::string& text);

} // namespace slab::ui
