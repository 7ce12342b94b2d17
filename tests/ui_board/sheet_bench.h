#pragma once
// A board over one picture.
#include "tests/ui_board/board_bench.h"
#include "ui/board/picture_strip.h"
#include <QImage>
#include <QTemporaryDir>
#include <QToolButton>
#include <gtest/gtest.h>

namespace slab::ui::test {

/// A document of one picture, 800 by 600 px, 5 mm to the pixel, in the side elevation.
class SheetOfViews : public testing::Test {
protected:
    QTemporaryDir folder;
    Project sheet() {
        QImage image(800, 600, QImage::Format_RGB32);
        image.fill(Qt::white);
        EXPECT_TRUE(image.save(folder.filePath("tram.png")));
        Project project;
        project.title = "tram";
        project.scale = "1";
        Picture picture;
        picture.name = "tram";
        picture.file = "tram.png";
        picture.from = {{}, "0", "600", {}};
        picture.to = {{}, "800", "600", {}};
        picture.distance = "4000 mm";
        picture.space = Space::subject;
        project.pictures.push_back(picture);
        return project;
    }
    static Vec2 place(double right, double down) { return {right * 5, (600 - down) * 5}; }
};

/// Brings a part of a picture's strip where it is folded away, as a builder does: by the buttons of its
/// sections.
inline void unfold(const QWidget* strip, const QWidget* part) {
    const auto* own = qobject_cast<const PictureStrip*>(strip);
    if (!own || !part || !part->isHidden()) return;
    for (QToolButton* section : own->sectionButtons()) {
        if (section->isHidden() || section == part) continue;
        QTest::mouseClick(section, Qt::LeftButton);
        if (!part->isHidden()) return;
    }
}

inline QToolButton* buttonOf(const QWidget* strip, const QString& words) {
    for (auto* button : strip->findChildren<QToolButton*>())
        if (button->text() == words) {
            unfold(strip, button);
            return button;
        }
    return nullptr;
}

} // namespace slab::ui::test
