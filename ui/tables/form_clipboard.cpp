#include "ui/tables/form_clipboard.h"
#include "core/document/copy.h"
#include "ui/session/follow.h"
#include "ui/session/session.h"
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

} // namespace

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

bool copyForm(Session& session, const QString& form) {
    const auto text = copyForms(session.project(), {form.toStdString()});
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

bool cutForm(Session& session, const QString& form) {
    return copyForm(session, form) && deleteForm(session, form);
}

bool duplicateForm(Session& session, const QString& form) {
    return bring(session, duplicateForms({form.toStdString()}));
}

bool deleteForm(Session& session, const QString& form) {
    const auto& forms = session.project().forms;
    const auto at =
        std::find_if(forms.begin(), forms.end(), [&](const Form& f) { return f.name == form.toStdString(); });
    if (at == forms.end()) return false;
    const std::string name = at->name;
    return session.apply(removeValue("/forms/" + std::to_string(at - forms.begin()), "Delete " + name));
}

bool pasteForms(Session& session) {
    const std::string text = clipboardText().toStdString();
    const auto names = formsInText(text);
    return bring(session,
                 slab::pasteForms(text, names.size() == 1 ? "Paste " + names.front() : "Paste forms"));
}

} // namespace slab::ui
