#include "core/survey/survey.h"
#include "tests/ui_keep/keep_child.h"
#include "core/document/copy.h"
#include "core/document/file.h"
#include "tests/ui_keep/editor.h"
#include "ui/session/session.h"
#include "ui/window/document_file.h"
#include <QCoreApplication>
#include <QCryptographicHash>
#include <QTimer>
#include <ctime>

namespace slab::ui::test {

QByteArray hashOf(const Project& project) {
    const std::string text = writeProject(project);
    return QCryptographicHash::hash(QByteArray(text.data(), static_cast<qsizetype>(text.size())),
                                    QCryptographicHash::Sha1)
        .toHex();
}

double sharedClock() {
    timespec now{};
    ::clock_gettime(CLOCK_MONOTONIC, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

int keepChild(const QStringList& arguments) {
    const Log log(arguments.value(1));
    if (!log.open()) return 3;
    Engine none{[](const Project&, Effort, std::uint64_t revision, const Job&) {
                    Evaluation e;
                    e.revision = revision;
                    return e;
                },
                [](const Project&, double, double, const Job&) { return ScaleSurvey{}; }};
    Session session(arguments.value(3) == "all" ? Engine::real() : std::move(none));
    DocumentFile file(&session, nullptr);
    if (!file.open(arguments.value(0))) return 3;
    const Means means{[&] { session.undo(); }, [&] { session.redo(); },
                      [&] {
                          session.settle();
                          if (!file.save()) ::_exit(6);
                      },
                      [&] { file.autosave()->flush(); }};
    Editor editor(session, means, log, arguments.value(2).toULongLong());
    QTimer hand;
    hand.setSingleShot(true);
    QObject::connect(&hand, &QTimer::timeout, [&] {
        editor.step();
        hand.start(editor.pause(25));
    });
    hand.start(0);
    return QCoreApplication::exec();
}

} // namespace slab::ui::test
