#include "ui/window/run.h"
#include "core/base/paths.h"

#include "ui/theme/theme.h"
#include "ui/window/main_window.h"
#include <QApplication>
#include <QSettings>
#include <QSurfaceFormat>

namespace slab::ui {

namespace {

/// B612 Mono also calls itself "B612", and Qt would set words in it: our font rules give it one name only.
void prepareFonts() {
    const auto rules = resourceFolder() / "fonts.conf";
    if (!qEnvironmentVariableIsSet("FONTCONFIG_FILE") && std::filesystem::exists(rules))
        qputenv("FONTCONFIG_FILE", QByteArray::fromStdString(rules.string()));
}

} // namespace

void prepareGraphics() {
    if (!qEnvironmentVariableIsSet("QT3D_RENDERER")) qputenv("QT3D_RENDERER", "opengl");
    QCoreApplication::setAttribute(Qt::AA_ShareOpenGLContexts);
    QSurfaceFormat format = QSurfaceFormat::defaultFormat();
    format.setDepthBufferSize(24);
    format.setSamples(4);
    format.setVersion(3, 3);
    format.setProfile(QSurfaceFormat::CoreProfile);
    QSurfaceFormat::setDefaultFormat(format);
}

int runWindow(int argc, char** argv, const std::filesystem::path& fileOrEmpty) {
    prepareFonts();
    prepareGraphics();
    QApplication application(argc, argv);
    QApplication::setApplicationName("slabside");
    QApplication::setApplicationDisplayName("Slabside");
    QApplication::setOrganizationName("slabside");
    QApplication::setDesktopFileName("slabside");
    Theme::install();
    Theme::setDark(QSettings().value("dark", false).toBool());
    MainWindow window;
    window.start(QString::fromStdString(fileOrEmpty.string()));
    window.show();
    return QApplication::exec();
}

} // namespace slab::ui
