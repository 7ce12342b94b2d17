#pragma once
// Formulas of donor and people read; what is wrong with them is told in the same words everywhere.
#include "core/base/finding.h"
#include "core/document/project.h"
#include <vector>

namespace slab {

class Reading {
public:
    Reading(const Scope& scope, std::vector<Finding>& findings) : m_scope(scope), m_findings(findings) {}

    /// Value of a formula in build size; empty text is `otherwise`, an error becomes a finding and gives
    /// `otherwise` too.
    /// @param place  in the document: "/rider/shift_x";  @param what  in words: "Rider shift x"
    /// @param sound  made false by an error
    double read(const Text& text, Kind kind, const std::string& place, const std::string& what,
                double otherwise, bool* sound = nullptr);
    void report(Severity severity, const char* code, std::string message, std::vector<std::string> about,
                std::string remedy);
    [[nodiscard]] const Scope& scope() const { return m_scope; }

private:
    const Scope& m_scope;
    std::vector<Finding>& m_findings;
};

} // namespace slab
