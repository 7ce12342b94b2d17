#include "ui/tables/form_clipboard.h"
#include "core/document/copy.h"
#include "ui/session/follow.h"
#include "ui/session/session.h"
#include "ui/tables/table_edits.h"
#include <QClipboard>
#include <QGuiApplication>
#include <QMimeData>
#include <algorithm>

namespace slab::ui {

namespace {

/// The copied text, or nothing: plain text counts too, when it is forms.
QString clipboardText() {
    const QMimeData* data = QGuiApplication::clipboard()->mimeData();
    if (!data) return {};
    if (data->hasFormat(formsMime)) return QString::fromUtf8(data->data(formsMime));
    constexpr qsizetype longest = 16 << 20; // bytes; nobody's forms are larger
    return data->hasText() && data->text().size() < longest ? data->text() : QString();
}

void choose(Session& session, std::size_t first) {
    const auto& forms = session.project().forms;
    if (first >= forms.size()) return;
    Selection selection;
    selection.form = QString::fromStdString(forms[first].name);
    session.select(selection);
}

/// Applies an edit that puts forms at the end of the list, and chooses the first of them.
bool bring(Session& session, const Edit& edit) {
    const std::size_t before = session.project().forms.size();
    if (!session.apply(edit)) return false;
    choose(session, before);
    return true;
}

std::vector<std::string> namesOf(const QStringList& forms) {
    std::vector<std::string> names;
    for (const QString& form : forms) names.push_back(form.toStdString());
    return names;
}

} // namespace

QStringList chosenForms(const Session& session) {
    if (!session.selection().forms.isEmpty()) return session.selection().forms;
    const QString one = chosenForm(session);
    return one.isEmpty() ? QStringList() : QStringList{one};
}

QString chosenForm(const Session& session) {
    const Selection& now = session.selection();
    const QString wanted = now.form.isEmpty() ? now.plate.section('/', 0, 0) : now.form;
    for (const Form& form : session.project().forms)
        if (isOfForm(wanted.toStdString(), form.name)) return QString::fromStdString(form.name);
    return {};
}

bool clipboardHoldsForms() {
    return !formsInText(clipboardText().toStdString()).empty();
}

bool copyForm(Session& session, const QStringList& forms) {
    const auto text = copyForms(session.project(), namesOf(forms));
    if (!text) {
        Q_EMIT session.refused(text.error());
        return false;
    }
    auto* data = new QMimeData; // the clipboard takes it
    const QByteArray bytes(text->data(), static_cast<qsizetype>(text->size()));
    data->setData(formsMime, bytes);
    data->setText(QString::fromUtf8(bytes));
    QGuiApplication::clipboard()->setMimeData(data);
    return true;
}

bool cutForm(Session& session, const QStringList& forms) {
    return copyForm(session, forms) && deleteForm(session, forms);
}

bool duplicateForm(Session& session, const QStringList& forms) {
    return bring(session, duplicateForms(namesOf(forms)));
}

bool deleteForm(Session& session, const QStringList& forms) {
    std::vector<Edit> edits;
    const auto& all = session.project().forms;
    for (std::size_t i = all.size(); i-- > 0;) // from the end, so that positions stay
        if (forms.contains(QString::fromStdString(all[i].name)))
            edits.push_back(removeValue("/forms/" + std::to_string(i), "Delete " + all[i].name));
    if (edits.empty()) return false;
    if (edits.size() == 1) return session.apply(edits.front());
    return session.apply(chained("Delete " + std::to_string(edits.size()) + " forms", std::move(edits)));
}

bool pasteForms(Session& session) {
    const std::string text = clipboardText().toStdString();
    const auto names = formsInText(text);
    return bring(session,
                 slab::pasteForms(text, names.size() == 1 ? "Paste " + names.front() : "Paste forms"));
}

} // namespace slab::ui
