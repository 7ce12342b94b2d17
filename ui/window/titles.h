#pragma once
#include <QString>
#include <array>

namespace slab::ui {

class Session;

/// Title and note of the three view strips: Fit, Panels, Sheets.
struct Titles {
    std::array<QString, 3> title, note;
};
[[nodiscard]] Titles titlesOf(const Session& session);

} // namespace slab::ui
