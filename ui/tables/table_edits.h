#pragma once
// What the tables change, as edits of the document.
#include "core/document/edit.h"
#include "ui/session/session.h"
#include "ui/tables/document_tree.h"
#include <QString>
#include <optional>

namespace slab::ui {

/// A typed value: renames go everywhere the name is used, a bare number where a length stands gets the
/// document's unit, an emptied entry of a map is removed, another kind of form starts as a plain shape of
/// that kind.
[[nodiscard]] Edit editFor(const Session& session, const Node& node, const QString& typed);
/// Another name for a row: a dimension, form, sheet or map entry, or any object with a name.
[[nodiscard]] Edit renameFor(const Node& node, const QString& name);

/// A new entry for a list, names or map, as JSON; for a map an object with one member.
/// @param kind  of form, or name of a sheet idea; may be empty
[[nodiscard]] std::string newEntry(const Session& session, const Node& list, int at,
                                   const QString& kind = {});
[[nodiscard]] Edit addEntry(const Session& session, const Node& list, int at, const QString& kind = {});
[[nodiscard]] Edit duplicateEntry(const Session& session, const Node& entry);
[[nodiscard]] Edit removeEntry(const Node& entry);
[[nodiscard]] Edit moveEntry(const Node& entry, int to);

/// Several edits as one step.
[[nodiscard]] Edit chained(std::string label, std::vector<Edit> edits);

/// The sheet of one plate, "" = left out; put before every other rule that matches it.
[[nodiscard]] Edit setPlateStock(const std::string& plate, const std::string& stock);
/// Puts a plate at this place of the order of covering, 0 = covers all.
[[nodiscard]] Edit setPlateRank(const std::string& plate, int rank);

/// "name", "name 2", "name 3" …, not among `taken`.
[[nodiscard]] std::string freeName(const std::string& wanted, const std::vector<std::string>& taken);

} // namespace slab::ui
