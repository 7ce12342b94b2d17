#pragma once
#include "core/document/project.h"
#include "ui/session/runner.h"
#include <QLockFile>
#include <QObject>
#include <QString>
#include <QTimer>
#include <memory>
#include <vector>

namespace slab::ui {

class Session;

/// Work that a window which never closed has left behind.
struct Recovered {
    QString file;     ///< the recovery file
    QString original; ///< where the document was saved; empty if never
    QString title;
    QString time;   ///< of the last autosave, local, "25 Nov 10:42"
    QString folder; ///< where the names of its pictures start
};

/// Keeps unsaved work in a recovery file, written whole in the background at most one second after a change,
/// so that a kill at any moment loses less than two seconds. A lock beside it tells other windows that this
/// one is alive.
class Autosave : public QObject {
    Q_OBJECT
public:
    /// @param folder  empty = "recovery" under QStandardPaths::AppDataLocation
    explicit Autosave(Session* session, QString folder = {}, QObject* parent = nullptr);
    ~Autosave() override;

    /// Of the document, and where the names of its pictures start: remembered with the work.
    void setOriginal(const QString& path, const QString& folder = {});
    void discard(); ///< the work is saved or given up: removes the file
    /// Writes now and waits (tests, the session manager's last call).
    void flush();
    [[nodiscard]] QString file() const { return m_file; }
    [[nodiscard]] bool waiting() const { return m_wait.isActive(); }    ///< a write is due
    [[nodiscard]] int longestWait() const { return m_wait.interval(); } ///< from a change to its write, ms

    /// Files of windows that are gone; those of living windows are not listed.
    [[nodiscard]] static std::vector<Recovered> leftBehind(const QString& folder = {});
    /// @error "cannot-read", or why it is not a document
    [[nodiscard]] static Expected<Project> read(const Recovered& recovered);
    static void remove(const Recovered& recovered);

private:
    void changed();
    void write();
    void drain(); ///< waits until everything posted is done

    Session* m_session;
    QString m_folder, m_file, m_original, m_pictures;
    std::unique_ptr<QLockFile> m_lock;
    QTimer m_wait;
    std::unique_ptr<Runner> m_writer;
};

} // namespace slab::ui
