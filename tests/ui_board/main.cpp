#include "ui/theme/theme.h"
#include <QApplication>
#include <gtest/gtest.h>

int main(int argc, char** argv) {
    // Without a display the views are tested all the same: they paint instead of using OpenGL.
    if (!qEnvironmentVariableIsSet("DISPLAY") && !qEnvironmentVariableIsSet("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
    testing::InitGoogleTest(&argc, argv);
    QApplication app(argc, argv);
    slab::ui::Theme::install();
    return RUN_ALL_TESTS();
}
