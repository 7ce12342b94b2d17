#pragma once
// Modules by hand: made of chosen plates, given more of them, and plates taken out again, as edits.
#include "core/document/edit.h"
#include "core/evaluate/evaluate.h"

namespace slab {

/// The module that a plate comes off with: the first that names it or what it is fastened to ("port/strip"
/// goes with "port"); -1 = none.
[[nodiscard]] int moduleOf(const Project& project, const std::string& plate);

/// A new module of these plates, named after their form where they are of one. They leave the modules that
/// they were in; of a form whose plates are all chosen the entry is "house/*".
/// @param plates  names as evaluated
/// @error "nothing-chosen"; "no-such-place" (a plate is not there)
[[nodiscard]] Expected<Edit> makeModule(const Project& project, const Evaluation& evaluation,
                                        const std::vector<std::string>& plates);
/// More plates for a module; they leave the modules that they were in.
/// @param module  in the document's list
/// @error also "already-there" (it has them all)
[[nodiscard]] Expected<Edit> addToModule(const Project& project, const Evaluation& evaluation, int module,
                                         const std::vector<std::string>& plates);
/// Plates taken out of their modules; a pattern that takes more of them becomes the names of what is left. A
/// module of nothing goes.
/// @error also "no-module" (none of them is in one)
[[nodiscard]] Expected<Edit> takeFromModules(const Project& project, const Evaluation& evaluation,
                                             const std::vector<std::string>& plates);

} // namespace slab
