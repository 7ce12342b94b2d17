#pragma once
// Which fields of the document the entry strip shows for what is chosen on the board.
#include "ui/board/board_desk.h"
#include <QString>
#include <QStringList>

namespace slab::ui {

/// One entry of the strip. Several chosen points share it: a typed value goes to all of them.
struct StripField {
    QString label;                     ///< "x", "half width"
    std::vector<std::string> pointers; ///< "/forms/0/outline/3/x"
    QString text;                      ///< as typed; empty if the places differ
    bool differ = false;
    bool formula = true; ///< else a name or a count
    bool length = true;
    Space space = Space::subject; ///< of a length without more ado
    bool operator==(const StripField&) const = default;
};

/// Heading ("hull/stem head", "3 points") and fields.
struct StripContent {
    QString heading;
    std::vector<StripField> fields;
    bool operator==(const StripContent&) const = default;
};
[[nodiscard]] StripContent stripContent(const BoardDesk& desk);

/// What a formula builds, printed; or why it cannot be read.
struct Reading {
    QString text;
    QString trouble;
};
[[nodiscard]] Reading readingOf(const BoardDesk& desk, const QString& formula, bool length,
                                Space space = Space::subject);
/// The edit that types a text into all places of a field.
[[nodiscard]] Edit typedInto(const Session& session, const StripField& field, const QString& typed);
/// Names that a formula may use.
[[nodiscard]] QStringList formulaNames(const Project& project);

} // namespace slab::ui
