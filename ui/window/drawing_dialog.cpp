#include "ui/window/drawing_dialog.h"
#include <QFileDialog>
#include <QFileInfo>
#include <QSettings>
#include <QStandardPaths>

namespace slab::ui {

namespace {
constexpr const char* folderKey = "drawing folder";
} // namespace

QString drawingFolder(const QString& document) {
    const QString last = QSettings().value(folderKey).toString();
    if (!last.isEmpty() && QFileInfo(last).isDir()) return last;
    return document.isEmpty() ? QStandardPaths::writableLocation(QStandardPaths::PicturesLocation)
                              : QFileInfo(document).absolutePath();
}

QString askDrawing(QWidget* over, const QString& title, const QString& document, const QString& kinds) {
    const QString path = QFileDialog::getOpenFileName(over, title, drawingFolder(document), kinds);
    if (!path.isEmpty()) QSettings().setValue(folderKey, QFileInfo(path).absolutePath());
    return path;
}

} // namespace slab::ui
