#include "core/stock/stock.h"
#include <cmath>

namespace slab {

namespace {

constexpr double greatestSize = 1e5; ///< mm; longer than any sheet or roll sold (common practice)

/// Reads one sheet's formulas and collects what is wrong with them.
class SheetReader {
public:
    SheetReader(const SheetStock& text, std::size_t index, const Scope& scope, std::vector<Finding>& findings)
        : m_text(text), m_scope(scope), m_findings(findings),
          m_place("document:/stock/sheets/" + std::to_string(index)) {}

    /// Value of a formula; an error becomes a finding and the sheet is dropped.
    double value(const char* field, const Text& text, Kind kind) {
        const auto q = evaluate(text, m_scope, Space::build, kind);
        if (q) return q->value;
        Finding f = findingOf(q.error(), Severity::stop, about(field));
        f.message = "Sheet " + m_text.name + ", " + field + ": " + q.error().message;
        if (!q.error().where.empty()) f.message += " (" + q.error().where + ")";
        m_findings.push_back(std::move(f));
        m_sound = false;
        return 0;
    }
    void refuse(const char* code, const char* field, const std::string& what, std::string remedy) {
        report(Severity::stop, code, field, what, std::move(remedy));
        m_sound = false;
    }
    void report(Severity severity, const char* code, const char* field, const std::string& what,
                std::string remedy) {
        m_findings.push_back(
            {severity, code, "Sheet " + m_text.name + " " + what, about(field), std::move(remedy), {}});
    }
    [[nodiscard]] bool sound() const { return m_sound; }

private:
    [[nodiscard]] std::vector<std::string> about(const char* field) const {
        return {"stock:" + m_text.name, m_place + "/" + field};
    }
    const SheetStock& m_text;
    const Scope& m_scope;
    std::vector<Finding>& m_findings;
    std::string m_place;
    bool m_sound = true;
};

void checkSize(const Sheet& sheet, SheetReader& read) {
    if (!read.sound()) return;
    if (!(sheet.thickness > 0))
        read.refuse("stock-thickness", "thickness", "has no thickness above zero.",
                    "Measure the sheet's thickness and type it in.");
    if (!(sheet.width > 0) || !(sheet.length > 0))
        read.refuse("stock-size", "size", "has a width or length that is not above zero.",
                    "Measure both sides of the sheet and type them in.");
    else if (sheet.width > greatestSize || sheet.length > greatestSize)
        read.refuse("stock-size", "size", "is more than 100 m long or wide.",
                    "Check the unit behind the number.");
    else if (sheet.thickness > std::min(sheet.width, sheet.length))
        read.refuse("stock-thickness", "thickness", "is thicker than it is wide.",
                    "Check the unit behind the thickness.");
    if (sheet.trim < 0)
        read.refuse("stock-trim", "trim", "has a trim border below zero.",
                    "Type 0 or the width of the border.");
    else if (read.sound() && 2 * sheet.trim >= std::min(sheet.width, sheet.length))
        read.refuse("stock-trim", "trim", "is all trim border: nothing is left to cut.",
                    "Make the trim border less than half of the sheet's shorter side.");
}

/// Counts and prices cannot spoil an outline: a bad one is taken as 0 and the sheet stays.
void checkCounts(Sheet& sheet, double onHand, SheetReader& read) {
    const auto zeroed = [&](double& value, const char* code, const char* field, const char* word) {
        if (value >= 0) return;
        value = 0;
        read.report(Severity::look, code, field, std::string("has a ") + word + " below zero; 0 is used.",
                    std::string("Type 0 or the true ") + word + ".");
    };
    zeroed(sheet.price, "stock-price", "price", "price");
    zeroed(sheet.density, "stock-density", "density", "density");
    zeroed(onHand, "stock-on-hand", "on_hand", "count on hand");
    constexpr double most = 1e6;
    if (onHand > most) {
        read.report(Severity::look, "stock-on-hand", "on_hand",
                    "has more than a million sheets on hand; a million is used.",
                    "Type how many sheets are in the shed.");
        onHand = most;
    } else if (onHand != std::floor(onHand)) {
        read.report(Severity::look, "stock-on-hand", "on_hand",
                    "has a count on hand that is no whole number.",
                    "Type how many whole sheets are in the shed.");
        onHand = std::floor(onHand);
    }
    sheet.onHand = static_cast<int>(onHand);
}

void resolveSheet(const SheetStock& text, std::size_t index, const Scope& scope, StockSet& set) {
    SheetReader read(text, index, scope, set.findings);
    if (text.name.empty() || set.find(text.name)) {
        read.refuse("stock-name", "name",
                    text.name.empty() ? "has no name." : "has the same name as a sheet above it.",
                    "Give each sheet its own name.");
        return;
    }
    Sheet sheet;
    sheet.name = text.name;
    sheet.kind = text.kind;
    sheet.measured = text.measured;
    sheet.flip = text.flip;
    sheet.turns = text.turns;
    sheet.width = read.value("size", text.width, Kind::length);
    sheet.length = read.value("size", text.length, Kind::length);
    sheet.thickness = read.value("thickness", text.thickness, Kind::length);
    sheet.trim = read.value("trim", text.trim, Kind::length);
    sheet.price = read.value("price", text.price, Kind::number);
    sheet.density = read.value("density", text.density, Kind::number);
    const double onHand = read.value("on_hand", text.on_hand, Kind::number);
    checkSize(sheet, read);
    if (!read.sound()) return;
    checkCounts(sheet, onHand, read);
    if (!sheet.measured)
        read.report(Severity::note, "stock-nominal", "measured",
                    "is nominal: its thickness is not measured yet.",
                    "Measure thickness, width and length of the real sheet, type them in and tick measured.");
    set.sheets.push_back(std::move(sheet));
}

double resolveGap(const char* field, const Text& text, const Scope& scope, std::vector<Finding>& findings) {
    const std::vector<std::string> about = {std::string("document:/stock/") + field};
    const auto q = evaluate(text, scope, Space::build, Kind::length);
    if (!q) {
        Finding f = findingOf(q.error(), Severity::look, about);
        f.message = std::string("Stock ") + field + ": " + q.error().message + " 0 is used.";
        findings.push_back(std::move(f));
        return 0;
    }
    if (q->value >= 0) return q->value;
    findings.push_back({Severity::look,
                        std::string("stock-") + field,
                        std::string("The ") + field + " is below zero; 0 is used.",
                        about,
                        std::string("Type 0 or the true ") + field + ".",
                        {}});
    return 0;
}

} // namespace

const Sheet* StockSet::find(const std::string& name) const {
    for (const Sheet& s : sheets)
        if (s.name == name) return &s;
    return nullptr;
}

StockSet resolveStock(const Project& project, const Scope& scope) {
    StockSet set;
    set.currency = project.stock.currency;
    for (std::size_t i = 0; i < project.stock.sheets.size(); ++i)
        resolveSheet(project.stock.sheets[i], i, scope, set);
    set.kerf = resolveGap("kerf", project.stock.kerf, scope, set.findings);
    set.margin = resolveGap("margin", project.stock.margin, scope, set.findings);
    return set;
}

} // namespace slab
