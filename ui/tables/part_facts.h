#pragma once
#include "ui/session/session.h"
#include <QString>

namespace slab::ui {

/// Something that follows from an entry of the document and is worth reading beside what was typed.
struct PartFact {
    std::string pointer; ///< of the entry: "/modules/0"
    std::string name;    ///< that the entry had then
    std::string key;     ///< stable within the entry
    QString words, value, tip;
    bool operator==(const PartFact&) const = default;
};

/// What mechanisms and modules come to: ring sizes and plays, the nearest pose, size and mass, what passes
/// which door. In the order of the document's entries; empty unless the evaluation went as far as the sweeps.
[[nodiscard]] std::vector<PartFact> partFacts(const Session& session);
/// The one figure of an entry that its closed row shows: a module's mass, a mechanism's least gap.
[[nodiscard]] QString partSummary(const Session& session, const std::string& owner, const std::string& name);

} // namespace slab::ui
