#include "core/donor/reading.h"
#include <cmath>

namespace slab {

double Reading::read(const Text& text, Kind kind, const std::string& place, const std::string& what,
                     double otherwise, bool* sound) {
    constexpr double greatestSize = 1e5; // mm
    if (text.empty()) return otherwise;
    const auto q = evaluate(text, m_scope, Space::build, kind);
    if (q && (kind != Kind::length || std::abs(q->value) <= greatestSize)) return q->value;
    if (sound) *sound = false;
    Error e = q ? Error{"donor-range", "It is more than 100 m.", {}, "Check the unit behind the number."}
                : q.error();
    Finding f = findingOf(e, Severity::stop, {"document:" + place});
    f.message = what + ": " + e.message + (e.where.empty() ? "" : " (" + e.where + ")");
    m_findings.push_back(std::move(f));
    return otherwise;
}

void Reading::report(Severity severity, const char* code, std::string message, std::vector<std::string> about,
                     std::string remedy) {
    m_findings.push_back({severity, code, std::move(message), std::move(about), std::move(remedy), {}});
}

} // namespace slab
