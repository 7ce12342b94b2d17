#include "app/arguments.h"
#include "core/units/units.h"
#include <algorithm>
#include <charconv>
#include <cmath>

namespace slab::app {

std::string Arguments::get(const std::string& name, const std::string& fallback) const {
    const auto at = options.find(name);
    return at == options.end() ? fallback : at->second;
}

Expected<Arguments> readArguments(const std::vector<std::string>& given,
                                  const std::vector<std::string>& switches,
                                  const std::vector<std::string>& valued) {
    const auto among = [](const std::vector<std::string>& list, const std::string& name) {
        return std::find(list.begin(), list.end(), name) != list.end();
    };
    Arguments result;
    for (std::size_t i = 0; i < given.size(); ++i) {
        const std::string& word = given[i];
        if (word.size() < 3 || word.compare(0, 2, "--") != 0) {
            if (word.size() > 1 && word[0] == '-') return fail("usage", "Unknown option " + word + ".");
            result.words.push_back(word);
            continue;
        }
        const std::size_t equals = word.find('=');
        const std::string name = word.substr(2, equals == std::string::npos ? equals : equals - 2);
        if (among(switches, name) && equals == std::string::npos) {
            result.options[name] = "";
        } else if (among(valued, name)) {
            if (equals == std::string::npos && i + 1 >= given.size())
                return fail("usage", "--" + name + " needs a value.");
            result.options[name] = equals == std::string::npos ? given[++i] : word.substr(equals + 1);
        } else {
            return fail("usage", "Unknown option --" + name + ".");
        }
    }
    return result;
}

Expected<double> numberOption(const Arguments& arguments, const std::string& name, double fallback,
                              double least, double most) {
    if (!arguments.has(name)) return fallback;
    const std::string text = arguments.get(name);
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value) || value < least ||
        value > most)
        return fail("usage", "--" + name + " needs a number from " +
                                 std::to_string(static_cast<long>(least)) + " to " +
                                 std::to_string(static_cast<long>(most)) + ", not \"" + text + "\".");
    return value;
}

Expected<double> scaleOption(const Arguments& arguments, const std::string& name, double fallback,
                             double least, double most) {
    if (!arguments.has(name)) return fallback;
    const auto scale = parseRatio(arguments.get(name));
    if (scale && *scale >= least && *scale <= most) return *scale;
    return fail("usage", "--" + name + " needs a scale, as 0.4, 2/5, 1:2.5 or 40 %, not \"" +
                             arguments.get(name) + "\".");
}

} // namespace slab::app
