#include "tests/ui_keep/keep_child.h"
#include "core/document/copy.h"
#include "core/document/file.h"
#include "tests/ui_keep/random_hand.h"
#include "ui/session/session.h"
#include "ui/window/document_file.h"
#include <QCoreApplication>
#include <QCryptographicHash>
#include <QTimer>
#include <ctime>
#include <fcntl.h>
#include <unistd.h>

namespace slab::ui::test {
namespace {

/// Lines that survive the kill: each is one write to the system.
class Log {
public:
    explicit Log(const QString& path)
        : m_file(::open(path.toUtf8().constData(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644)) {}
    [[nodiscard]] bool open() const { return m_file >= 0; }
    void line(char kind, int number, const QByteArray& word) const {
        const QByteArray text = QByteArray(1, kind) + ' ' + QByteArray::number(number) + ' ' + word + '\n';
        if (::write(m_file, text.constData(), static_cast<std::size_t>(text.size())) != text.size())
            ::_exit(4);
    }

private:
    int m_file;
};

/// Does every step twice: on a shadow, to say beforehand what comes, and in the session.
class Editor {
public:
    Editor(Session& session, DocumentFile& file, const Log& log, std::uint64_t seed)
        : m_session(session), m_file(file), m_log(log), m_hand(seed), m_shadow(session.project()) {
        m_shadow.markSaved();
        say();
        done();
    }
    void step() {
        ++m_number;
        const Step next = m_hand.next(m_shadow);
        play(next, m_shadow);
        say();
        switch (next.kind) {
        case Step::Kind::edit:
            m_session.apply(next.edit);
            if (!next.drags) m_session.settle();
            break;
        case Step::Kind::undo:
            m_session.undo();
            break;
        case Step::Kind::redo:
            m_session.redo();
            break;
        case Step::Kind::save:
            m_session.settle();
            if (!m_file.save()) ::_exit(6);
            break;
        case Step::Kind::flush:
            m_file.autosave()->flush();
            break;
        }
        if (m_session.project() != m_shadow.current()) ::_exit(5);
        done();
    }
    [[nodiscard]] int pause() { return m_hand.below(25); }

private:
    Session& m_session;
    DocumentFile& m_file;
    const Log& m_log;
    RandomHand m_hand;
    History m_shadow;
    int m_number = 0;

    void say() { m_log.line('p', m_number, hashOf(m_shadow.current())); }
    void done() { m_log.line('d', m_number, QByteArray::number(sharedClock(), 'f', 3)); }
};

} // namespace

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
    Editor editor(session, file, log, arguments.value(2).toULongLong());
    QTimer hand;
    hand.setSingleShot(true);
    QObject::connect(&hand, &QTimer::timeout, [&] {
        editor.step();
        hand.start(editor.pause());
    });
    hand.start(0);
    return QCoreApplication::exec();
}

} // namespace slab::ui::test
