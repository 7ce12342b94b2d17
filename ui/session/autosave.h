#pragma once
#include "core/document/project.h"
#include "ui/session/keeper.h"
#include <QLockFile>
#include <QObject>
#include <QString>
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

/// Keeps unsaved work in a recovery file. Every edit hands the document over to a thread that writes it whole
/// soon after, whatever this thread does meanwhile, so that a kill at any moment loses less than two seconds.
/// A lock beside the file tells other windows that this one is alive.
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
    [[nodiscard]] bool waiting() { return m_writer.waiting(); } ///< a write is due

    /// Files of windows that are gone; those of living windows are not listed.
    [[nodiscard]] static std::vector<Recovered> leftBehind(const QString& folder = {});
    /// @error "cannot-read", or why it is not a document
    [[nodiscard]] static Expected<Project> read(const Recovered& recovered);
    static void remove(const Recovered& recovered);

private:
    void changed();
    void write();

    Session* m_session;
    QString m_folder, m_file, m_original, m_pictures;
    std::unique_ptr<QLockFile> m_lock;
    Keeper m_writer; ///< last: writes what waits before the lock goes
};

} // namespace slab::ui
