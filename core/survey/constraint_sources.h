#pragma once
// Where constraints come from: everything that one evaluation tells of what is to spare. To add one, write a
// function and put it in the list.
#include "core/evaluate/evaluate.h"
#include "core/survey/constraint.h"

namespace slab {

/// A constraint (without points) and what is to spare at the scale of the evaluation.
struct ToldMargin {
    Constraint of;
    Margin margin;
    bool operator==(const ToldMargin&) const = default;
};
using ConstraintSource = void (*)(const Evaluation&, std::vector<ToldMargin>&);
[[nodiscard]] const std::vector<ConstraintSource>& constraintSources();

/// All of them, in a stable order; each key once.
[[nodiscard]] std::vector<ToldMargin> marginsOf(const Evaluation& evaluation);

/// Does it hold? Short by a millionth is enough.
[[nodiscard]] bool holds(const Margin& margin);
/// Do two things meet?
[[nodiscard]] bool meets(const ToldMargin& told);

} // namespace slab
