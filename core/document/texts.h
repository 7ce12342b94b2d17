#pragma once
// Every text of a project with what it stands for: renaming and weighing.
#include "core/document/project.h"
#include <functional>

namespace slab::detail {

enum class Role;

/// Calls `visit(role, text)` for each text, keys of groups included (their role is told apart from their
/// values').
void eachText(Project& project, const std::function<void(Role, std::string&)>& visit);
/// Memory that a project holds, roughly, in bytes.
[[nodiscard]] std::size_t bytesOf(const Project& project);

} // namespace slab::detail
