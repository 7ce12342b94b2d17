#pragma once
#include "ui/tables/document_tree.h"
#include "ui/tables/part_facts.h"
#include <QObject>

namespace slab::ui {

/// The tree of the open document, made once a change for all tables.
class DocumentSource : public QObject {
    Q_OBJECT
public:
    explicit DocumentSource(Session* session, QObject* parent = nullptr);
    [[nodiscard]] Session* session() const { return m_session; }
    [[nodiscard]] Node& root() { return *m_root; }
    /// What a row of kind fact says now.
    [[nodiscard]] QString factOf(const Node& row) const;

Q_SIGNALS:
    void changed();       ///< the document; the tree is a new one
    void valuesChanged(); ///< only what it builds

private:
    void refresh();
    void offer();
    bool m_scoped = false; ///< the offers were made with names that have values

    Session* m_session;
    std::unique_ptr<Node> m_root;
    Project m_shown; ///< what the tree was made from
    std::vector<PartFact> m_facts;
    std::string m_solids; ///< the offered solids, to see when they change
};

} // namespace slab::ui
