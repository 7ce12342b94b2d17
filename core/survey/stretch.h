#pragma once
// The subject made longer, wider or higher, each by itself.
#include "core/document/edit.h"
#include "core/evaluate/evaluate.h"

namespace slab {

/// How far one direction may differ from another before it is another subject, as a share (from memory).
inline constexpr double likenessLimit = 0.25;

/// Multiplies all that is drawn of the subject along x, y and z: corners, heights and places of forms, places
/// of openings, places of mechanisms and wheels, stations of frames, seams. A plain number is
/// multiplied, a formula gets its factor in front. What is built stays: sheets, gaps, sizes of openings,
/// drums, tubes, donor, rider; round forms stay round; arcs stay arcs through their highest point. A form
/// that stands turned so that it would become skewed stops it; a plate may lean if it stays square. Pictures
/// stay: they show the subject as it was.
/// @param project, made  as they are now; `made` with scope and plates
/// @param by             each above 0; the greatest is at most 1 + likenessLimit times the least
/// @error "stretch-range"; "stretch-skews" with the form as `where`
[[nodiscard]] Expected<Project> stretched(const Project& project, const Evaluation& made, const Vec3& by);
/// The same as an edit; its label says what it does ("Make it 6 % wider").
/// @param scale  set in the same step; empty = as it is
[[nodiscard]] Edit stretchSubject(const Evaluation& made, const Vec3& by, const Text& scale = {});

/// A length's text times a factor: "1.2 m" and 1.5 is "1.8 m"; "a + 3 in" and 1.5 is "1.5 * (a + 3 in)", and
/// that again times 2 "3 * (a + 3 in)". Summands of the build keep their size: "beam / 2 + build(6 mm)" and
/// 0.9 is "0.9 * (beam / 2) + build(6 mm)". Empty stays empty.
/// @param built  names of lengths of the build
[[nodiscard]] Text multiplied(const Text& text, double by, const std::vector<std::string>& built = {});

} // namespace slab
