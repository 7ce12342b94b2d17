#include "ui/fit/fit_prompt.h"
#include "core/board/opening_edits.h"
#include "ui/theme/theme.h"
#include <QCoreApplication>

namespace slab::ui {

bool FitPrompt::show(const OpeningKind* kind, const QSize& over, const QPointF& pointer) {
    const bool fresh = kind && kind != m_kind;
    m_kind = kind;
    m_pill.setVisible(kind != nullptr);
    if (!kind) return false;
    constexpr int border = 8, shy = 24; // px
    const QString words = QCoreApplication::translate(
                              "FitPrompt", "Click where the %1 goes · Return: middle of the chosen plate · "
                                           "Esc leaves")
                              .arg(QString::fromStdString(kind->key));
    m_pill.say(words, Theme::colours().chosen, over.width() - 2 * border);
    const double half = m_pill.geometry().height() / 2.0;
    const double top = border + half, low = over.height() - border - half;
    m_pill.placeAt({over.width() / 2.0, top});
    const QRect reach = m_pill.geometry().adjusted(-shy, -shy, shy, shy);
    if (!fresh && !pointer.isNull() && reach.contains(pointer.toPoint()))
        m_pill.placeAt({over.width() / 2.0, low});
    return fresh;
}

} // namespace slab::ui
