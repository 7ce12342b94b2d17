// Keeping work, without a window. Started with --keep-child the program is the one that gets killed.
#include "tests/ui_keep/keep_child.h"
#include <QCoreApplication>
#include <QTemporaryDir>
#include <cstring>
#include <gtest/gtest.h>

int main(int argc, char** argv) {
    testing::InitGoogleTest(&argc, argv);
    const bool child = argc > 1 && std::strcmp(argv[1], "--keep-child") == 0;
    const QTemporaryDir home;
    if (!child) { // settings and recovery files of the tests themselves
        qputenv("HOME", home.path().toUtf8());
        for (const char* name : {"XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"})
            qputenv(name, home.path().toUtf8() + '/' + QByteArray(name).toLower());
    }
    QCoreApplication application(argc, argv);
    QCoreApplication::setApplicationName("slabside-test");
    QCoreApplication::setOrganizationName("slabside-test");
    if (child) return slab::ui::test::keepChild(QCoreApplication::arguments().mid(2));
    return RUN_ALL_TESTS();
}
