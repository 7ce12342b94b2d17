#pragma once
#include "ui/tables/document_source.h"
#include <QAbstractItemModel>

namespace slab::ui {

/// A part of the document as rows of three columns: what, as typed, what it builds.
///
/// Rows hold still while values change: only rows that come or go are inserted or removed.
class DocumentModel : public QAbstractItemModel {
    Q_OBJECT
public:
    enum Column { what, typed, builds };
    enum Roles { troubleRole = Qt::UserRole + 1, formulaRole };

    /// @param roots  pointers of the parts; a single list shows its entries as top rows
    DocumentModel(DocumentSource* source, std::vector<std::string> roots, QObject* parent = nullptr);

    [[nodiscard]] QModelIndex index(int row, int column, const QModelIndex& parent = {}) const override;
    [[nodiscard]] QModelIndex parent(const QModelIndex& child) const override;
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role = Qt::EditRole) override;

    [[nodiscard]] Node* nodeOf(const QModelIndex& index) const; ///< the top for an invalid index
    /// The field that a cell in the middle column edits: the node itself or its main field; null = none.
    [[nodiscard]] const Node* edited(const QModelIndex& index) const;
    /// The row of a JSON pointer, or of the nearest row above it.
    [[nodiscard]] QModelIndex find(const std::string& pointer, int column = typed) const;
    /// The list whose entries are the top rows, or null.
    [[nodiscard]] Node* topList() const;
    [[nodiscard]] Session* session() const { return m_source->session(); }
    [[nodiscard]] const std::vector<std::string>& roots() const { return m_roots; }

private:
    [[nodiscard]] QModelIndex indexOf(const Node* node, int column = what) const;
    [[nodiscard]] std::unique_ptr<Node> fresh() const;
    [[nodiscard]] QString typedText(const Node& node) const;
    [[nodiscard]] QString tip(const Node& node, int column) const;
    void follow();
    void sync(Node& old, Node& now);
    void refreshValues(const Node& node);

    DocumentSource* m_source;
    std::vector<std::string> m_roots;
    std::unique_ptr<Node> m_top; ///< own copy, so that rows come and go one by one
};

} // namespace slab::ui
