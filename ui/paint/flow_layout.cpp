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

int FlowLayout::groupWidth(qsizetype first) const {
    const qsizetype at = m_groupStarts.indexOf(first);
    if (at < 0) return 0;
    const qsizetype end = at + 1 < m_groupStarts.size() ? m_groupStarts[at + 1] : m_items.size();
    int width = -m_across;
    for (qsizetype i = first; i < end; ++i) {
        if (!m_items[i]->isEmpty()) width += m_items[i]->sizeHint().width() + m_across;
    }
    return width;
}

int FlowLayout::arrange(const QRect& rect, bool place) const {
    int y = rect.y();
    for (qsizetype first = 0; first < m_items.size();) {
        int x = rect.x(), height = 0;
        qsizetype end = first;
        for (; end < m_items.size(); ++end) {
            const QSize hint = m_items[end]->sizeHint();
            if (!m_items[end]->isEmpty()) {
                const int group = groupWidth(end);
                const int needed = group > 0 && group <= rect.width() ? group : hint.width();
                if (end > first && x + needed > rect.x() + rect.width()) break;
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
