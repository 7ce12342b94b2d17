#pragma once
// Small things that edits of outlines share. Private to the room.
#include "core/document/edit.h"
#include "core/document/project.h"
#include "core/lines/handles.h"
#include <functional>

namespace slab::detail {

/// An edit of one form, checked as the document is when it is read.
[[nodiscard]] Expected<Edit> formEdit(const Project& project, std::string label,
                                      const std::function<Expected<Project>(const Project&)>& apply);
/// A name that no point of these has: "bow 2".
[[nodiscard]] std::string freshPointName(const std::vector<OutlinePoint>& points, const std::string& like);
/// Dimension lines that name points of a list by position follow; a negative new position leaves them as they
/// are.
void followPositions(Project& project, const std::string& form, const std::string& list,
                     const std::function<int(int)>& moved);
/// A length as written in the document's units, at the subject's size.
[[nodiscard]] Text subjectText(double mmAtBuild, const Scope& scope, double step = 0);

} // namespace slab::detail
