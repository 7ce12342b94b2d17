#pragma once
#include "core/base/error.h"
#include <QString>
#include <array>

namespace slab::ui {

class Session;

/// Title and note of the three view strips: Fit, Panels, Sheets.
struct Titles {
    std::array<QString, 3> title, note;
};
[[nodiscard]] Titles titlesOf(const Session& session);

/// What went wrong, where, and what to do, as sentences: "… (line 3 column 8). → Open the backup beside it."
[[nodiscard]] QString errorWords(const Error& error);

} // namespace slab::ui
