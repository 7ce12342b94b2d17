#include "core/document/reach.h"
#include "core/document/sides.h"
#include <algorithm>

namespace slab::detail {

std::vector<FormPlates> platesOf(const std::vector<Form>& forms) {
    std::vector<FormPlates> all;
    for (const Form& form : forms) {
        const auto sides = sidesOf(form);
        for (const std::string& hand : handNames(form)) {
            FormPlates plates{hand, {}};
            for (const std::string& side : sides) {
                plates.names.push_back(hand + "/" + side);
                plates.names.push_back(hand + "/" + side + "~1");
            }
            all.push_back(std::move(plates));
        }
    }
    return all;
}

bool reaches(const std::string& pattern, const FormPlates& plates) {
    return isOf(pattern, plates.form) ||
           std::any_of(plates.names.begin(), plates.names.end(),
                       [&](const std::string& name) { return matches(pattern, name); });
}

bool reaches(const std::string& pattern, const std::vector<FormPlates>& all) {
    return std::any_of(all.begin(), all.end(), [&](const FormPlates& one) { return reaches(pattern, one); });
}

bool isOf(const std::string& pattern, const std::string& form) {
    return pattern.size() > form.size() && pattern[form.size()] == '/' && pattern.starts_with(form);
}

std::vector<std::string> narrowed(const std::string& pattern, const FormPlates& plates) {
    if (isOf(pattern, plates.form)) return {pattern};
    const auto same = [&](const std::string& other) {
        return std::all_of(plates.names.begin(), plates.names.end(), [&](const std::string& name) {
            return matches(pattern, name) == matches(other, name);
        });
    };
    const std::size_t slash = pattern.find('/');
    std::vector<std::string> tries;
    if (slash != std::string::npos) tries.push_back(plates.form + pattern.substr(slash));
    tries.push_back(plates.form + "/*");
    if (pattern.starts_with('*')) tries.push_back(plates.form + "/" + pattern);
    for (std::string& one : tries)
        if (same(one)) return {std::move(one)};
    std::vector<std::string> single;
    for (const std::string& name : plates.names)
        if (matches(pattern, name)) single.push_back(name);
    return single;
}

std::vector<std::string> keptApart(const std::string& pattern, const std::vector<FormPlates>& own,
                                   const std::vector<FormPlates>& others) {
    if (!reaches(pattern, others)) return {pattern};
    std::vector<std::string> all;
    for (const FormPlates& plates : own)
        if (reaches(pattern, plates))
            for (std::string& one : narrowed(pattern, plates)) all.push_back(std::move(one));
    return all;
}

int rankIn(const std::vector<std::string>& order, const std::string& plate) {
    const auto at = std::find_if(order.begin(), order.end(),
                                 [&](const std::string& pattern) { return matches(pattern, plate); });
    return static_cast<int>(at - order.begin());
}

const std::string& sheetIn(const Materials& materials, const std::string& plate) {
    for (const PlateMaterial& m : materials.plates)
        if (matches(m.plates, plate)) return m.stock;
    return materials.fallback;
}

} // namespace slab::detail
