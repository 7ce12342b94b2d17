#pragma once
// The hand of a program that gets killed, and the log of what it does.
#include "tests/ui_keep/keep_child.h"
#include "tests/ui_keep/random_hand.h"
#include "ui/session/session.h"
#include <fcntl.h>
#include <functional>
#include <unistd.h>

namespace slab::ui::test {

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

/// How this program undoes, redoes, saves and writes its recovery file.
struct Means {
    std::function<void()> undo, redo, save, flush;
};

/// Does every step twice: on a shadow, to say beforehand what comes, and in the session. Step 0 is what lay
/// in the file.
class Editor {
public:
    Editor(Session& session, Means means, const Log& log, std::uint64_t seed)
        : m_session(session), m_means(std::move(means)), m_log(log), m_hand(seed),
          m_shadow(session.project()) {
        m_shadow.markSaved();
        say();
        done();
    }
    /// Step 1: work of a program that was killed before comes back by `bring`.
    void bringBack(const Project& work, const std::function<void()>& bring) {
        ++m_number;
        (void)m_shadow.push({"Bring back", {}, [work](const Project&) { return Expected<Project>(work); }});
        m_shadow.settle();
        bring();
        if (m_session.project() != work) ::_exit(7);
        done();
    }
    /// There is none: there is no step 1.
    void bringNothing() { ++m_number; }
    void step() {
        ++m_number;
        const Step next = m_hand.next(m_shadow);
        play(next, m_shadow);
        say();
        if (next.kind == Step::Kind::edit) {
            m_session.apply(next.edit);
            if (!next.drags) m_session.settle();
        }
        if (next.kind == Step::Kind::undo) m_means.undo();
        if (next.kind == Step::Kind::redo) m_means.redo();
        if (next.kind == Step::Kind::save) m_means.save();
        if (next.kind == Step::Kind::flush) m_means.flush();
        if (m_session.project() != m_shadow.current()) ::_exit(5);
        done();
    }
    /// @return ms until the next step
    [[nodiscard]] int pause(int most) { return m_hand.below(most); }

private:
    Session& m_session;
    Means m_means;
    const Log& m_log;
    RandomHand m_hand;
    History m_shadow;
    int m_number = 0;

    void say() { m_log.line('p', m_number, hashOf(m_shadow.current())); }
    void done() { m_log.line('d', m_number, QByteArray::number(sharedClock(), 'f', 3)); }
};

} // namespace slab::ui::test
