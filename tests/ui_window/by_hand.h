#pragma once
// A body made from an empty document in the window alone, in steps; see by_hand_test.cpp.
#include "tests/ui_window/bench.h"
#include "tests/ui_window/hand.h"
#include "ui/window/main_window.h"
#include <QTest>
#include <memory>

namespace slab::ui::test {

/// A builder at the window, step by step.
class ByHand : public WindowTest {
public:
    void SetUp() override {
        open(crawler); // millimetres
        m_hand = std::make_unique<Hand>(window());
    }
    void TearDown() override {
        if (window().filled() >= 0) window().fill(-1);
        session().markSaved();
    }
    Hand& hand() { return *m_hand; }
    QString here(const char* name) const { return folder() + "/" + name; }

    void onBoard() {
        if (window().filled() != 3) hand().keys("F8");
        QTest::qWait(120); // the sheet takes its room
        hand().boardKey(Qt::Key_F);
    }
    void onTables() {
        if (window().filled() >= 0) hand().keys("F4");
        QTest::qWait(20);
    }
    /// Begins a form on the board, its pointer in a view, and types what it is called and how large it is.
    void begin(Qt::Key tool, BoardView view, const QList<QStringList>& figures) {
        hand().boardKey(tool);
        hand().point(view, 300, view == BoardView::side ? 500 : 0);
        for (const QStringList& one : figures) hand().type(one[0], one[1]);
    }

    /// Where the round handle of a form's curve lies on the sheet.
    Vec2 handleOf(const std::string& form) const;

    void namesAndSizes();
    void stock();
    void hull();
    void house();
    void lampAndLocker();
    void finAndFunnel();
    void finsCurve();
    void materialsAndJoints();
    void openings();
    void woodwork();
    void winch();
    void belt();
    void linkage();
    void pictureUnderIt();
    void dimensionLine();
    void rider();
    void changesOfMind();
    void saveAndReopen();
    void takeClickErrors(Project& file);
    void mastFromElsewhere();

private:
    std::unique_ptr<Hand> m_hand;
};

} // namespace slab::ui::test
