#pragma once
#include "core/base/error.h"
#include <array>
#include <optional>
#include <string>
#include <vector>

namespace slab {

enum class Severity {
    note, ///< done on the builder's behalf, or worth knowing
    look, ///< needs a decision
    stop  ///< cannot be built like this
};

/// One entry of the punch list.
///
/// `about` names what it concerns as "kind:name": "plate:hull/port", "panel:…", "edge:hull/port|hull/bow",
/// "form:hull", "dimension:exit_width", "solid:donor/seat", "opening:exit", "stock:xps_13", "frame:…",
/// "module:…", "mechanism:…", "picture:…", "line:…", "document:/forms/0".
struct Finding {
    Severity severity = Severity::look;
    std::string code;    ///< stable kebab-case key, one per kind of trouble
    std::string message; ///< one line: what and where
    std::vector<std::string> about;
    std::string remedy;                      ///< one line: what to do
    std::optional<std::array<double, 3>> at; ///< mm, body axes at build size
    bool operator==(const Finding&) const = default;
};

[[nodiscard]] inline const char* severityName(Severity s) {
    return s == Severity::note ? "note" : s == Severity::look ? "look" : "stop";
}

/// A failed stage as a punch-list entry; `about` is taken from Error::where unless given.
[[nodiscard]] inline Finding findingOf(const Error& e, Severity s = Severity::stop,
                                       std::vector<std::string> about = {}) {
    if (about.empty() && !e.where.empty()) about.push_back("document:" + e.where);
    return Finding{s, e.code, e.message, std::move(about), e.remedy, {}};
}

} // namespace slab
