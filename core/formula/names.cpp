#include "core/formula/formula.h"
#include "core/formula/parser.h"
#include <algorithm>

namespace slab {
namespace {

/// Calls `found(begin, end)` for every word that stands for a name.
template <class Found>
void eachName(std::string_view text, Found found) {
    std::size_t i = 0;
    while (i < text.size()) {
        if (beginsLiteral(text, i)) {
            const auto literal = scanLiteral(text, i, Unit::none);
            if (literal) {
                i = literal->end;
                continue;
            }
            for (++i; i < text.size() && (detail::letterOrDigit(text[i]) || text[i] == '.');) ++i;
            continue;
        }
        if (!detail::letterOnly(text[i])) {
            ++i;
            continue;
        }
        std::size_t end = i;
        while (end < text.size() && detail::letterOrDigit(text[end])) ++end;
        if (isValidName(text.substr(i, end - i))) found(i, end);
        i = end;
    }
}

} // namespace

bool isValidName(std::string_view name) {
    if (name.empty() || name.size() > 64 || !detail::letterOnly(name[0])) return false;
    if (!std::all_of(name.begin(), name.end(), detail::letterOrDigit)) return false;
    if (name == "pi" || name == "build" || name == "subject" || detail::isFunction(name)) return false;
    std::size_t end = 0;
    return !(unitAt(name, 0, end) && end == name.size());
}

std::vector<std::string> namesIn(std::string_view text) {
    std::vector<std::string> names;
    eachName(text, [&](std::size_t begin, std::size_t end) {
        std::string name(text.substr(begin, end - begin));
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(std::move(name));
    });
    return names;
}

std::string renamed(std::string_view text, std::string_view from, std::string_view to) {
    std::string out;
    std::size_t done = 0;
    eachName(text, [&](std::size_t begin, std::size_t end) {
        if (text.substr(begin, end - begin) != from) return;
        out += text.substr(done, begin - done);
        out += to;
        done = end;
    });
    return out += text.substr(done);
}

std::string withUnit(std::string_view text, Unit unit) {
    const std::string same(text);
    const std::string_view name = unitName(unit);
    std::size_t at = skipBlanks(text, 0);
    if (at < text.size() && (text[at] == '-' || text[at] == '+')) at = skipBlanks(text, at + 1);
    if (name.empty() || !beginsLiteral(text, at)) return same;
    const auto literal = scanLiteral(text, at, Unit::none);
    if (!literal || literal->unit != Unit::none || skipBlanks(text, literal->end) < text.size()) return same;
    return same.substr(0, literal->end) + " " + std::string(name);
}

} // namespace slab
