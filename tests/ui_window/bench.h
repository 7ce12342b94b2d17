#pragma once
// One real window for all tests of this program: what the builder sees, and what core says about the same
// document.
#include "core/evaluate/evaluate.h"
#include "ui/window/main_window.h"
#include <QCoreApplication>
#include <QElapsedTimer>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <QTimer>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace slab::ui::test {

using Json = nlohmann::json;

/// Lets the window work until `done` holds. Woken by whatever happens, at the latest every 20 ms.
/// @return false if it never held
template <class Done>
[[nodiscard]] bool waitFor(Done done, int milliseconds = 180000) {
    QElapsedTimer clock;
    clock.start();
    QTimer wake;
    wake.start(20);
    while (!done()) {
        if (clock.elapsed() > milliseconds) return false;
        QCoreApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents);
    }
    return true;
}

/// The window on a copy of a sample. The same window serves every test of the program; each test opens its
/// document anew.
class WindowTest : public testing::Test {
public:
    static void close(); ///< after the last test

protected:
    static constexpr const char* boat = "harbour-fire-boat";
    static constexpr const char* crawler = "moon-crawler"; ///< small: quick to work out

    static void SetUpTestSuite();
    void SetUp() override { open(boat); }
    /// A copy of a sample as it comes, whatever was open before.
    static void open(const char* sample);

    [[nodiscard]] static MainWindow& window() { return *s_window; }
    [[nodiscard]] static Session& session() { return *s_window->session(); }
    [[nodiscard]] static const Evaluation& shown() { return session().evaluation(); }
    /// The copy that is open.
    [[nodiscard]] static QString path();
    [[nodiscard]] static QString folder() { return s_folder->path(); }
    /// Everything is confirmed and nothing is being improved.
    static void rest();
    /// The only widget of a class in the window.
    template <class W>
    [[nodiscard]] static W& part() {
        W* found = window().findChild<W*>();
        if (!found) throw std::runtime_error(W::staticMetaObject.className());
        return *found;
    }
    /// A button by its accessible name.
    static void press(const QString& name);
    /// A menu entry by its words.
    static void trigger(const QString& words);
    /// The value of a totals row as it stands there: "5" of "sheets: 5, buy 4".
    [[nodiscard]] static QString total(const QString& name);
    [[nodiscard]] static QStringList allTotals();
    /// Chooses a panel in the list of the panels view, by mouse.
    static void choosePanel(const QString& name);

private:
    static inline std::unique_ptr<MainWindow> s_window;
    static inline std::unique_ptr<QTemporaryDir> s_folder;
    static inline QString s_path;
};

/// The report of a document by a pipeline that has never seen it before.
[[nodiscard]] Json freshReport(const Project& project);
/// Report JSON of what the window shows.
[[nodiscard]] Json reportOf(const Session& session);
[[nodiscard]] Ring ringOf(const Json& points);
[[nodiscard]] const Json& panelIn(const Json& report, const std::string& name);
[[nodiscard]] QByteArray bytesOf(const QString& path);

} // namespace slab::ui::test
