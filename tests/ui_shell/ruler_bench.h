#pragma once
// The ruler alone on a sample that is at rest.
#include "tests/ui_shell/fakes.h"
#include "ui/ruler/rule_strip.h"
#include "ui/ruler/scale_ruler.h"
#include <QCoreApplication>
#include <gtest/gtest.h>

namespace slab::ui {

struct RulerBench {
    Session session{test::quickEngine()};
    ScaleRuler ruler{&session};
    RuleStrip* rule = ruler.rule();

    RulerBench() {
        session.replace(test::sample("moon-crawler"));
        EXPECT_TRUE(session.waitUntilAtRest(20000));
        ruler.resize(1200, 160);
        ruler.show();
        QCoreApplication::processEvents();
    }
    [[nodiscard]] QPoint at(double scale) const {
        return {static_cast<int>(std::lround(rule->xOf(scale))), 45};
    }
    [[nodiscard]] double scale() const { return parseRatio(session.project().scale).value_or(0); }
};

} // namespace slab::ui
