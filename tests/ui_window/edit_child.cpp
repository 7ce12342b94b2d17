#include "tests/ui_window/edit_child.h"
#include "core/document/edit.h"
#include "ui/window/document_file.h"
#include "ui/window/main_window.h"
#include <QApplication>
#include <QTimer>
#include <cstdio>
#include <ctime>
#include <fcntl.h>
#include <unistd.h>

namespace slab::ui::test {

double sharedClock() {
    timespec now{};
    ::clock_gettime(CLOCK_MONOTONIC, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

int editChild(const QStringList& arguments) {
    MainWindow window;
    window.start(arguments.value(0));
    window.show();
    const int log =
        ::open(arguments.value(1).toUtf8().constData(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
    if (log < 0) return 3;
    const bool saves = arguments.value(2) == "save";
    int number = 0;
    QTimer hand;
    QObject::connect(&hand, &QTimer::timeout, [&] {
        ++number;
        const double now = sharedClock();
        window.session()->apply(setValue("/title", "\"edit " + std::to_string(number) + "\""));
        if (saves && number % 13 == 0) window.file()->save();
        char line[64];
        const int size = std::snprintf(line, sizeof line, "%d %.3f\n", number, now);
        if (::write(log, line, static_cast<std::size_t>(size)) != size) ::_exit(4);
    });
    hand.start(100);
    return QApplication::exec();
}

} // namespace slab::ui::test
