#pragma once
#include "core/formula/formula.h"
#include "ui/tables/document_tree.h"
#include <QString>

namespace slab::ui {

/// What a field is called and what the builder gets from it.
struct FieldWords {
    QString label, tip;
};
[[nodiscard]] FieldWords wordsOf(const Node& node);
/// True if the table has words of its own for this field (a test asks it of every field).
[[nodiscard]] bool hasWords(const std::string& owner, const std::string& field);
/// Space of bare literals in this field.
[[nodiscard]] Space spaceOf(const Node& node);
/// A choice's word for people: "powered_chair" -> "powered chair", "" -> "none".
[[nodiscard]] QString choiceWord(const Node& node, const std::string& word);
/// "dimension" -> "Add dimension" and the like.
[[nodiscard]] QString ownerLabel(const std::string& owner);

} // namespace slab::ui
