// Own main: the window's parts need an application, and must leave no trace on the tester's machine.
#include "ui/theme/theme.h"
#include <QApplication>
#include <QSettings>
#include <QStandardPaths>
#include <gtest/gtest.h>

int main(int argc, char** argv) {
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    qputenv("QT3D_RENDERER", "opengl");
    testing::InitGoogleTest(&argc, argv);
    QCoreApplication::setAttribute(Qt::AA_ShareOpenGLContexts);
    QApplication application(argc, argv);
    QApplication::setApplicationName("slabside-test");
    QApplication::setOrganizationName("slabside-test");
    QStandardPaths::setTestModeEnabled(true);
    QSettings().clear();
    slab::ui::Theme::install();
    return RUN_ALL_TESTS();
}
