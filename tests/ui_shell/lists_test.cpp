// Lists by real mouse events: the punch list, the plates, the dialog for pictures.
#include "core/mechanisms/mechanisms.h"
#include "tests/ui_shell/fakes.h"
#include "ui/board/drafting_view.h"
#include "ui/findings/findings_card.h"
#include "ui/findings/findings_model.h"
#include "ui/tables/plates_model.h"
#include "ui/tables/plates_table.h"
#include "ui/window/document_file.h"
#include "ui/window/drawing_dialog.h"
#include "ui/window/main_window.h"
#include <QFileDialog>
#include <QListView>
#include <QMenu>
#include <QScrollBar>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>
#include <QTimer>
#include <QToolButton>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

/// An engine whose evaluations are changed by hand.
template <class Change>
Engine engineWith(const Change& change) {
    Engine engine = test::quickEngine();
    engine.evaluate = [change](const Project& p, Effort, std::uint64_t revision, const Job&) {
        Evaluation e = test::scopeOnly(p, revision);
        change(e);
        return e;
    };
    return engine;
}

void expectNoGaps(QListView& list, const char* when) {
    const QAbstractItemModel& model = *list.model();
    for (int i = 0; i + 1 < model.rowCount(); ++i) {
        const QRect one = list.visualRect(model.index(i, 0)), next = list.visualRect(model.index(i + 1, 0));
        EXPECT_EQ(next.top(), one.bottom() + 1) << when << ", after entry " << i;
    }
}

TEST(PunchList, EntriesLieOneBelowTheOtherAtEveryWidth) {
    Session session(engineWith([](Evaluation& e) {
        for (int i = 0; i < 30; ++i)
            e.findings.push_back({Severity::look,
                                  "fit-tight",
                                  "On the port side: hull/port, 12 mm to donor/armrest; wanted 20 mm, and " +
                                      std::to_string(i) + " others come as near as that",
                                  {"plate:hull/port"},
                                  "Move the donor by 8 mm to starboard, or make the hull wider by 16 mm.",
                                  {}});
    }));
    session.replace({});
    FindingsCard card(&session);
    card.resize(300, 500);
    card.show();
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    QCoreApplication::processEvents();
    ASSERT_EQ(card.list()->model()->rowCount(), 30);
    expectNoGaps(*card.list(), "at first");
    for (const QSize& size : {QSize(560, 500), QSize(220, 500), QSize(340, 1400), QSize(212, 1400)}) {
        card.resize(size);
        QCoreApplication::processEvents();
        expectNoGaps(*card.list(), std::to_string(size.width()).c_str());
        const QListView& list = *card.list();
        const QRect last = list.visualRect(list.model()->index(29, 0));
        const int whole = last.bottom() + 1 + list.verticalScrollBar()->value();
        EXPECT_NEAR(whole, list.verticalScrollBar()->maximum() + list.viewport()->height(), 2)
            << "all of it can be scrolled to at " << size.width();
    }
}

TEST(PunchList, OfAnotherDocumentNothingIsCountedAnyMore) {
    Session session(engineWith([](Evaluation& e) {
        e.findings.push_back({Severity::stop, "fit-hits", "It hits.", {"plate:hull/port"}, "Move it.", {}});
    }));
    session.replace({});
    FindingsCard card(&session);
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    ASSERT_EQ(card.count(Severity::stop), 1);
    int told = 0;
    QObject::connect(&card, &FindingsCard::counted, &card, [&] { told += card.count(Severity::stop) == 0; });
    Project other;
    other.title = "other";
    session.replace(other);
    EXPECT_EQ(card.count(Severity::stop), 0) << "before anything is known of the new one";
    EXPECT_GE(told, 1);
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    EXPECT_EQ(card.count(Severity::stop), 1);
}

/// A tube, a drum that a round form stands for, and a hull's plate.
void addMonitor(Evaluation& e) {
    auto set = std::make_shared<MechanismSet>();
    set->solids.push_back(
        {"monitor", "monitor/sweep", makeCylinder({0, 0, 500}, {1900, 0, 500}, 900), -1, true, 0, false});
    set->solids.push_back({"monitor", "monitor/tube", makeCylinder({900, 0, 500}, {1900, 0, 500}, 150)});
    set->ownForms.emplace_back("table", "drum");
    e.mechanisms = set;
    const auto about = [&](std::vector<std::string> names) {
        e.findings.push_back(
            {Severity::stop, "sweep-meets", "It meets something.", std::move(names), "Lower it.", {}});
    };
    about({"mechanism:monitor", "solid:monitor/tube"});
    about({"mechanism:monitor", "solid:monitor/sweep"});
    about({"mechanism:table"});
    about({"mechanism:monitor"});
    about({"solid:rider/torso", "mechanism:monitor"});
}

