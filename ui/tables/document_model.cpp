#include "ui/tables/document_model.h"
#include "ui/tables/built_value.h"
#include "ui/tables/field_words.h"
#include "ui/tables/table_edits.h"
#include "ui/theme/theme.h"
#include <algorithm>

namespace slab::ui {

namespace {

/// What tells rows of one list apart while others come and go.
std::string identity(const Node& n) {
    const std::string name = n.name();
    return name.empty() || !n.entry ? n.key : name;
}

bool sameRow(const Node& a, const Node& b) {
    return a.kind == b.kind && identity(a) == identity(b);
}

void takeValues(Node& old, const Node& now) {
    old.key = now.key;
    old.owner = now.owner;
    old.field = now.field;
    old.role = now.role;
    old.value = now.value;
    old.entry = now.entry;
    old.required = now.required;
    old.nothing = now.nothing;
    old.absent = now.absent;
    old.generic = now.generic;
    old.label = now.label;
    old.check = now.check;
    old.words = now.words;
}

} // namespace

DocumentModel::DocumentModel(DocumentSource* source, std::vector<std::string> roots, QObject* parent)
    : QAbstractItemModel(parent), m_source(source), m_roots(std::move(roots)), m_top(fresh()) {
    connect(source, &DocumentSource::changed, this, &DocumentModel::follow);
    connect(source, &DocumentSource::valuesChanged, this, [this] {
        if (Node* here = m_top->child("scale"))
            if (const Node* now = m_source->root().child("scale")) here->value = now->value;
        refreshValues(*m_top);
    });
}

std::unique_ptr<Node> DocumentModel::fresh() const {
    std::vector<std::unique_ptr<Node>> parts;
    for (const std::string& root : m_roots) {
        const Node* at = nodeAt(m_source->root(), root);
        if (!at) continue;
        parts.push_back(at->copy());
        parts.back()->base = root;
    }
    const bool single = parts.size() == 1 && !parts.front()->children.empty();
    const bool group = parts.size() == 1 && parts.front()->kind != Node::Kind::text;
    if (single || group) return std::move(parts.front());
    auto top = std::make_unique<Node>();
    const Node* first = nodeAt(m_source->root(), m_roots.front());
    top->owner = first && first->parent ? first->parent->owner : "document";
    for (auto& part : parts) {
        part->parent = top.get();
        top->children.push_back(std::move(part));
    }
    return top;
}

void DocumentModel::follow() {
    const auto now = fresh();
    takeValues(*m_top, *now);
    sync(*m_top, *now);
    refreshValues(*m_top);
}

void DocumentModel::sync(Node& old, Node& now) {
    auto &a = old.children, &b = now.children;
    std::size_t head = 0, tail = 0;
    if (a.size() != b.size()) {
        while (head < a.size() && head < b.size() && sameRow(*a[head], *b[head])) ++head;
        while (tail + head < a.size() && tail + head < b.size() &&
               sameRow(*a[a.size() - 1 - tail], *b[b.size() - 1 - tail]))
            ++tail;
    } else {
        // As many rows as before: each stays in its place, unless it is now of another kind.
        while (head < a.size() && a[head]->kind == b[head]->kind &&
               (a[head]->entry || a[head]->key == b[head]->key))
            ++head;
        while (tail + head < a.size() && sameRow(*a[a.size() - 1 - tail], *b[b.size() - 1 - tail])) ++tail;
    }
    const QModelIndex at = indexOf(&old);
    const auto from = static_cast<std::ptrdiff_t>(head);
    if (head + tail < a.size()) {
        beginRemoveRows(at, static_cast<int>(head), static_cast<int>(a.size() - tail) - 1);
        a.erase(a.begin() + from, a.end() - static_cast<std::ptrdiff_t>(tail));
        endRemoveRows();
    }
    if (head + tail < b.size()) {
        beginInsertRows(at, static_cast<int>(head), static_cast<int>(b.size() - tail) - 1);
        for (std::size_t i = head; i < b.size() - tail; ++i) {
            auto copy = b[i]->copy();
            copy->parent = &old;
            copy->base = b[i]->base;
            a.insert(a.begin() + static_cast<std::ptrdiff_t>(i), std::move(copy));
        }
        endInsertRows();
    }
    for (std::size_t i = 0; i < a.size(); ++i) {
        takeValues(*a[i], *b[i]);
        sync(*a[i], *b[i]);
    }
}

void DocumentModel::refreshValues(const Node& node) {
    if (node.children.empty()) return;
    const QModelIndex at = indexOf(&node);
    Q_EMIT dataChanged(index(0, what, at), index(static_cast<int>(node.children.size()) - 1, builds, at));
    for (const auto& c : node.children) refreshValues(*c);
}

Node* DocumentModel::nodeOf(const QModelIndex& index) const {
    return index.isValid() ? static_cast<Node*>(index.internalPointer()) : m_top.get();
}

QModelIndex DocumentModel::indexOf(const Node* node, int column) const {
    return !node || node == m_top.get() ? QModelIndex()
                                        : createIndex(node->row(), column, const_cast<Node*>(node));
}

QModelIndex DocumentModel::index(int row, int column, const QModelIndex& parent) const {
    const Node* at = nodeOf(parent);
    if (row < 0 || column < 0 || column > builds || static_cast<std::size_t>(row) >= at->children.size())
        return {};
    return createIndex(row, column, at->children[static_cast<std::size_t>(row)].get());
}

QModelIndex DocumentModel::parent(const QModelIndex& child) const {
    return child.isValid() ? indexOf(nodeOf(child)->parent) : QModelIndex();
}

int DocumentModel::rowCount(const QModelIndex& parent) const {
    return parent.column() > 0 ? 0 : static_cast<int>(nodeOf(parent)->children.size());
}

int DocumentModel::columnCount(const QModelIndex&) const {
    return 3;
}

const Node* DocumentModel::edited(const QModelIndex& index) const {
    if (!index.isValid()) return nullptr;
    const Node* node = nodeOf(index);
    if (node->kind == Node::Kind::group) return mainField(*node);
    const bool leaf = node->kind == Node::Kind::text || node->kind == Node::Kind::choice ||
                      node->kind == Node::Kind::flag || node->kind == Node::Kind::real ||
                      node->kind == Node::Kind::json;
    return leaf ? node : nullptr;
}

Node* DocumentModel::topList() const {
    const bool list =
        m_top->kind == Node::Kind::list || m_top->kind == Node::Kind::names || m_top->kind == Node::Kind::map;
    return list ? m_top.get() : nullptr;
}

QModelIndex DocumentModel::find(const std::string& pointer, int column) const {
    const std::function<const Node*(const Node&)> search = [&](const Node& at) -> const Node* {
        const Node* best = nullptr;
        for (const auto& c : at.children) {
            const std::string here = c->pointer();
            if (pointer == here) return c.get();
            if (pointer.starts_with(here + "/")) {
                best = c.get();
                if (const Node* deeper = search(*c)) return deeper;
            }
        }
        return best;
    };
    return indexOf(search(*m_top), column);
}

QString DocumentModel::typedText(const Node& node) const {
    if (node.kind == Node::Kind::flag) return {};
    if (node.kind == Node::Kind::choice) return choiceWord(node, node.value);
    if (node.nothing) return "left out";
    QString text = QString::fromStdString(node.value);
    if (isFormula(node.role) && usesNames(node.value)) text.prepend("=");
    if (const QString unit = unitMeant(node); !unit.isEmpty()) text += ' ' + unit;
    return text;
}

QString DocumentModel::tip(const Node& node, int column) const {
    if (node.kind == Node::Kind::fact) {
        const FieldWords words = wordsOf(node);
        return (words.label + ": " + m_source->factOf(node) + "\n" + words.tip).trimmed();
    }
    const Node* field = column == typed && mainField(node) ? mainField(node) : &node;
    const Built built = builtValue(*session(), node);
    QString text = wordsOf(*field).tip;
    if (!built.trouble.isEmpty()) text = built.trouble + (text.isEmpty() ? "" : "\n\n" + text);
    const QString typedHere = typedText(*field);
    if (!typedHere.isEmpty())
        text = typedHere + (built.text.isEmpty() ? "" : " → " + built.text) + "\n" + text;
    if (!node.label.empty()) text.prepend(QString::fromStdString(node.label) + "\n");
    return text.trimmed();
}

QVariant DocumentModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const Node& node = *nodeOf(index);
    const Node* field = edited(index);
    switch (role) {
    case Qt::DisplayRole:
        if (index.column() == what) return wordsOf(node).label;
        if (index.column() == typed) return field ? typedText(*field) : mainWords(node);
        if (node.kind == Node::Kind::fact) return m_source->factOf(node);
        {
            const Built built = builtValue(*session(), node);
            return built.trouble.isEmpty() ? built.text : QString("wrong");
        }
    case Qt::EditRole:
        if (index.column() == what) return QString::fromStdString(node.name());
        return field ? QString::fromStdString(field->value) : QString();
    case Qt::CheckStateRole:
        if (index.column() == typed && field && field->kind == Node::Kind::flag)
            return field->value == "true" ? Qt::Checked : Qt::Unchecked;
        return {};
    case Qt::ToolTipRole:
        return tip(node, index.column());
    case Qt::AccessibleTextRole:
        return wordsOf(node).label + ": " + data(index.siblingAtColumn(typed), Qt::DisplayRole).toString() +
               " " + data(index.siblingAtColumn(builds), Qt::DisplayRole).toString();
    case troubleRole:
        return builtValue(*session(), node).trouble;
    case formulaRole:
        return field && isFormula(field->role) && usesNames(field->value);
    default:
        return {};
    }
}

