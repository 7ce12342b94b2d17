// What "Add" makes fits the body that it is added to.
#include "core/board/starts.h"
#include "core/document/file.h"
#include "core/evaluate/evaluate.h"
#include "tests/ui_shell/fakes.h"
#include "ui/tables/new_part.h"
#include <QTest>

namespace slab::ui {
namespace {

TEST(NewPart, ATurntableLiesOnTheDeckOfEveryStart) {
    for (const StartKind& kind : startKinds())
        for (const char* units : {"mm", "in"}) {
            auto project = startProject(kind.kind, units, "powered_chair");
            ASSERT_TRUE(project) << kind.kind;
            Session session(Engine::real());
            session.replace(*project);
            ASSERT_TRUE(QTest::qWaitFor([&] { return session.evaluation().body != nullptr; }, 20000));
            const auto tree = treeOf(session.project());
            const Node* list = nodeAt(*tree, "/mechanisms/turntables");
            ASSERT_TRUE(list);
            auto json = nlohmann::ordered_json::parse(writeProject(session.project()));
            json["mechanisms"]["turntables"] = nlohmann::ordered_json::array({newPart(session, *list)});
            const auto with = readProject(json.dump());
            ASSERT_TRUE(with) << kind.kind;
            const Evaluation e = Evaluator().evaluate(*with, Effort::live);
            for (const Finding& f : e.findings) {
                EXPECT_NE(f.code, "turntable-no-deck") << kind.kind << units << ": " << f.message;
                EXPECT_NE(f.code, "turntable-seat-uneven") << kind.kind << units << ": " << f.message;
            }
        }
}

} // namespace
} // namespace slab::ui
