#pragma once
// Cleats and corner blocks by hand: a rule for one joint, as edits.
#include "core/document/edit.h"
#include "core/formula/formula.h"

namespace slab {

enum class CleatKind {
    cleat, ///< a stick along the joint
    block  ///< pieces every so often
};
/// The rule that is for this joint alone; -1 = none.
[[nodiscard]] int cleatsOf(const Project& project, const std::string& a, const std::string& b);

/// Cleats or corner blocks in the inside corner of the joint of two plates, before every wider rule. A rule
/// for this joint alone that is there already becomes one of this kind.
/// @error "already-there" (of this kind); "no-joint" (one name is empty)
[[nodiscard]] Expected<Edit> addCleats(const Project& project, const Scope& scope, const std::string& a,
                                       const std::string& b, CleatKind kind);
/// @error "no-such-place": no rule is for this joint alone
[[nodiscard]] Expected<Edit> takeCleatsAway(const Project& project, const std::string& a,
                                            const std::string& b);

} // namespace slab
