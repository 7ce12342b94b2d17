// The document's cleat rules as figures.
#include "core/frames/cleats.h"
#include <cmath>

namespace slab {

namespace {

class CleatReader {
public:
    CleatReader(const CleatRule& rule, std::size_t index, const Scope& scope, std::vector<Finding>& findings)
        : m_rule(rule), m_place("/cleats/" + std::to_string(index)), m_scope(scope), m_findings(findings) {}

    /// @param above  zero is refused too
    double read(const Text& text, const char* field, double otherwise, bool above) {
        return read(text, field, otherwise, above, Kind::length);
    }
    double number(const Text& text, const char* field, double otherwise) {
        return read(text, field, otherwise, false, Kind::number);
    }
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
    [[nodiscard]] bool ok() const { return m_ok; }
    [[nodiscard]] static bool given(const Text& text) {
        return text.find_first_not_of(" \t") != std::string::npos;
    }

private:
    double read(const Text& text, const char* field, double otherwise, bool above, Kind kind) {
        if (!given(text)) return otherwise;
        const auto value = evaluate(text, m_scope, Space::build, kind);
        if (!value)
            report(value.error().code, field, value.error().message, value.error().remedy);
        else if (!std::isfinite(value->value) || value->value < 0 || (above && value->value == 0))
            report("cleat-size", field, above ? "has to be above zero" : "cannot be below zero",
                   kind == Kind::length ? "Type a length such as 20 mm." : "Type a number such as 450.");
        else
            return value->value;
        return otherwise;
    }
    const CleatRule& m_rule;
    std::string m_place;
    const Scope& m_scope;
    std::vector<Finding>& m_findings;
    bool m_ok = true;
};

/// A strip of a sheet is as deep as the sheet is thick and no longer than the sheet.
void takeSheet(CleatChoice& c, const CleatRule& rule, const StockSet& stock, CleatReader& reader) {
    const Sheet* sheet = stock.find(rule.stock);
    if (!sheet)
        return reader.report("cleat-stock", "stock", "there is no sheet named \"" + rule.stock + "\"",
                             "Choose one of the sheets under stock, or empty it for timber.");
    constexpr double alike = 0.05; // mm
    if (CleatReader::given(rule.depth) && std::abs(c.depth - sheet->thickness) > alike)
        reader.report("cleat-size", "depth", "a strip of " + rule.stock + " is as deep as the sheet is thick",
                      "Empty the depth, or empty the sheet for timber.");
    c.depth = sheet->thickness;
    c.barLength = std::max(sheet->width, sheet->length) - 2 * sheet->trim;
    c.density = 0;
}

/// mm; shorter ones would make more pieces than anybody glues
constexpr double shortestBar = 100, shortestBlock = 5;

} // namespace

std::vector<CleatChoice> resolveCleats(const Project& project, const Scope& scope, const StockSet& stock,
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
        c.stock = rule.stock;
        c.index = static_cast<int>(i);
        c.width = reader.read(rule.width, "width", c.width, true);
        c.depth = reader.read(rule.depth, "depth", rule.stock.empty() ? c.width : c.depth, true);
        c.endGap = reader.read(rule.end_gap, "end_gap", c.endGap, false);
        c.length = reader.read(rule.length, "length", c.length, true);
        c.spacing = reader.read(rule.spacing, "spacing", c.spacing, true);
        c.barLength = reader.read(rule.bar_length, "bar_length", c.barLength, true);
        c.price = reader.number(rule.price, "price", c.price);
        c.density = reader.number(rule.density, "density", c.density);
        if (!rule.stock.empty()) takeSheet(c, rule, stock, reader);
        if (rule.stock.empty() && c.barLength < shortestBar)
            reader.report("cleat-size", "bar_length", "timber is not sold in such short lengths",
                          "Type the length in which it is sold, such as 2.4 m.");
        if (c.block && c.length < shortestBlock)
            reader.report("cleat-size", "length", "a block that short holds nothing",
                          "Type a length such as 60 mm.");
        if (c.block && c.length > c.barLength)
            reader.report("cleat-size", "length", "a block cannot be longer than what it is cut from",
                          "Make the blocks shorter.");
        if (reader.ok()) all.push_back(std::move(c));
    }
    return all;
}

} // namespace slab
