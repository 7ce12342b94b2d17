#pragma once
// What the tool in hand waits for, written over the 3D view.
#include "ui/fit/pill.h"
#include <QPointF>
#include <QSize>

namespace slab {
struct OpeningKind;
}

namespace slab::ui {

class FitPrompt {
public:
    /// `surface` is what the view is drawn on.
    explicit FitPrompt(QObject* surface) : m_pill(surface) {}
    /// At the upper edge, or at the lower one where the pointer is near that.
    /// @param kind  in hand; null = nothing is waited for
    /// @return true if it was taken in hand just now
    bool show(const OpeningKind* kind, const QSize& over, const QPointF& pointer);
    [[nodiscard]] QString words() const { return m_pill.isVisible() ? m_pill.text() : QString(); }

private:
    Pill m_pill;
    const OpeningKind* m_kind = nullptr;
};

} // namespace slab::ui
