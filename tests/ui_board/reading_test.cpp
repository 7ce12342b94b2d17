// Sizes of the donor taken over from a photo, and pictures of a document that moves to another folder.
#include "core/donor/donor.h"
#include "tests/ui_board/board_bench.h"
#include "ui/board/picture_layer.h"
#include "ui/board/picture_strip.h"
#include "ui/board/reading_strip.h"
#include "ui/window/document_file.h"
#include <QCheckBox>
#include <QComboBox>
#include <QDir>
#include <QImage>
#include <QSignalSpy>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QToolButton>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

using test::BoardBench;

class DonorPhoto : public testing::Test {
protected:
    QTemporaryDir folder;
    void SetUp() override {
        QStandardPaths::setTestModeEnabled(true);
        QImage image(800, 600, QImage::Format_RGB32);
        image.fill(Qt::white);
        ASSERT_TRUE(image.save(folder.filePath("chair.png")));
    }
    /// A photo with a sheet of two by one and a half metres in it, taken at an angle.
    static Project photo() {
        Project project;
        project.title = "donor";
        project.scale = "1/2";
        project.donor.kind = "powered_chair";
        Picture p;
        p.name = "chair";
        p.file = "chair.png";
        p.corners = {
            {{}, "200", "450", {}}, {{}, "620", "500", {}}, {{}, "600", "120", {}}, {{}, "220", "180", {}}};
        p.rectangle_width = "2000 mm";
        p.rectangle_height = "1500 mm";
        project.pictures.push_back(p);
        return project;
    }
    static void choose(QComboBox* box, const QString& data) {
        const int index = box->findData(data);
        ASSERT_GE(index, 0) << data.toStdString();
        box->setCurrentIndex(index);
        Q_EMIT box->activated(index);
    }
    static std::string change(const Project& project, const std::string& size) {
        for (const NamedText& c : project.donor.changes)
            if (c.name == size) return c.value;
        return {};
    }
};

TEST_F(DonorPhoto, ALineDrawnOnItBecomesADonorSizeWithItsUncertainty) {
    BoardBench b(photo());
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    const DonorSize size = donorSizes("powered_chair").front();
    b.desk().choose({BoardView::side, {}, {}, -1, 0});
    for (auto* button : b.view->pictureStrip()->findChildren<QToolButton*>())
        if (button->text() == "Measure on it") QTest::mouseClick(button, Qt::LeftButton);
    const auto place = [&](double x, double y) { return toPlane(b.canvas().pictures().at(0)->fix, {x, y}); };
    b.click(BoardView::side, place(300, 400));
    b.click(BoardView::side, place(500, 420));
    ASSERT_EQ(b.project().pictures[0].lines.size(), 1U);
    ASSERT_TRUE(b.view->readingStrip()->serves()) << "the line asks what it is";
    EXPECT_FALSE(b.view->readingStrip()->takeButton()->isEnabled());
    choose(b.view->readingStrip()->sizes(), QString::fromStdString(size.name));
    EXPECT_EQ(b.project().pictures[0].lines[0].size, size.name);
    EXPECT_EQ(b.project().pictures[0].space, Space::build) << "a donor keeps its size";
    const auto& sizes = b.canvas().pictures().placed().sizes;
    ASSERT_EQ(sizes.size(), 1U);
    EXPECT_GT(sizes[0].value.error, 0);
    EXPECT_TRUE(b.view->readingStrip()->words().contains("±"));
    const Measured measured = sizes[0].value;
    b.key(Qt::Key_Escape);
    b.key(Qt::Key_Escape);
    ASSERT_EQ(b.canvas().tool().words().contains("line"), false) << "back to choosing";
    b.desk().choose({BoardView::side, {}, {}, -1, 0, 0});
    const Project before = b.project();
    QTest::mouseClick(b.view->readingStrip()->takeButton(), Qt::LeftButton);
    const auto value = evaluate(change(b.project(), size.name), b.desk().scope(), Space::build, Kind::length);
    ASSERT_TRUE(value) << change(b.project(), size.name);
    EXPECT_NEAR(value->value, measured.value, measured.error) << "rounded to about its uncertainty";
    EXPECT_TRUE(b.project().dimensions.empty());
    b.session->undo();
    EXPECT_EQ(b.project(), before) << "one step";
    b.view->readingStrip()->widen()->setChecked(true);
    QTest::mouseClick(b.view->readingStrip()->takeButton(), Qt::LeftButton);
    ASSERT_EQ(b.project().dimensions.size(), 2U) << "the uncertainty, and the usual clearance by name";
    EXPECT_EQ(b.project().dimensions[1].name, "usual_clearance");
    const auto added =
        evaluate(b.project().dimensions[0].value, b.desk().scope(), Space::build, Kind::length);
    ASSERT_TRUE(added);
    EXPECT_GE(added->value, 2 * measured.error * 0.999) << "two standard errors, rounded up";
    EXPECT_FALSE(b.project().clearance.solids.empty() && b.project().rider.clearance.empty());
}

