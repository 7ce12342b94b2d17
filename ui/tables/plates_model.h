#pragma once
#include "ui/session/session.h"
#include <QAbstractTableModel>
#include <vector>

namespace slab::ui {

/// Every face that could be a plate: built or left out, its sheet, and its place in the order of covering.
class PlatesModel : public QAbstractTableModel {
    Q_OBJECT
public:
    enum Column { plate, sheet, rank };
    explicit PlatesModel(Session* session, QObject* parent = nullptr);
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role = Qt::EditRole) override;
    [[nodiscard]] QString nameAt(int row) const;
    [[nodiscard]] int rowOf(const QString& wanted) const;
    [[nodiscard]] Session* session() const { return m_session; }

private:
    struct Row {
        std::string name, stock;
        int rank = 0;
        bool operator==(const Row&) const = default;
    };
    void refresh();
    [[nodiscard]] std::vector<Row> rowsNow() const;

    Session* m_session;
    std::vector<Row> m_rows;
};

/// The sheet that the document gives a plate; "" = left out.
[[nodiscard]] std::string stockOfPlate(const Project& project, const std::string& plate);

} // namespace slab::ui
