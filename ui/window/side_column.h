#pragma once
#include "ui/theme/card.h"
#include <vector>

class QButtonGroup;
class QGridLayout;
class QIcon;
class QPushButton;
class QScrollArea;
class QStackedWidget;
class QVBoxLayout;

namespace slab::ui {

/// Parts one above the other while there is room, or folded: one at a time, chosen by buttons above it.
class SideColumn : public QWidget {
    Q_OBJECT
public:
    /// @param buttonsPerRow  of the chooser when folded
    /// @param scrolls        the parts are higher than the window when unfolded
    SideColumn(const QString& name, int buttonsPerRow, bool scrolls, QWidget* parent = nullptr);
    /// @param stretch  share of the height when unfolded, 0 = as high as needed
    void add(const QString& name, QWidget* part, int stretch = 0);
    /// After the last add().
    void setFolded(bool folded);
    [[nodiscard]] bool folded() const { return m_folded; }
    /// Brings a part to the front (folded) or into sight.
    void reveal(QWidget* part);
    /// Scrolls the pile to a place in one of its parts.
    void bringIntoSight(const QWidget* in, const QRect& place);
    /// Words and shape on a part's button, for what is to be seen there though another part is in front.
    void mark(QWidget* part, const QString& words, const QIcon& shape);
    [[nodiscard]] QPushButton* button(const QWidget* part) const; ///< null = no such part

Q_SIGNALS:
    void foldedChanged(bool folded);
    void chosen(); ///< a part, by the builder's hand

private:
    struct Part {
        QString name;
        QWidget* widget;
        int stretch;
        QPushButton* button;
    };
    void addToPile(QWidget* part, int stretch);

    QString m_name;
    int m_perRow;
    bool m_folded = false;
    std::vector<Part> m_parts;
    QButtonGroup* m_group;
    QWidget* m_chooser;
    QGridLayout* m_buttons;
    QStackedWidget* m_stack;
    QWidget* m_pile;
    QVBoxLayout* m_pileLayout;
    QScrollArea* m_scroll; ///< around the pile, or null
};

} // namespace slab::ui
