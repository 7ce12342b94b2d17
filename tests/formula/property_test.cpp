// Random formulas against the same tree worked out in doubles.
#include "core/formula/formula.h"
#include "tests/geometry/seed.h"
#include <cmath>

namespace slab {
namespace {

/// A formula as text together with what it must give: value * scale^(length, if all literals are subject).
struct Tree {
    std::string text;
    double value = 0;
    int length = 0;
};

class Maker {
public:
    Maker(std::mt19937_64& random, double scale) : m_random(random), m_scale(scale) {}

    Tree make(int depth, int length) {
        if (depth == 0 || below(m_random, 6) == 0) return leaf(length);
        switch (below(m_random, 7)) {
        case 0:
            return binary(make(depth - 1, length), make(depth - 1, length), '+');
        case 1:
            return binary(make(depth - 1, length), make(depth - 1, length), '-');
        case 2:
            return binary(make(depth - 1, length), make(depth - 1, 0), '*');
        case 3:
            return binary(make(depth - 1, length + 1), make(depth - 1, 1), '/');
        case 4:
            return call(depth, length);
        case 5: {
            Tree t = make(depth - 1, length);
            return {"-(" + t.text + ")", -t.value, length};
        }
        default: {
            Tree t = make(depth - 1, length);
            return {"abs( " + t.text + " )", std::abs(t.value), length};
        }
        }
    }

private:
    std::mt19937_64& m_random;
    double m_scale;

    Tree leaf(int length) {
        if (length == 0) {
            const int n = 1 + below(m_random, 99);
            return {std::to_string(n), static_cast<double>(n), 0};
        }
        if (length > 1) return binary(leaf(1), leaf(length - 1), '*');
        const int n = 1 + below(m_random, 200);
        if (below(m_random, 4) == 0) return {"body", 1234.5 * m_scale, 1};
        if (below(m_random, 3) == 0)
            return {std::to_string(n) + "-3/8 in", (n * 8 + 3) * 254.0 / 80 * m_scale, 1};
        if (below(m_random, 2) == 0)
            return {std::to_string(n) + "' 5\"", (n * 12 + 5) * 254.0 / 10 * m_scale, 1};
        return {std::to_string(n) + " cm", n * 10.0 * m_scale, 1};
    }
    static Tree binary(const Tree& a, const Tree& b, char sign) {
        const double value = sign == '+'   ? a.value + b.value
                             : sign == '-' ? a.value - b.value
                             : sign == '*' ? a.value * b.value
                                           : a.value / b.value;
        const int length = sign == '*' ? a.length + b.length : sign == '/' ? a.length - b.length : a.length;
        return {"(" + a.text + ") " + sign + " (" + b.text + ")", value, length};
    }
    Tree call(int depth, int length) {
        const Tree a = make(depth - 1, length), b = make(depth - 1, length);
        if (below(m_random, 2) == 0)
            return {"max(" + a.text + ", " + b.text + ")", std::max(a.value, b.value), length};
        return {"min(" + a.text + ", " + b.text + ")", std::min(a.value, b.value), length};
    }
};

TEST(FormulaProperty, EqualsTheSameTreeInDoubles) {
    auto random = seeded(21);
    int finite = 0;
    for (int i = 0; i < 20000 / slowdown; ++i) {
        const double scale = uniform(random, 0.05, 2);
        Scope scope;
        scope.scale = scale;
        scope.values["body"] = {1234.5 * scale, Kind::length, true, false};
        const int length = below(random, 2);
        const Tree tree = Maker(random, scale).make(4, length);
        const auto q = evaluate(tree.text, scope, Space::subject, length == 1 ? Kind::length : Kind::number);
        if (!std::isfinite(tree.value)) continue; // also what was divided by 0 and then lost in a min()
        if (!q) {
            EXPECT_EQ(q.error().code, "not-finite") << tree.text << ": " << q.error().message;
            continue;
        }
        ++finite;
        EXPECT_NEAR(q->value, tree.value, 1e-9 * std::abs(tree.value)) << tree.text;
        EXPECT_FALSE(q->usesBuild) << tree.text;
    }
    EXPECT_GT(finite, 15000 / slowdown);
}

TEST(FormulaProperty, SubjectOnlyLengthsGrowWithTheScale) {
    auto random = seeded(22);
    for (int i = 0; i < 5000 / slowdown; ++i) {
        std::mt19937_64 same = random;
        const std::string text = Maker(random, 1).make(4, 1).text;
        ASSERT_EQ(text, Maker(same, 1).make(4, 1).text);
        const double scale = uniform(random, 0.05, 2);
        Scope one, other;
        other.scale = scale;
        one.values["body"] = {1234.5, Kind::length, true, false};
        other.values["body"] = {1234.5 * scale, Kind::length, true, false};
        const auto a = evaluate(text, one, Space::subject, Kind::length);
        const auto b = evaluate(text, other, Space::subject, Kind::length);
        if (!a || !b || std::abs(a->value) < 1e-6) continue;
        EXPECT_NEAR(b->value / a->value, scale, 1e-6 * scale) << text;
    }
}

TEST(FormulaProperty, MutatedTextNeverCrashes) {
    auto random = seeded(23);
    const std::string pieces[] = {"7' 10-1/2\"", "sin(", ")", "+",    "-",    "*", "/",      "^", "hull",
                                  "3 in",        "½",    "°", " ",    "1e9",  ",", "build(", ".", "'",
                                  "\"",          "''",   "-", "\xC2", "\xFF", "e", "max(",   "0"};
    for (int i = 0; i < 50000 / slowdown; ++i) {
        std::string text;
        for (int k = below(random, 12); k >= 0; --k)
            text += pieces[static_cast<std::size_t>(below(random, 26))];
        const auto q = evaluate(text, Scope{}, Space::subject, Kind::length);
        if (q) {
            EXPECT_TRUE(std::isfinite(q->value)) << text;
        } else {
            EXPECT_FALSE(q.error().message.empty());
        }
        EXPECT_EQ(renamed(text, "hull", "hull"), text);
        (void)namesIn(text);
        (void)withUnit(text, Unit::in);
        (void)parseLength(text, Unit::in);
        (void)parseAngle(text);
        (void)parseRatio(text);
    }
}

} // namespace
} // namespace slab
