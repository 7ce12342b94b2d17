#pragma once
// What the starts of mechanisms are sized by, and how their figures are written. Private to the room.
#include "core/board/mechanism_edits.h"
#include <functional>
#include <optional>

namespace slab::detail {

struct StartFigures {
    const Project& project;
    const Scope& scope;
    const Evaluation& e;
    const MechanismStart& start;

    [[nodiscard]] bool inches() const;
    /// A length in round figures, downwards: of 10 mm or 1/2 in, small ones of 1 mm or 1/16 in.
    [[nodiscard]] double rounded(double mm) const;
    /// The same as a build size.
    [[nodiscard]] Text size(double mm) const;
    /// The same as a length of the subject; mm at build size.
    [[nodiscard]] Text length(double mm) const;
    /// A coordinate that was pointed at, subject; mm at build size.
    [[nodiscard]] Text place(double mm) const;
    /// The upper face of a level plate: the formula of its form where that has one for it.
    [[nodiscard]] Text height(const Plate& deck) const;
    /// The plate of the body that was pointed at; null = none.
    [[nodiscard]] const Plate* plate() const;
    /// The turntable that was pointed at, or that stands there; null = none.
    [[nodiscard]] const Turntable* table() const;
    /// Origin of a placement, body axes; a formula without a value counts as 0.
    [[nodiscard]] Vec3 placed(const Placement& at) const;
    [[nodiscard]] std::optional<double> fact(const std::string& mechanism, const std::string& key) const;
    /// A sheet that holds bolts, else the one for all.
    [[nodiscard]] std::string wood() const;
    /// An edit that puts one more thing in, checked.
    [[nodiscard]] Expected<Edit> put(const std::string& name,
                                     const std::function<void(Project&)>& change) const;
};

inline constexpr double levelCosine = 0.99999; ///< a plate that leans less is level

/// A name that nothing of the list has: "turntable 2".
template <class List>
std::string freshIn(const List& list, const std::string& stem) {
    const auto taken = [&](const std::string& name) {
        for (const auto& one : list)
            if (one.name == name) return true;
        return false;
    };
    std::string name = stem;
    for (int n = 2; taken(name); ++n) name = stem + " " + std::to_string(n);
    return name;
}

/// A name that no form and no mechanism has: their plates are named after them.
[[nodiscard]] inline std::string freshMechanism(const Project& project, const std::string& stem) {
    struct Named {
        std::string name;
    };
    std::vector<Named> all;
    const auto take = [&](const auto& list) {
        for (const auto& one : list) all.push_back({one.name});
    };
    take(project.forms);
    take(project.mechanisms.turntables);
    take(project.mechanisms.trunnions);
    take(project.mechanisms.linkages);
    take(project.mechanisms.belts);
    return freshIn(all, stem);
}

[[nodiscard]] Expected<Edit> newTurntable(const StartFigures& f);
[[nodiscard]] Expected<Edit> newTrunnion(const StartFigures& f);
[[nodiscard]] Expected<Edit> newLinkage(const StartFigures& f);
[[nodiscard]] Expected<Edit> newBelt(const StartFigures& f);

} // namespace slab::detail
