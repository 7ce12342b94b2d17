#include "ui/paint/flow_layout.h"
#include <QWidget>
#include <algorithm>

namespace slab::ui {

FlowLayout::FlowLayout(QWidget* parent, int across, int down)
    : QLayout(parent), m_across(across), m_down(down) {
    setContentsMargins(0, 0, 0, 0);
}

FlowLayout::~FlowLayout() {
    qDeleteAll(m_items);
}

void FlowLayout::addItem(QLayoutItem* item) {
    m_items.append(item);
}

QLayoutItem* FlowLayout::takeAt(int index) {
    return index >= 0 && index < m_items.size() ? m_items.takeAt(index) : nullptr;
}

QSize FlowLayout::minimumSize() const {
    QSize size;
    for (const auto* item : m_items) size = size.expandedTo(item->minimumSize());
    return size;
}

void FlowLayout::setGeometry(const QRect& rect) {
    QLayout::setGeometry(rect);
    arrange(rect, true);
}

int FlowLayout::arrange(const QRect& rect, bool place) const {
    int y = rect.y();
    for (qsizetype first = 0; first < m_items.size();) {
        int x = rect.x(), height = 0;
        qsizetype end = first;
        for (; end < m_items.size(); ++end) {
            const QSize hint = m_items[end]->sizeHint();
            if (!m_items[end]->isEmpty()) {
                if (end > first && x + hint.width() > rect.x() + rect.width()) break;
                x += hint.width() + m_across;
                height = std::max(height, hint.height());
            }
        }
        x = rect.x();
        for (qsizetype i = first; place && i < end; ++i) {
            if (m_items[i]->isEmpty()) continue;
            const QSize hint = m_items[i]->sizeHint();
            m_items[i]->setGeometry({x, y + (height - hint.height()) / 2, hint.width(), hint.height()});
            x += hint.width() + m_across;
        }
        first = end;
        y += height + (first < m_items.size() ? m_down : 0);
    }
    return y - rect.y();
}

} // namespace slab::ui
