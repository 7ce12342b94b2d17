#include "ui/session/autosave.h"
#include "core/document/file.h"
#include "ui/session/session.h"
#include <QCoreApplication>
#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QSaveFile>
#include <QStandardPaths>
#include <QUuid>

namespace slab::ui {

namespace {

/// From an edit to its writing, so that a drag is not written pixel by pixel.
constexpr std::chrono::milliseconds rest{250};
constexpr const char* suffix = ".recovery.json";

QString recoveryFolder(const QString& given) {
    if (!given.isEmpty()) return given;
    return QStandardPaths::writableLocation(QStandardPaths::AppDataLocation) + "/recovery";
}

void writeRecovery(const Project& project, const QString& original, const QString& pictures,
                   const QString& file) {
    QJsonObject all;
    all["folder"] = pictures;
    all["original"] = original;
    all["title"] = QString::fromStdString(project.title);
    all["time"] = QDateTime::currentDateTime().toString("d MMM hh:mm");
    all["document"] = QString::fromStdString(writeProject(project));
    QSaveFile out(file);
    if (!out.open(QIODevice::WriteOnly)) return;
    out.write(QJsonDocument(all).toJson());
    out.commit();
}

QJsonObject readRecovery(const QString& file) {
    QFile in(file);
    return in.open(QIODevice::ReadOnly) ? QJsonDocument::fromJson(in.readAll()).object() : QJsonObject();
}

constexpr const char* lockSuffix = ".lock";

QString lockName(const QString& file) {
    return file + lockSuffix;
}

/// Locks without work, of windows that died after a save: taking a dead window's lock and leaving it removes
/// it.
void sweepLocks(const QDir& dir) {
    for (const QString& name : dir.entryList({QString("*") + suffix + lockSuffix}, QDir::Files)) {
        QLockFile lock(dir.filePath(name));
        lock.setStaleLockTime(0);
        lock.tryLock(0);
    }
}

} // namespace

Autosave::Autosave(Session* session, QString folder, QObject* parent)
    : QObject(parent), m_session(session), m_folder(recoveryFolder(folder)), m_writer(rest) {
    QDir().mkpath(m_folder);
    m_file = m_folder + "/" + QUuid::createUuid().toString(QUuid::WithoutBraces) + suffix;
    m_lock = std::make_unique<QLockFile>(lockName(m_file));
    m_lock->setStaleLockTime(0); // only a dead process makes it stale
    m_lock->tryLock();
    connect(session, &Session::handedOver, this, &Autosave::changed);
}

Autosave::~Autosave() = default;

void Autosave::setOriginal(const QString& path, const QString& folder) {
    m_original = path;
    m_pictures = folder;
}

void Autosave::changed() {
    if (m_session->history().isSaved())
        discard(); // nothing to bring back
    else
        write();
}

void Autosave::write() {
    m_writer.post([project = m_session->shared(), original = m_original, pictures = m_pictures,
                   file = m_file] { writeRecovery(*project, original, pictures, file); });
}

void Autosave::flush() {
    changed();
    m_writer.finish();
}

void Autosave::discard() {
    // Behind any write that is still under way.
    m_writer.post([file = m_file] { QFile::remove(file); }, true);
}

std::vector<Recovered> Autosave::leftBehind(const QString& folder) {
    std::vector<Recovered> found;
    const QDir dir(recoveryFolder(folder));
    sweepLocks(dir);
    for (const QString& name : dir.entryList({QString("*") + suffix}, QDir::Files, QDir::Time)) {
        const QString file = dir.filePath(name);
        QLockFile lock(lockName(file));
        lock.setStaleLockTime(0);
        if (!lock.tryLock(0)) continue;
        const QJsonObject all = readRecovery(file);
        if (all.contains("document"))
            found.push_back({file, all["original"].toString(), all["title"].toString(),
                             all["time"].toString(), all["folder"].toString()});
    }
    return found;
}

Expected<Project> Autosave::read(const Recovered& recovered) {
    const QJsonObject all = readRecovery(recovered.file);
    if (!all.contains("document"))
        return fail("cannot-read", "The recovery file could not be read.", recovered.file.toStdString());
    return readProject(all["document"].toString().toStdString());
}

void Autosave::remove(const Recovered& recovered) {
    QFile::remove(recovered.file);
}

} // namespace slab::ui