QVariant DocumentModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
    return section == what ? "what" : section == typed ? "as typed" : "builds";
}

Qt::ItemFlags DocumentModel::flags(const QModelIndex& index) const {
    Qt::ItemFlags f = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
    if (!index.isValid()) return f;
    const Node* node = nodeOf(index);
    const bool offered = node->generic != 0 || node->absent;
    if (index.column() == what && !node->name().empty() && !offered && node->entry) f |= Qt::ItemIsEditable;
    if (index.column() == typed)
        if (const Node* field = edited(index))
            f |= field->kind == Node::Kind::flag ? Qt::ItemIsUserCheckable : Qt::ItemIsEditable;
    return f;
}

bool DocumentModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (!index.isValid()) return false;
    const Node* node = nodeOf(index);
    if (index.column() == what && role == Qt::EditRole) {
        // An emptied name is a slip, not a wish: the row keeps the one that it has.
        const std::string name = value.toString().trimmed().toStdString();
        if (name.empty() || name == node->name()) return false;
        return session()->apply(renameFor(*node, value.toString()));
    }
    const Node* field = edited(index);
    if (index.column() != typed || !field) return false;
    QString text = value.toString();
    if (role == Qt::CheckStateRole) text = value.toInt() == Qt::Checked ? "true" : "false";
    if (text.toStdString() == field->value && !(field->nothing && !text.isEmpty())) return false;
    return session()->apply(editFor(*session(), *field, text));
}

} // namespace slab::ui
