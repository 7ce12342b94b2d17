// The real window, edited and killed; started again it brings back what the one before has left.
#include "core/document/file.h"
#include "tests/ui_keep/editor.h"
#include "ui/session/autosave.h"
#include "ui/window/document_file.h"
#include "ui/window/main_window.h"
#include "ui/window/notice.h"
#include <QApplication>
#include <QPushButton>
#include <QTest>
#include <QTimer>

namespace slab::ui::test {
namespace {

void pressBringBack(MainWindow& window) {
    for (auto* button : window.notice()->findChildren<QPushButton*>())
        if (button->text() == "Bring it back" && button->isVisible())
            return QTest::mouseClick(button, Qt::LeftButton);
    ::_exit(8); // work lies there and is not offered
}

/// By the keys of the window.
Means keysOf(MainWindow& window) {
    const auto key = [&window](Qt::Key key, Qt::KeyboardModifiers held) {
        QWidget* focus = QApplication::focusWidget();
        QTest::keyClick(focus ? focus : static_cast<QWidget*>(&window), key, held);
    };
    return {[=] { key(Qt::Key_Z, Qt::ControlModifier); },
            [=] { key(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier); },
            [=] { key(Qt::Key_S, Qt::ControlModifier); }, [] {}};
}

} // namespace

int windowChild(const QStringList& arguments) {
    const Log log(arguments.value(1));
    if (!log.open()) return 3;
    const auto left = Autosave::leftBehind();
    std::optional<Project> work;
    if (!left.empty()) {
        auto read = Autosave::read(left.front());
        if (!read) return 9;
        work = std::move(*read);
        log.line('p', 1, hashOf(*work));
    }
    MainWindow window;
    window.resize(1280, 800);
    window.start(arguments.value(0));
    window.show();
    window.activateWindow();
    if (!QTest::qWaitForWindowActive(&window, 30000)) return 10;
    Editor editor(*window.session(), keysOf(window), log, arguments.value(2).toULongLong());
    if (work)
        editor.bringBack(*work, [&] { pressBringBack(window); });
    else
        editor.bringNothing();
    QTimer hand;
    hand.setSingleShot(true);
    QObject::connect(&hand, &QTimer::timeout, [&] {
        editor.step();
        constexpr int longest = 120; // ms between two deeds
        hand.start(editor.pause(longest));
    });
    hand.start(0);
    return QApplication::exec();
}

} // namespace slab::ui::test
