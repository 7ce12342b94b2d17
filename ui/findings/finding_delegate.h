#pragma once
#include "core/base/finding.h"
#include <QStyledItemDelegate>

namespace slab::ui {

/// One finding as a small card: shape, colour and word of its severity, where, and the remedy.
class FindingDelegate : public QStyledItemDelegate {
    Q_OBJECT
public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

/// Octagon for what stops, triangle for what wants a look, circle for a note.
void paintSeverity(QPainter& painter, const QRectF& area, Severity severity);

} // namespace slab::ui
