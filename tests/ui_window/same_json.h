#pragma once
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <string>

namespace slab::ui::test {

/// Figures within 1e-6, everything else letter by letter.
inline void expectSame(const nlohmann::json& a, const nlohmann::json& b, const std::string& where) {
    ASSERT_EQ(a.type_name(), std::string(b.type_name())) << where << "\n" << a << "\n" << b;
    if (a.is_number()) {
        EXPECT_NEAR(a.get<double>(), b.get<double>(), 1e-6) << where;
    } else if (a.is_array()) {
        ASSERT_EQ(a.size(), b.size()) << where << "\n" << a << "\n" << b;
        for (std::size_t i = 0; i < a.size(); ++i) expectSame(a[i], b[i], where + "/" + std::to_string(i));
    } else if (a.is_object()) {
        for (const auto& [name, value] : a.items()) {
            if (b.contains(name))
                expectSame(value, b.at(name), where + "/" + name);
            else
                ADD_FAILURE() << "only in the first: " << where << "/" << name << " " << value;
        }
        for (const auto& [name, value] : b.items())
            if (!a.contains(name))
                ADD_FAILURE() << "only in the second: " << where << "/" << name << " " << value;
    } else {
        EXPECT_EQ(a, b) << where;
    }
}

} // namespace slab::ui::test
