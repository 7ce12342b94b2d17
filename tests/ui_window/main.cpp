// The whole window with the whole pipeline behind it. Nothing is faked; settings, recovery files and caches
// go to a folder that is thrown away. Started with --edit-child the program is the window that gets killed.
#include "tests/ui_window/bench.h"
#include "tests/ui_window/edit_child.h"
#include "ui/theme/theme.h"
#include "ui/window/run.h"
#include <QApplication>
#include <QSettings>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <cstring>
#include <gtest/gtest.h>

namespace {

/// Every folder that Qt and the window write to.
void liveIn(const QByteArray& home) {
    qputenv("HOME", home);
    for (const char* name : {"XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME"})
        qputenv(name, home + '/' + QByteArray(name).toLower());
}

} // namespace

int main(int argc, char** argv) {
    testing::InitGoogleTest(&argc, argv);
    const bool child = argc > 1 && std::strcmp(argv[1], "--edit-child") == 0;
    const QTemporaryDir home;
    liveIn(child ? qgetenv("HOME") : home.path().toUtf8());
    // A real display wherever there is one: Qt3D draws nothing without.
    if (!qEnvironmentVariableIsSet("DISPLAY") && !qEnvironmentVariableIsSet("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
    slab::ui::prepareGraphics();
    QApplication application(argc, argv);
    QApplication::setApplicationName("slabside-test");
    QApplication::setOrganizationName("slabside-test");
    QStandardPaths::setTestModeEnabled(true);
    slab::ui::Theme::install();
    if (child) return slab::ui::test::editChild(QApplication::arguments().mid(2));
    QSettings().clear();
    const int result = RUN_ALL_TESTS();
    slab::ui::test::WindowTest::close();
    return result;
}
