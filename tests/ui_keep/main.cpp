// Keeping work. Started with --keep-child the program is the one that gets killed, with a window or without.
#include "tests/ui_keep/keep_child.h"
#include "ui/theme/theme.h"
#include "ui/window/run.h"
#include <QApplication>
#include <QTemporaryDir>
#include <cstring>
#include <gtest/gtest.h>
#include <memory>

int main(int argc, char** argv) {
    testing::InitGoogleTest(&argc, argv);
    const bool child = argc > 1 && std::strcmp(argv[1], "--keep-child") == 0;
    const QTemporaryDir home;
    if (!child) { // settings and recovery files of the tests themselves
        qputenv("HOME", home.path().toUtf8());
        for (const char* name : {"XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"})
            qputenv(name, home.path().toUtf8() + '/' + QByteArray(name).toLower());
    }
    const bool window = child && std::strcmp(argv[argc - 1], "window") == 0;
    if (window) slab::ui::prepareGraphics();
    std::unique_ptr<QCoreApplication> application;
    if (window)
        application = std::make_unique<QApplication>(argc, argv);
    else
        application = std::make_unique<QCoreApplication>(argc, argv);
    QCoreApplication::setApplicationName("slabside-test");
    QCoreApplication::setOrganizationName("slabside-test");
    if (window) {
        slab::ui::Theme::install();
        return slab::ui::test::windowChild(QCoreApplication::arguments().mid(2));
    }
    if (child) return slab::ui::test::keepChild(QCoreApplication::arguments().mid(2));
    return RUN_ALL_TESTS();
}
