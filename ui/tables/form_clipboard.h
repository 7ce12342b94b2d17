#pragma once
// Forms on the system's clipboard, so that they go from window to window.
#include <QStringList>

namespace slab::ui {

class Session;

/// Type of what copyForms() writes; the same text stands there as plain text, for a mail or an editor.
inline constexpr const char* formsMime = "application/x-slabside-forms+json";

/// The form that is chosen, or that the chosen plate belongs to; empty if none is.
[[nodiscard]] QString chosenForm(const Session& session);
/// All forms that are chosen: the one, or those whose points are chosen on the drawing board.
[[nodiscard]] QStringList chosenForms(const Session& session);
/// Is there a form to paste?
[[nodiscard]] bool clipboardHoldsForms();

/// Each says at the session what went wrong. @return false if nothing happened
bool copyForm(Session& session, const QStringList& forms);
bool cutForm(Session& session, const QStringList& forms);
bool duplicateForm(Session& session, const QStringList& forms);
bool deleteForm(Session& session, const QStringList& forms);
/// Chooses the first of the pasted forms.
bool pasteForms(Session& session);

} // namespace slab::ui
