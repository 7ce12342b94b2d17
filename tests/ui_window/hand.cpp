#include "tests/ui_window/hand.h"
#include "ui/board/board_canvas.h"
#include "ui/board/drafting_view.h"
#include "ui/window/main_window.h"
#include <QAbstractButton>
#include <QApplication>
#include <QComboBox>
#include <QDialog>
#include <QDialogButtonBox>
#include <QElapsedTimer>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QMouseEvent>
#include <QTest>
#include <QTimer>
#include <gtest/gtest.h>
#include <stdexcept>

namespace slab::ui::test {
namespace {

[[noreturn]] void cannot(const QString& what) {
    throw std::runtime_error(what.toStdString());
}

/// Ampersands only mark the letter that a menu is opened with.
QString plainWords(const QAction& action) {
    return QString(action.text()).remove('&').section('\t', 0, 0);
}

QAction* entryOf(const QWidget& menu, const QString& words) {
    for (QAction* action : menu.actions())
        if (plainWords(*action) == words || plainWords(*action).startsWith(words + ":")) return action;
    cannot("no menu entry " + words);
}

} // namespace

void typeOver(QWidget& entry, const QString& text) {
    QTest::keyClick(&entry, Qt::Key_A, Qt::ControlModifier);
    if (text.isEmpty()) QTest::keyClick(&entry, Qt::Key_Delete);
    QTest::keyClicks(&entry, text);
    if (QWidget* names = QApplication::activePopupWidget()) QTest::keyClick(names, Qt::Key_Escape);
}

Hand::Hand(MainWindow& window) : m_window(window) {
    m_window.activateWindow();
    if (!QTest::qWaitForWindowActive(&m_window, 10000)) cannot("the window never became the active one");
}

void Hand::keys(const char* sequence, int times) {
    for (int i = 0; i < times; ++i) {
        QWidget* focus = QApplication::focusWidget();
        QTest::keySequence(focus ? focus : static_cast<QWidget*>(&m_window), QKeySequence(sequence));
        QCoreApplication::processEvents();
    }
}

void Hand::menu(const QStringList& words) {
    QWidget* at = m_window.findChild<QMenuBar*>();
    for (int i = 0; i < words.size(); ++i) {
        QAction* action = entryOf(*at, words[i]);
        if (!action->isEnabled()) cannot("greyed: " + words[i]);
        const auto* bar = qobject_cast<QMenuBar*>(at);
        const QRect where =
            bar ? bar->actionGeometry(action) : qobject_cast<QMenu*>(at)->actionGeometry(action);
        QMenu* under = action->menu();
        QTest::mouseClick(at, Qt::LeftButton, {}, where.center());
        if (under && !QTest::qWaitFor([&] { return under->isVisible(); })) cannot("stays shut: " + words[i]);
        at = under;
    }
    QCoreApplication::processEvents();
}

void Hand::offered(const std::function<void()>& opens, const QString& words) {
    opens();
    QWidget* menu = nullptr;
    if (!QTest::qWaitFor([&] { return (menu = QApplication::activePopupWidget()) != nullptr; }))
        cannot("no menu opens");
    QAction* action = entryOf(*menu, words);
    if (!action->isEnabled()) cannot("greyed: " + words);
    QTest::mouseClick(menu, Qt::LeftButton, {}, qobject_cast<QMenu*>(menu)->actionGeometry(action).center());
    QCoreApplication::processEvents();
}

void Hand::press(const QString& button) {
    for (auto* one : m_window.findChildren<QAbstractButton*>())
        if (one->accessibleName() == button && one->isVisible()) {
            if (!one->isEnabled()) cannot("greyed: " + button);
            QTest::mouseClick(one, Qt::LeftButton);
            QCoreApplication::processEvents();
            return;
        }
    cannot("no button " + button);
}

void Hand::inDialog(const std::function<void()>& opens, const std::function<void(QWidget&)>& deed) {
    bool seen = false;
    QTimer look;
    QObject::connect(&look, &QTimer::timeout, [&] {
        auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
        if (seen || !dialog || !dialog->isVisible()) return;
        if (!dialog->isActiveWindow()) return dialog->activateWindow(); // no desktop does that here
        seen = true;
        look.stop();
        try {
            deed(*dialog);
        } catch (const std::exception& why) { // must not pass through the dialog's loop
            ADD_FAILURE() << why.what();
        }
        if (!dialog->isVisible()) return;
        ADD_FAILURE() << "stays open: " << dialog->windowTitle().toStdString();
        dialog->reject();
    });
    look.start(30);
    opens();
    if (!seen) cannot("no dialog opened");
    m_window.activateWindow(); // no desktop does that here
    if (!QTest::qWaitForWindowActive(&m_window, 10000)) cannot("the window does not come back");
}

void Hand::giveFile(const std::function<void()>& opens, const QString& path) {
    inDialog(opens, [&](QWidget& dialog) {
        auto* name = dialog.findChild<QLineEdit*>("fileNameEdit");
        auto* buttons = dialog.findChild<QDialogButtonBox*>();
        if (!name || !buttons) cannot("the file dialog is not as expected");
        // It goes on reading its folder for a while, and takes back what is typed meanwhile.
        for (int tries = 0; tries < 20 && name->text() != path; ++tries) {
            typeOver(*name, path);
            QTest::qWait(100);
        }
        for (QAbstractButton* button : buttons->buttons())
            if (buttons->buttonRole(button) == QDialogButtonBox::AcceptRole)
                return QTest::mouseClick(button, Qt::LeftButton);
        cannot("the file dialog has no button");
    });
}

BoardCanvas& Hand::canvas() const {
    return *m_window.board()->canvas();
}

QPoint Hand::pixel(BoardView view, double right, double up) const {
    const QPoint at = canvas().pixelOf(view, {right, up}).toPoint();
    if (!canvas().rect().contains(at)) cannot(QString("%1, %2 is off the sheet").arg(right).arg(up));
    return at;
}

void Hand::pointer(const QPoint& at, Qt::MouseButtons held, Qt::KeyboardModifiers keys) const {
    QMouseEvent event(QEvent::MouseMove, at, canvas().mapToGlobal(at), Qt::NoButton, held, keys);
    QApplication::sendEvent(&canvas(), &event);
}

void Hand::point(BoardView view, double right, double up) {
    pointer(pixel(view, right, up), Qt::NoButton);
}

void Hand::click(BoardView view, double right, double up, Qt::KeyboardModifiers held) {
    const QPoint at = pixel(view, right, up);
    pointer(at, Qt::NoButton, held);
    QTest::mouseClick(&canvas(), Qt::LeftButton, held, at);
    QCoreApplication::processEvents();
}

void Hand::drag(BoardView view, const Vec2& from, const Vec2& to) {
    const QPoint a = pixel(view, from.x(), from.y()), b = pixel(view, to.x(), to.y());
    pointer(a, Qt::NoButton);
    QTest::mousePress(&canvas(), Qt::LeftButton, {}, a);
    for (int i = 1; i <= 6; ++i) pointer(a + (b - a) * i / 6, Qt::LeftButton);
    QTest::mouseRelease(&canvas(), Qt::LeftButton, {}, b);
    QCoreApplication::processEvents();
}

void Hand::boardKey(Qt::Key key, Qt::KeyboardModifiers held) {
    QTest::keyClick(&canvas(), key, held);
    QCoreApplication::processEvents();
}

void Hand::type(const QString& entry, const QString& text, bool enter) {
    for (auto* edit : m_window.board()->findChildren<QWidget*>()) {
        if (edit->accessibleName() != entry || !edit->isVisible()) continue;
        const auto* box = qobject_cast<QComboBox*>(edit);
        QTest::mouseClick(box ? box->lineEdit() : edit, Qt::LeftButton);
        typeOver(*edit, text);
        if (enter) QTest::keyClick(edit, Qt::Key_Return);
        QCoreApplication::processEvents();
        return;
    }
    cannot("no entry " + entry + " under the board");
}

void Hand::corners(const QStringList& labels, const QList<QStringList>& places) {
    for (const QStringList& place : places)
        for (int i = 0; i < 2; ++i) type(labels[i], place[i]);
}

} // namespace slab::ui::test