TEST(PunchList, AMechanismsSolidIsChosenWhereItIsDrawn) {
    Evaluation e;
    addMonitor(e);
    EXPECT_EQ(placeOf(e.findings[0], e).solid, "monitor/tube");
    EXPECT_EQ(placeOf(e.findings[1], e).solid, "monitor/tube") << "the room that it sweeps is not drawn";
    EXPECT_EQ(placeOf(e.findings[2], e).form, "drum");
    EXPECT_EQ(placeOf(e.findings[3], e).solid, "monitor/tube");
    EXPECT_EQ(placeOf(e.findings[4], e).solid, "rider/torso");
}

TEST(PunchList, TheMenuOverTheBoardChoosesAMechanismsSolid) {
    MainWindow window(std::make_unique<Session>(engineWith(addMonitor)));
    window.file()->take(test::sample("moon-crawler"), {}, true);
    ASSERT_TRUE(window.session()->waitUntilAtRest(20000));
    window.show();
    window.fill(3);
    QCoreApplication::processEvents();
    QToolButton* stops = nullptr;
    for (auto* button : window.findChildren<QToolButton*>())
        if (button->accessibleName() == "What stops") stops = button;
    ASSERT_TRUE(stops && stops->isVisible());
    bool seen = false;
    QTimer::singleShot(0, [&] {
        auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        if (!menu) return;
        seen = true;
        menu->actions().at(3)->trigger(); // it names the mechanism alone
        menu->close();
    });
    QTest::mouseClick(stops, Qt::LeftButton);
    ASSERT_TRUE(seen);
    EXPECT_EQ(window.session()->selection().solid, "monitor/tube");
    EXPECT_EQ(window.filled(), 3) << "the board stays";
}

TEST(PlateList, OnlyTheBoxTicks) {
    Session session(engineWith([](Evaluation& e) {
        auto body = std::make_shared<Body>();
        for (const char* name : {"hull/port", "hull/deck"}) {
            SkinFace& face = body->skin.faces.emplace_back();
            face.name = name;
            face.form = "hull";
        }
        e.body = body;
    }));
    session.replace(test::sample("moon-crawler"));
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    PlatesTable table(&session);
    table.resize(360, 200);
    table.show();
    QCoreApplication::processEvents();
    ASSERT_EQ(table.plates()->rowCount(), 2);
    const QModelIndex name = table.plates()->index(1, PlatesModel::plate);
    const QRect cell = table.visualRect(name);
    const Project before = session.project();
    for (const int right : {30, 60, cell.width() - 4}) {
        QTest::mouseClick(table.viewport(), Qt::LeftButton, {}, {cell.left() + right, cell.center().y()});
        QTest::mouseDClick(table.viewport(), Qt::LeftButton, {}, {cell.left() + right, cell.center().y()});
        EXPECT_EQ(session.project(), before) << right << " px into the name";
        EXPECT_EQ(session.selection().plate, "hull/deck");
    }
    QTest::mouseClick(table.viewport(), Qt::LeftButton, {}, {cell.left() + 10, cell.center().y()});
    EXPECT_NE(session.project(), before) << "the box";
    EXPECT_EQ(name.data(Qt::CheckStateRole).toInt(), Qt::Unchecked);
    QTest::mouseClick(table.viewport(), Qt::LeftButton, {}, {cell.left() + 10, cell.center().y()});
    EXPECT_EQ(name.data(Qt::CheckStateRole).toInt(), Qt::Checked);
}

/// Answers the dialog that comes up next; @return the folder that it opened in
QString answered(MainWindow& window, const QString& file) {
    QString opened;
    QTimer::singleShot(0, [&] {
        auto* dialog = qobject_cast<QFileDialog*>(QApplication::activeModalWidget());
        if (!dialog) return;
        opened = dialog->directory().absolutePath();
        if (file.isEmpty()) return dialog->reject();
        dialog->selectFile(file);
        dialog->setDirectory(QFileInfo(file).absolutePath());
        QMetaObject::invokeMethod(dialog, "accept");
    });
    window.addPicture();
    return opened;
}

TEST(PictureDialog, OpensWhereTheLastPictureWas) {
    QSettings().clear();
    const QTemporaryDir documents, photos;
    Project project = test::sample("moon-crawler");
    QImage image(80, 60, QImage::Format_RGB32);
    image.fill(Qt::white);
    const QString photo = photos.filePath("side.png");
    ASSERT_TRUE(image.save(photo));
    MainWindow window(std::make_unique<Session>(test::quickEngine()));
    window.file()->take(project, documents.filePath("crawler.slabside.json"), true);
    ASSERT_TRUE(window.session()->waitUntilAtRest(20000));
    window.show();
    EXPECT_EQ(answered(window, {}), QFileInfo(documents.path()).absoluteFilePath())
        << "the document's folder";
    EXPECT_EQ(answered(window, photo), QFileInfo(documents.path()).absoluteFilePath()) << "none was chosen";
    ASSERT_EQ(window.session()->project().pictures.size(), project.pictures.size() + 1);
    EXPECT_EQ(answered(window, {}), QFileInfo(photos.path()).absoluteFilePath())
        << "the last picture's folder";
    EXPECT_EQ(drawingFolder({}), QFileInfo(photos.path()).absoluteFilePath()) << "in the next window as well";
    QSettings().clear();
}

} // namespace
} // namespace slab::ui
