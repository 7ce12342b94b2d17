#pragma once
// The build in two steps: what needs no openings, and the rest.
#include "core/plates/plate.h"
#include <memory>

namespace slab {

/// buildPlates() for a caller who learns of some openings late.
class PlateBuild {
public:
    /// @param body, rules  stay with the caller, who may add openings to the rules until finish()
    PlateBuild(const Body& body, const PlateRules& rules);
    ~PlateBuild();
    PlateBuild(const PlateBuild&) = delete;
    PlateBuild& operator=(const PlateBuild&) = delete;
    /// Joints, and who gets what of each skin: reads no openings.
    void share(const Job& job);
    /// Once, after share().
    [[nodiscard]] PlateSet finish(const Job& job);

private:
    struct State;
    std::unique_ptr<State> m_state;
};

} // namespace slab
