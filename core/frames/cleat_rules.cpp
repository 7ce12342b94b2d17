// The document's cleat rules as figures.
#include "core/frames/cleats.h"
#include <cmath>

namespace slab {

namespace {

class CleatReader {
public:
    CleatReader(const CleatRule& rule, std::size_t index, const Scope& scope, std::vector<Finding>& findings)
        : m_rule(rule), m_place("/cleats/" + std::to_string(index)), m_scope(scope), m_findings(findings) {}

    /// @param least  values below it are refused; `above` refuses that value too
    double read(const Text& text, const char* field, double otherwise, bool above) {
        if (text.find_first_not_of(" \t") == std::string::npos) return otherwise;
        const auto value = evaluate(text, m_scope, Space::build, Kind::length);
        if (!value)
            report(value.error().code, field, value.error().message, value.error().remedy);
        else if (!std::isfinite(value->value) || value->value < 0 || (above && value->value == 0))
            report("cleat-size", field, above ? "has to be above zero" : "cannot be below zero",
                   "Type a length such as 20 mm.");
        else
            return value->value;
        return otherwise;
    }
    [[nodiscard]] bool ok() const { return m_ok; }

private:
    void report(const std::string& code, const std::string& field, std::string message, std::string remedy) {
        while (!message.empty() && message.back() == '.') message.pop_back();
        m_findings.push_back({Severity::stop,
                              code,
                              "Cleat rule " + m_rule.name + ", " + field + ": " + message + ".",
                              {"cleat:" + m_rule.name, "document:" + m_place + "/" + field},
                              remedy.empty() ? "Correct the formula." : std::move(remedy),
                              {}});
        m_ok = false;
    }
    const CleatRule& m_rule;
    std::string m_place;
    const Scope& m_scope;
    std::vector<Finding>& m_findings;
    bool m_ok = true;
};

} // namespace

std::vector<CleatChoice> resolveCleats(const Project& project, const Scope& scope,
                                       std::vector<Finding>& findings) {
    std::vector<CleatChoice> all;
    for (std::size_t i = 0; i < project.cleats.size(); ++i) {
        const CleatRule& rule = project.cleats[i];
        CleatReader reader(rule, i, scope, findings);
        CleatChoice c;
        c.name = rule.name;
        c.a = rule.a;
        c.b = rule.b;
        c.block = rule.kind == "block";
        c.index = static_cast<int>(i);
        c.width = reader.read(rule.width, "width", c.width, true);
        c.depth = reader.read(rule.depth, "depth", c.width, true);
        c.endGap = reader.read(rule.end_gap, "end_gap", c.endGap, false);
        c.length = reader.read(rule.length, "length", c.length, true);
        c.spacing = reader.read(rule.spacing, "spacing", c.spacing, true);
        if (reader.ok()) all.push_back(std::move(c));
    }
    return all;
}

} // namespace slab
