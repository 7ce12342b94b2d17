#include "ui/tables/plates_model.h"
#include "ui/tables/table_edits.h"
#include <algorithm>

namespace slab::ui {

std::string stockOfPlate(const Project& project, const std::string& plate) {
    for (const PlateMaterial& rule : project.materials.plates)
        if (matches(rule.plates, plate)) return rule.stock;
    return project.materials.fallback;
}

PlatesModel::PlatesModel(Session* session, QObject* parent)
    : QAbstractTableModel(parent), m_session(session) {
    connect(session, &Session::projectChanged, this, &PlatesModel::refresh);
    connect(session, &Session::evaluationChanged, this, &PlatesModel::refresh);
    refresh();
}

std::vector<PlatesModel::Row> PlatesModel::rowsNow() const {
    std::vector<Row> rows;
    const Evaluation& e = m_session->evaluation();
    const Project& project = m_session->project();
    const auto add = [&](const std::string& name) {
        Row row{name, stockOfPlate(project, name), -1};
        const auto& order = project.joints.order;
        for (std::size_t i = 0; i < order.size() && row.rank < 0; ++i)
            if (matches(order[i], name)) row.rank = static_cast<int>(i);
        rows.push_back(std::move(row));
    };
    if (e.body) {
        for (const SkinFace& face : e.body->skin.faces) add(face.name);
        for (const FreePlate& free : e.body->plates) add(free.name);
    }
    return rows;
}

void PlatesModel::refresh() {
    // While something is dragged the names hold still; what came or went is told when the hand stops.
    if (m_session->dragging()) return;
    auto now = rowsNow();
    if (now == m_rows) return;
    const bool same = now.size() == m_rows.size() &&
                      std::equal(now.begin(), now.end(), m_rows.begin(),
                                 [](const Row& a, const Row& b) { return a.name == b.name; });
    if (same) {
        m_rows = std::move(now);
        Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, rank));
        return;
    }
    beginResetModel();
    m_rows = std::move(now);
    endResetModel();
}

int PlatesModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int PlatesModel::columnCount(const QModelIndex&) const {
    return 3;
}

QString PlatesModel::nameAt(int row) const {
    return row < 0 || row >= rowCount() ? QString()
                                        : QString::fromStdString(m_rows[static_cast<std::size_t>(row)].name);
}

int PlatesModel::rowOf(const QString& wanted) const {
    const std::string name = wanted.toStdString();
    for (std::size_t i = 0; i < m_rows.size(); ++i)
        if (m_rows[i].name == name) return static_cast<int>(i);
    return -1;
}

QVariant PlatesModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) return {};
    const Row& row = m_rows[static_cast<std::size_t>(index.row())];
    const bool built = !row.stock.empty();
    const QString name = QString::fromStdString(row.name);
    const QString sheetWord = built ? QString::fromStdString(row.stock) : QString("left out");
    const QString rankWord = row.rank < 0 ? QString("–") : QString::number(row.rank + 1);
    switch (role) {
    case Qt::DisplayRole:
        return index.column() == plate ? name : index.column() == sheet ? sheetWord : rankWord;
    case Qt::EditRole:
        if (index.column() == sheet) return QString::fromStdString(row.stock);
        return index.column() == rank && row.rank >= 0 ? QString::number(row.rank + 1) : QString();
    case Qt::CheckStateRole:
        return index.column() == plate ? QVariant(built ? Qt::Checked : Qt::Unchecked) : QVariant();
    case Qt::ToolTipRole:
        if (index.column() == plate) return name + "\nUntick it to leave this plate out: an open face.";
        return index.column() == sheet
                   ? QString("The sheet that it is cut from.")
                   : QString("Its place in the order: 1 covers everything that it meets.");
    case Qt::AccessibleTextRole:
        return name + ", " + sheetWord + (row.rank < 0 ? "" : ", place " + rankWord + " in the order");
    default:
        return {};
    }
}

QVariant PlatesModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return {};
    if (role == Qt::ToolTipRole)
        return section == plate   ? "Untick a plate to leave it out: an open face."
               : section == sheet ? "The sheet that each plate is cut from."
                                  : "The order of covering: where two plates meet, the one with the lower "
                                    "number covers the other. – has no place of its own.";
    if (role == Qt::TextAlignmentRole)
        return static_cast<int>((section == rank ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    if (role != Qt::DisplayRole) return {};
    return section == plate ? "plate" : section == sheet ? "sheet" : "order";
}

Qt::ItemFlags PlatesModel::flags(const QModelIndex& index) const {
    Qt::ItemFlags f = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
    return f | (index.column() == plate ? Qt::ItemIsUserCheckable : Qt::ItemIsEditable);
}

bool PlatesModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (!index.isValid() || index.row() >= rowCount()) return false;
    const Row row = m_rows[static_cast<std::size_t>(index.row())];
    if (role == Qt::CheckStateRole && index.column() == plate) {
        std::string stock;
        if (value.toInt() == Qt::Checked) {
            stock = m_session->project().materials.fallback;
            const auto& sheets = m_session->project().stock.sheets;
            if (stock.empty() && !sheets.empty()) stock = sheets.front().name;
        }
        return m_session->apply(setPlateStock(row.name, stock));
    }
    const std::string text = value.toString().trimmed().toStdString();
    if (index.column() == sheet) return text != row.stock && m_session->apply(setPlateStock(row.name, text));
    if (index.column() == rank) {
        bool number = false;
        const int at = QString::fromStdString(text).toInt(&number);
        if (!text.empty() && (!number || at < 1)) return false;
        return m_session->apply(setPlateRank(row.name, text.empty() ? -1 : at - 1));
    }
    return false;
}

} // namespace slab::ui
