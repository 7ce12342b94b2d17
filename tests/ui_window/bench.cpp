#include "tests/ui_window/bench.h"
#include "ui/fit/fit_view.h"
#include "ui/panels/panel_list.h"
#include "ui/totals/totals_card.h"
#include "ui/window/document_file.h"
#include "ui/window/notice.h"
#include "ui/window/top_bar.h"
#include <QAbstractButton>
#include <QFile>
#include <QListView>
#include <QMenu>
#include <QMenuBar>
#include <QTest>
#include <stdexcept>

namespace slab::ui::test {

void WindowTest::SetUpTestSuite() {
    if (s_window) return;
    s_folder = std::make_unique<QTemporaryDir>();
    s_window = std::make_unique<MainWindow>();
    s_window->resize(1580, 980);
    s_window->show();
    static_cast<void>(QTest::qWaitForWindowExposed(s_window.get(), 20000));
}

void WindowTest::close() {
    s_window.reset();
    s_folder.reset();
}

void WindowTest::open(const char* sample) {
    const QString name = QString(sample) + ".slabside.json";
    s_path = s_folder->filePath(name);
    QFile copy(s_path);
    ASSERT_TRUE(copy.open(QIODevice::WriteOnly | QIODevice::Truncate));
    copy.write(bytesOf(QString(SLABSIDE_SOURCE_DIR "/samples/") + name));
    copy.close();
    session().markSaved(); // what the test before has left is given up unasked
    ASSERT_TRUE(window().file()->open(s_path)) << window().notice()->words().toStdString();
    rest();
}

QString WindowTest::path() {
    return s_path;
}

void WindowTest::rest() {
    ASSERT_TRUE(session().waitUntilAtRest(60000));
    ASSERT_TRUE(waitFor([] { return !session().busy(); }));
    QCoreApplication::processEvents();
}

void WindowTest::press(const QString& accessible) {
    for (auto* button : window().findChildren<QAbstractButton*>())
        if (button->accessibleName() == accessible && button->isVisible()) {
            ASSERT_TRUE(button->isEnabled()) << accessible.toStdString();
            QTest::mouseClick(button, Qt::LeftButton);
            return;
        }
    FAIL() << "no button " << accessible.toStdString();
}

void WindowTest::trigger(const QString& words) {
    for (QAction* action : part<TopBar>().menus()->findChildren<QAction*>())
        if (action->text() == words) {
            ASSERT_TRUE(action->isEnabled()) << words.toStdString();
            action->trigger();
            return;
        }
    FAIL() << "no menu entry " << words.toStdString();
}

QStringList WindowTest::allTotals() {
    static const QRegularExpression row("^[a-z ]+: ");
    QStringList all;
    for (const auto* widget : part<TotalsCard>().findChildren<QWidget*>())
        if (row.match(widget->accessibleName()).hasMatch()) all << widget->accessibleName();
    return all;
}

QString WindowTest::total(const QString& wanted) {
    for (const QString& row : allTotals())
        if (row.startsWith(wanted + ": ")) return row.mid(wanted.size() + 2).section(", ", 0, 0);
    return "no row " + wanted;
}

void WindowTest::choosePanel(const QString& wanted) {
    auto& list = part<PanelList>();
    const int row = list.model().find(wanted);
    ASSERT_GE(row, 0) << wanted.toStdString();
    QListView* view = list.list();
    const QModelIndex index = view->model()->index(row, 0);
    view->scrollTo(index);
    QTest::mouseClick(view->viewport(), Qt::LeftButton, {}, view->visualRect(index).center());
    QCoreApplication::processEvents();
    ASSERT_EQ(session().selection().plate, wanted);
}

Json freshReport(const Project& project) {
    Evaluator evaluator;
    return Json::parse(reportJson(project, evaluator.evaluate(project, Effort::full)));
}

Json reportOf(const Session& session) {
    return Json::parse(reportJson(session.project(), session.evaluation()));
}

Ring ringOf(const Json& points) {
    Ring ring;
    for (const Json& p : points) ring.emplace_back(p.at(0).get<double>(), p.at(1).get<double>());
    return ring;
}

const Json& panelIn(const Json& report, const std::string& wanted) {
    for (const Json& panel : report.at("panels"))
        if (panel.at("name") == wanted) return panel;
    throw std::runtime_error("no panel " + wanted);
}

QByteArray bytesOf(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

} // namespace slab::ui::test
