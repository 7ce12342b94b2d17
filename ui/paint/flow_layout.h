#pragma once
#include <QLayout>
#include <QList>

namespace slab::ui {

/// Lays widgets in a row and goes on in the next row when there is no room. Groups stay together where a row
/// holds them whole.
class FlowLayout : public QLayout {
public:
    explicit FlowLayout(QWidget* parent = nullptr, int across = 8, int down = 6);
    ~FlowLayout() override;
    void addItem(QLayoutItem* item) override;
    /// The next item begins a new group.
    void startGroup() { m_groupStarts.append(m_items.size()); }
    [[nodiscard]] Qt::Orientations expandingDirections() const override { return {}; }
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override { return arrange({0, 0, width, 0}, false); }
    [[nodiscard]] int count() const override { return static_cast<int>(m_items.size()); }
    [[nodiscard]] QLayoutItem* itemAt(int index) const override { return m_items.value(index); }
    QLayoutItem* takeAt(int index) override;
    [[nodiscard]] QSize minimumSize() const override;
    [[nodiscard]] QSize sizeHint() const override { return minimumSize(); }
    void setGeometry(const QRect& rect) override;

private:
    int arrange(const QRect& rect, bool place) const;
    /// Width of the group that starts at an item; 0 if none does.
    [[nodiscard]] int groupWidth(qsizetype first) const;
    QList<QLayoutItem*> m_items;
    QList<qsizetype> m_groupStarts;
    int m_across, m_down;
};

} // namespace slab::ui
