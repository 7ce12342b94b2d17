// A mechanism chosen in a view is found in its table, and the other way round.
#include "core/board/starts.h"
#include "core/evaluate/evaluate.h"
#include "tests/mechanisms/boat.h"
#include "tests/ui_shell/fakes.h"
#include "ui/chosen/mechanism_deeds.h"
#include "ui/tables/table_tree.h"
#include "ui/window/left_column.h"
#include <QApplication>

namespace slab::ui {
namespace {

struct Rows {
    Session session{Engine::real()};
    LeftColumn tables{&session};
    TableSection* moving = nullptr;

    Rows() {
        Project p = *startProject("box", "mm", "none");
        Turntable lamp = lampTable();
        lamp.at.z = "1 m";
        p.mechanisms.turntables = {lamp};
        session.replace(p);
        EXPECT_TRUE(session.waitUntilAtRest(60000));
        for (TableSection* section : tables.sections())
            if (section->spec().name == "Mechanisms") moving = section;
        tables.resize(400, 900);
        tables.show();
        QApplication::processEvents();
    }
    [[nodiscard]] std::string current() const {
        const QModelIndex at = moving->tree()->currentIndex();
        const Node* node = at.isValid() ? moving->model()->nodeOf(at) : nullptr;
        return node ? node->pointer() : std::string();
    }
};

TEST(MechanismRows, APartChosenIn3DMarksItsRow) {
    Rows r;
    ASSERT_TRUE(r.moving);
    Selection drum;
    drum.solid = "lamp/drum";
    r.session.select(drum);
    EXPECT_EQ(r.current(), "/mechanisms/turntables/0");
    EXPECT_EQ(chosenMechanismName(r.session), "lamp");
}

TEST(MechanismRows, ARowChoosesItInEveryView) {
    Rows r;
    ASSERT_TRUE(r.moving);
    r.moving->setOpen(true);
    r.moving->tree()->setFocus();
    QApplication::processEvents();
    r.moving->tree()->setCurrentIndex(r.moving->model()->find("/mechanisms/turntables/0/diameter"));
    EXPECT_EQ(r.session.selection().part, "/mechanisms/turntables/0");
    EXPECT_TRUE(r.session.selection().solid.startsWith("lamp/")) << "what is lit in 3D";
}

} // namespace
} // namespace slab::ui
