#pragma once
#include "core/document/project.h"
#include <cstdint>
#include <deque>
#include <functional>
#include <string>
#include <vector>

namespace slab {

/// The only way a document changes: a function Project -> Project with a label.
struct Edit {
    std::string label; ///< "Change hull_length"; shown at Undo
    std::string merge; ///< edits with the same non-empty key in a row are one step (a drag)
    std::function<Expected<Project>(const Project&)> apply;
};

/// Edit that sets one value by JSON pointer ("/dimensions/0/value"); `json` is the new value as JSON text.
/// Fields that the file leaves out have a place too; a new name in a group ("/materials/plates/hull~1roof")
/// is added to it.
/// @error "no-such-place", "bad-pointer", or why the document would not be sound ("wrong-type",
/// "duplicate-name", …)
[[nodiscard]] Edit setValue(std::string pointer, std::string json, std::string label = {},
                            std::string merge = {});
/// Edit that inserts into / removes from / moves within a list by JSON pointer. The groups whose order counts
/// ("/materials/plates") are lists here too: insert {"name": value}, move by position, remove by name.
/// Removing a single field gives it its default.
[[nodiscard]] Edit insertValue(std::string arrayPointer, int index, std::string json, std::string label = {});
[[nodiscard]] Edit removeValue(std::string pointer, std::string label = {});
[[nodiscard]] Edit moveValue(std::string arrayPointer, int from, int to, std::string label = {});
/// The value at a pointer as JSON text, defaults included. @error "no-such-place"
[[nodiscard]] Expected<std::string> valueAt(const Project& project, const std::string& pointer);

/// Renames everywhere it is used: dimension in formulas; form in plate names, materials, joints, openings;
/// stock.
[[nodiscard]] Edit renameDimension(std::string from, std::string to);
[[nodiscard]] Edit renameForm(std::string from, std::string to);
[[nodiscard]] Edit renameStock(std::string from, std::string to);
/// Renames what stands at a place, wherever it is used: "/dimensions/0", "/forms/2", "/stock/sheets/0", a
/// donor solid in clearances, an outline point or corner ("/forms/0/outline/3") in curves, faces and the
/// names of its plates, a face ("/forms/1/faces/0"). Anything else with a name just takes the new one.
/// @error "no-such-place", "duplicate-name", "bad-name"
[[nodiscard]] Edit renameAt(std::string pointer, std::string to);
/// Scale by drag: all drags of one gesture are one step.
[[nodiscard]] Edit setScale(Text scale, std::string gesture = {});

/// Undo history. push() drops what was redone; states share nothing with the caller. It keeps at least 500
/// steps, and up to 2000 while they stay under 256 MiB. An edit that changes nothing is no step.
class History {
public:
    explicit History(Project first = {});
    [[nodiscard]] const Project& current() const;
    /// @error what the edit refused; the document is unchanged
    [[nodiscard]] Expected<void> push(const Edit& edit);
    /// Ends a drag: the next edit with the same key starts a new step.
    void settle();
    bool undo();
    bool redo();
    [[nodiscard]] bool canUndo() const;
    [[nodiscard]] bool canRedo() const;
    [[nodiscard]] std::string undoLabel() const;
    [[nodiscard]] std::string redoLabel() const;
    void markSaved(); ///< also ends a drag, so that the saved state stays a step of its own
    [[nodiscard]] bool isSaved() const;
    /// Counts up with every change of current(), undo and redo included.
    [[nodiscard]] std::uint64_t revision() const;

private:
    struct Step {
        Project project;
        std::string label, merge;
        std::size_t bytes = 0;
    };
    std::deque<Step> m_steps;
    std::size_t m_at = 0, m_saved = 0, m_bytes = 0;
    std::uint64_t m_revision = 0;
    bool m_settled = true;

    void forget();
};

} // namespace slab
