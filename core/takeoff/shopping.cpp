#include "core/takeoff/takeoff.h"
#include <array>
#include <charconv>

namespace slab {
namespace {

/// A field as RFC 4180 section 2 wants it: quoted when it holds a comma, a quote or a line break.
std::string field(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    return out + '"';
}

/// Two decimals and a point, whatever the locale.
std::string money(double value) {
    std::array<char, 64> buffer{};
    const auto [end, error] =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, 2);
    return error == std::errc() ? std::string(buffer.data(), end) : std::string();
}

} // namespace

std::string shoppingListCsv(const Totals& totals, const StockSet& stock, const UnitStyle& units) {
    const std::string coin = stock.currency.empty() ? "" : " (" + stock.currency + ")";
    std::string out =
        "Item,Size,Need,On hand,Buy," + field("Unit price" + coin) + "," + field("Cost" + coin) + "\r\n";
    for (const StockLine& line : totals.stock) {
        std::string size;
        if (const Sheet* sheet = stock.find(line.stock))
            size = printLength(sheet->width, units) + " x " + printLength(sheet->length, units) + " x " +
                   printLength(sheet->thickness, units);
        out += field(line.stock) + "," + field(size) + "," + std::to_string(line.used) + "," +
               std::to_string(line.onHand) + "," + std::to_string(line.buy) + "," + money(line.price) + "," +
               money(line.cost) + "\r\n";
    }
    return out;
}

} // namespace slab
