// The dialog of ready bodies: what it shows is what it makes.
#include "tests/ui_shell/fakes.h"
#include "ui/window/start_dialog.h"
#include <QComboBox>
#include <QImage>
#include <QListWidget>
#include <gtest/gtest.h>
#include <set>

namespace slab::ui {
namespace {

Project withWagon() {
    Project open;
    open.units = "in";
    DonorSolid wagon;
    wagon.name = "wagon";
    wagon.shape = "box";
    wagon.z = "20";
    wagon.size_x = "50";
    wagon.size_y = "30";
    wagon.size_z = "24";
    open.donor.solids = {wagon};
    open.rider.table = "none";
    return open;
}

TEST(StartDialog, EveryStartHasItsOwnPictureAndSize) {
    StartDialog dialog(Project{});
    std::set<QString> sizes;
    std::vector<QImage> pictures;
    for (int row = 0; row < dialog.kinds()->count(); ++row) {
        dialog.kinds()->setCurrentRow(row);
        sizes.insert(dialog.sizeWords());
        const QImage picture = dialog.kinds()->item(row)->icon().pixmap(76, 52).toImage();
        for (const QImage& other : pictures) EXPECT_NE(picture, other);
        pictures.push_back(picture);
    }
    EXPECT_EQ(sizes.size(), static_cast<std::size_t>(dialog.kinds()->count()));
    EXPECT_EQ(dialog.donors()->findText("as measured in the open document"), -1); // there is none
}

TEST(StartDialog, OffersTheDonorThatWasMeasured) {
    StartDialog dialog(withWagon());
    const int own = dialog.donors()->findText("as measured in the open document");
    ASSERT_GE(own, 0);
    const QString before = dialog.sizeWords();
    dialog.donors()->setCurrentIndex(own);
    EXPECT_NE(dialog.sizeWords(), before);
    const auto project = dialog.project();
    ASSERT_TRUE(project);
    ASSERT_EQ(project->donor.solids.size(), 1u);
    EXPECT_EQ(project->donor.solids[0].name, "wagon");
    EXPECT_EQ(project->units, "in");
}

} // namespace
} // namespace slab::ui
