#pragma once
#include "ui/session/autosave.h"
#include <QDateTime>
#include <QObject>
#include <QStringList>

class QWidget;

namespace slab::ui {

class Session;

/// The open document's file: open, save, recent, the guard for unsaved work, recovery.
class DocumentFile : public QObject {
    Q_OBJECT
public:
    DocumentFile(Session* session, QWidget* window);

    [[nodiscard]] QString path() const { return m_path; }
    /// Where the names of the open document's pictures start. It stays the same when the document is saved to
    /// another folder, so that no step of the history loses its pictures; the file gets names of its own
    /// folder.
    [[nodiscard]] QString pictureFolder() const { return m_pictures; }
    /// The title; of a document that nobody has given one, the name of its file.
    [[nodiscard]] QString shownTitle() const;
    [[nodiscard]] QString stateWords() const; ///< "saved 10:42", "not saved yet", "unsaved changes"
    [[nodiscard]] Autosave* autosave() { return &m_autosave; }

    /// Each asks for unsaved work first, and says in plain words what went wrong. @return false if nothing
    /// changed
    bool newEmpty();
    bool newFromSample(const QString& sample);
    bool newFrom(Project project); ///< a document that has no file yet
    bool open(const QString& path);
    bool openAsking();
    bool save();
    bool saveAs();
    /// Saves to a file without asking anything. @error "cannot-write"
    Expected<void> saveTo(const QString& path);
    /// True if the document may go: it is saved, saved now, or given up.
    bool mayGo();

    /// Opens without asking. Work that is not saved stands as one step after what its file holds (after an
    /// empty document where there is none), so that it can be taken back, and is asked for before it goes.
    /// @param pictures  folder in which the names of its pictures start; empty = that of `path`, or home
    void take(Project project, const QString& path, bool saved, const QString& pictures = {});

    [[nodiscard]] static QStringList recent();
    /// Files in the sample folder: title and path.
    [[nodiscard]] static std::vector<std::pair<QString, QString>> samples();

Q_SIGNALS:
    void changed();
    void failed(const slab::Error& error);

private:
    void remember(const QString& path);

    Session* m_session;
    QWidget* m_window;
    Autosave m_autosave;
    QString m_path, m_pictures;
    QDateTime m_savedAt;
};

} // namespace slab::ui
