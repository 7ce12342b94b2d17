#pragma once
#include "core/geometry/polygon.h"
#include "core/units/units.h"
#include <QAbstractListModel>
#include <QSortFilterProxyModel>
#include <QStyledItemDelegate>
#include <QWidget>
#include <memory>

class QLineEdit;
class QListView;

namespace slab::ui {

/// A row of the list: a panel, or a plate that is left out.
struct PanelRow {
    QString name;         ///< as the panel is called
    QStringList plates;   ///< all copies; of a blank all plates of all copies
    QStringList wholes{}; ///< of a piece: the plates that it is part of
    qsizetype copies = 1;
    QString size, stock, hand;
    QString kind;                                       ///< stock kind, for the tint
    Polygon shape;                                      ///< thumbnail, mm
    QString missing;                                    ///< why there is no panel; empty = there is one
    bool leftOut = false, cut = false, changed = false; ///< changed since it was cut
    bool operator==(const PanelRow&) const = default;
};

class PanelListModel : public QAbstractListModel {
    Q_OBJECT
public:
    using QAbstractListModel::QAbstractListModel;
    /// Keeps rows (and so scroll position and selection) where names stay the same.
    void show(std::vector<PanelRow> rows);
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] const PanelRow& row(int index) const { return m_rows[static_cast<std::size_t>(index)]; }
    /// Row of the panel that has this plate; -1 = none.
    [[nodiscard]] int find(const QString& plate) const;

private:
    std::vector<PanelRow> m_rows;
};

/// List with thumbnails and a search field; a narrow column of thumbnails when there is little width.
///
/// Its width follows that of the view which it stands in.
class PanelList : public QWidget {
    Q_OBJECT
public:
    explicit PanelList(QWidget* parent = nullptr);
    void show(std::vector<PanelRow> rows);
    void choose(const QString& plate);
    void chooseAlso(const QStringList& plates); ///< those that are chosen beside it
    void setRoom(int viewWidth);
    [[nodiscard]] const PanelListModel& model() const { return *m_model; }
    [[nodiscard]] QListView* list() const { return m_list; }

Q_SIGNALS:
    void chosen(const QString& plate);                       ///< by the builder's hand
    void moreChosen(const QString& plate);                   ///< one more, or no longer
    void menuWanted(const QString& plate, const QPoint& at); ///< at a place of the screen

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    [[nodiscard]] QString plateAt(const QPoint& px) const;

    PanelListModel* m_model;
    QSortFilterProxyModel* m_found;
    QListView* m_list;
    QLineEdit* m_search;
    class PanelDelegate* m_delegate;
    bool m_quiet = false;
    int m_viewWidth = 600;
};

} // namespace slab::ui
