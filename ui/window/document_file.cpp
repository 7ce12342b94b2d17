#include "ui/window/document_file.h"
#include "core/base/paths.h"
#include "core/document/file.h"
#include "core/picture/files.h"
#include "ui/session/session.h"
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QJsonDocument>
#include <QJsonObject>
#include <QMessageBox>
#include <QPushButton>
#include <QSettings>

namespace slab::ui {

namespace {

constexpr const char* filter = "Slabside documents (*.slabside.json *.json)";
constexpr const char* suffix = ".slabside.json";
constexpr int recentCount = 8;

QString safeName(const Project& project) {
    QString name = QString::fromStdString(project.title).toLower();
    for (QChar& c : name)
        if (!c.isLetterOrNumber()) c = '-';
    return name.isEmpty() ? "body" : name;
}

} // namespace

DocumentFile::DocumentFile(Session* session, QWidget* window)
    : QObject(window), m_session(session), m_window(window), m_autosave(session) {
    connect(session, &Session::projectChanged, this, &DocumentFile::changed);
}

QString DocumentFile::shownTitle() const {
    return QString::fromStdString(slab::shownTitle(m_session->project(), m_path.toStdString()));
}

QString DocumentFile::stateWords() const {
    if (!m_session->history().isSaved()) return m_path.isEmpty() ? "not saved yet" : "unsaved changes";
    if (m_path.isEmpty()) return "not saved yet";
    return m_savedAt.isValid() ? "saved " + m_savedAt.toString("hh:mm") : "saved";
}

void DocumentFile::take(Project project, const QString& path, bool saved, const QString& pictures) {
    m_autosave.discard();
    m_path = path;
    m_pictures = !pictures.isEmpty() ? pictures : path.isEmpty() ? QDir::homePath() : QFileInfo(path).path();
    m_savedAt = saved && !path.isEmpty() ? QFileInfo(path).lastModified() : QDateTime();
    m_autosave.setOriginal(path, m_pictures);
    if (saved) {
        m_session->replace(std::move(project));
        m_session->markSaved();
    } else {
        Project before = path.isEmpty() ? Project{} : loadProject(path.toStdString()).value_or(Project{});
        if (!path.isEmpty())
            before =
                movedTo(std::move(before), QFileInfo(path).path().toStdString(), m_pictures.toStdString());
        m_session->replace(std::move(before));
        m_session->apply({"Bring back unsaved work", {}, [work = std::move(project)](const Project&) {
                              return Expected<Project>(work);
                          }});
    }
    Q_EMIT changed();
}

bool DocumentFile::newEmpty() {
    if (!mayGo()) return false;
    Project project;
    project.title = noTitle;
    project.units = m_session->project().units;
    project.paper = m_session->project().paper;
    project.donor.kind = "powered_chair";
    take(std::move(project), {}, true);
    return true;
}

bool DocumentFile::newFrom(Project project) {
    if (!mayGo()) return false;
    take(std::move(project), {}, true);
    return true;
}

bool DocumentFile::newFromSample(const QString& sample) {
    if (!mayGo()) return false;
    auto project = loadProject(sample.toStdString());
    if (!project) {
        Q_EMIT failed(project.error());
        return false;
    }
    take(std::move(*project), {}, true, QFileInfo(sample).path());
    return true;
}

bool DocumentFile::open(const QString& path) {
    if (!mayGo()) return false;
    auto project = loadProject(path.toStdString());
    if (!project) {
        Error error = project.error();
        error.message = QFileInfo(path).fileName().toStdString() + ": " + error.message;
        Q_EMIT failed(error);
        return false;
    }
    take(std::move(*project), QFileInfo(path).absoluteFilePath(), true);
    remember(m_path);
    return true;
}

bool DocumentFile::openAsking() {
    const QString start = m_path.isEmpty() ? QDir::homePath() : QFileInfo(m_path).path();
    const QString path = QFileDialog::getOpenFileName(m_window, "Open a document", start, filter);
    return !path.isEmpty() && open(path);
}

Expected<void> DocumentFile::saveTo(const QString& path) {
    const QString whole = QFileInfo(path).absoluteFilePath();
    const auto done = saveProject(
        movedTo(m_session->project(), m_pictures.toStdString(), QFileInfo(whole).path().toStdString()),
        path.toStdString());
    if (!done) return done;
    m_path = whole;
    m_savedAt = QDateTime::currentDateTime();
    m_autosave.setOriginal(m_path, m_pictures);
    m_session->markSaved();
    remember(m_path);
    Q_EMIT changed();
    return {};
}

bool DocumentFile::save() {
    if (m_path.isEmpty()) return saveAs();
    if (const auto done = saveTo(m_path); !done) {
        Q_EMIT failed(done.error());
        return false;
    }
    return true;
}

bool DocumentFile::saveAs() {
    const QString folder = m_path.isEmpty() ? QDir::homePath() : QFileInfo(m_path).path();
    QString path = QFileDialog::getSaveFileName(
        m_window, "Save the document", folder + "/" + safeName(m_session->project()) + suffix, filter);
    if (path.isEmpty()) return false;
    if (!path.endsWith(".json")) path += suffix;
    if (const auto done = saveTo(path); !done) {
        Q_EMIT failed(done.error());
        return false;
    }
    return true;
}

bool DocumentFile::mayGo() {
    m_session->settle();
    if (m_session->history().isSaved()) return true;
    QMessageBox box(QMessageBox::Question, "Unsaved changes",
                    QString("“%1” has changes that are not saved.")
                        .arg(QString::fromStdString(m_session->project().title)),
                    QMessageBox::NoButton, m_window);
    box.setInformativeText("Save them first?");
    auto* save = box.addButton("Save", QMessageBox::AcceptRole);
    auto* drop = box.addButton("Give them up", QMessageBox::DestructiveRole);
    auto* stay = box.addButton("Cancel", QMessageBox::RejectRole);
    save->setToolTip("Saves the document, then goes on.");
    drop->setToolTip("Goes on without saving; the changes are lost.");
    stay->setToolTip("Keeps this document open.");
    box.setDefaultButton(save);
    box.setEscapeButton(stay);
    box.exec();
    if (box.clickedButton() == save) return this->save();
    return box.clickedButton() == drop;
}

QStringList DocumentFile::recent() {
    QStringList known;
    for (const QString& path : QSettings().value("recent").toStringList())
        if (QFileInfo::exists(path)) known << path;
    return known;
}

void DocumentFile::remember(const QString& path) {
    QStringList paths = QSettings().value("recent").toStringList();
    paths.removeAll(path);
    paths.prepend(path);
    QSettings().setValue("recent", QStringList(paths.mid(0, recentCount)));
}

std::vector<std::pair<QString, QString>> DocumentFile::samples() {
    std::vector<std::pair<QString, QString>> found;
    const QDir folder(QString::fromStdString(sampleFolder().string()));
    for (const QString& name : folder.entryList({"*.slabside.json"}, QDir::Files, QDir::Name)) {
        QFile file(folder.filePath(name));
        if (!file.open(QIODevice::ReadOnly)) continue;
        const QString title = QJsonDocument::fromJson(file.readAll()).object()["title"].toString();
        found.emplace_back(title.isEmpty() ? name : title, folder.filePath(name));
    }
    return found;
}

} // namespace slab::ui