TEST_F(DonorPhoto, ALineIsChosenByAClickAndDeleted) {
    Project project = photo();
    project.pictures[0].lines.push_back({"rail", "300", "400", "500", "420", {}, {}, {}});
    BoardBench b(project);
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    b.desk().choose({BoardView::side, {}, {}, -1, 0});
    const PlacedLine line = b.canvas().pictures().at(0)->lines.at(0);
    b.click(BoardView::side, (line.from + line.to) / 2);
    EXPECT_EQ(b.desk().choice().reading, 0);
    EXPECT_EQ(b.desk().choice().picture, 0);
    b.key(Qt::Key_Delete);
    EXPECT_TRUE(b.project().pictures[0].lines.empty());
    ASSERT_EQ(b.project().pictures.size(), 1U) << "the picture stays";
    EXPECT_EQ(b.desk().choice().picture, 0);
}

TEST_F(DonorPhoto, TheUncertaintyIsToldAtThePointerAndGrowsTowardsTheHorizon) {
    BoardBench b(photo());
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    const auto& layer = b.canvas().pictures();
    const PlaneFix& fix = layer.at(0)->fix;
    EXPECT_TRUE(layer.uncertaintyAt(0, BoardView::side, toPlane(fix, {400, 300})).contains("±"));
    EXPECT_TRUE(layer.uncertaintyAt(0, BoardView::front, toPlane(fix, {400, 300})).isEmpty());
    EXPECT_TRUE(layer.uncertaintyAt(0, BoardView::side, {1e6, 1e6}).isEmpty()) << "beside the picture";
    // Four corners always fit: a residual of them would say nothing.
    EXPECT_FALSE(layer.words(0).contains("residual")) << layer.words(0).toStdString();
    EXPECT_TRUE(layer.words(0).contains("rectified by four corners, ± ")) << layer.words(0).toStdString();
    EXPECT_TRUE(layer.words(0).contains("a known distance is needed")) << layer.words(0).toStdString();
    b.desk().choose({BoardView::side, {}, {}, -1, 0});
    QTest::mouseMove(&b.canvas(), b.px(BoardView::side, toPlane(fix, {400, 300})));
    EXPECT_TRUE(b.view->placeWords().contains("chair ±")) << b.view->placeWords().toStdString();
}

TEST_F(DonorPhoto, SavedToAnotherFolderItsPictureIsStillFound) {
    QDir(folder.path()).mkpath("drawings/donor");
    QDir(folder.path()).mkpath("bench");
    ASSERT_TRUE(QFile::copy(folder.filePath("chair.png"), folder.filePath("drawings/donor/chair.png")));
    const QString first = folder.filePath("drawings/chair.slabside.json"),
                  other = folder.filePath("bench/chair.slabside.json");
    Project project = photo();
    project.pictures[0].file = "donor/chair.png";
    ASSERT_TRUE(saveProject(project, first.toStdString()));
    BoardBench b;
    QWidget window;
    DocumentFile file(b.session.get(), &window);
    ASSERT_TRUE(file.open(first));
    const auto state = [&] {
        b.canvas().pictures().setFolder(file.pictureFolder());
        b.canvas().pictures().readFiles();
        return b.canvas().pictures().at(0)->state;
    };
    EXPECT_EQ(state(), PlacedPicture::State::present);
    ASSERT_TRUE(b.session->apply({"Rename", {}, [](const Project& p) -> Expected<Project> {
                                      Project next = p;
                                      next.title = "chair";
                                      return next;
                                  }}));
    ASSERT_TRUE(file.saveTo(other));
    EXPECT_EQ(state(), PlacedPicture::State::present) << "in the window";
    const auto written = loadProject(other.toStdString());
    ASSERT_TRUE(written);
    EXPECT_EQ(written->pictures[0].file, "../drawings/donor/chair.png") << "in the file";
    b.session->undo();
    EXPECT_EQ(state(), PlacedPicture::State::present) << "a step back";
    ASSERT_TRUE(file.saveTo(other));
    ASSERT_TRUE(file.open(other));
    EXPECT_EQ(state(), PlacedPicture::State::present) << "opened again";
    ASSERT_TRUE(file.saveTo(first));
    EXPECT_EQ(loadProject(first.toStdString())->pictures[0].file, "donor/chair.png") << "and back";
}

} // namespace
} // namespace slab::ui
