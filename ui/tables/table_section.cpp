#include "ui/tables/table_section.h"
#include "ui/session/session.h"
#include "ui/tables/field_words.h"
#include "ui/tables/form_clipboard.h"
#include "ui/tables/table_edits.h"
#include "ui/tables/table_tree.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QClipboard>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QMenu>
#include <QPushButton>
#include <QTimer>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

namespace slab::ui {

namespace {

bool isList(const Node& n) {
    return n.kind == Node::Kind::list || n.kind == Node::Kind::names || n.kind == Node::Kind::map;
}

/// Lists that stand in this section, not those inside an entry of one.
void collectLists(const Node& under, std::vector<const Node*>& found) {
    for (const auto& child : under.children) {
        if (child->entry) continue;
        if (isList(*child)) found.push_back(child.get());
        collectLists(*child, found);
    }
}

/// Entries that the document has; those that are only offered stand behind them.
int present(const Node& list) {
    return static_cast<int>(std::count_if(list.children.begin(), list.children.end(),
                                          [](const auto& child) { return !child->absent; }));
}

std::vector<const Node*> listsOf(const Node& root) {
    std::vector<const Node*> found;
    collectLists(root, found);
    return found;
}

QToolButton* smallButton(const QString& text, const QString& name, const QString& tip) {
    auto* button = new QToolButton;
    button->setText(text);
    button->setObjectName("flat");
    button->setFont(Theme::words(12));
    button->setPopupMode(QToolButton::InstantPopup);
    button->setStyleSheet("padding: 1px 3px;");
    button->setFixedWidth(26);
    explain(button, name, tip);
    return button;
}

} // namespace

TableSection::TableSection(DocumentSource* source, SectionSpec spec, QWidget* parent)
    : QWidget(parent), m_spec(std::move(spec)), m_model(new DocumentModel(source, m_spec.roots, this)),
      m_tree(new TableTree), m_head(new QPushButton), m_note(new ElidedLabel) {
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(3);
    makeHead();
    auto* line = new QFrame;
    line->setFixedHeight(1);
    line->setStyleSheet("background: palette(mid);");
    all->addWidget(line);
    m_content = new QWidget;
    m_top = new QVBoxLayout(m_content);
    m_top->setContentsMargins(0, 0, 0, 0);
    m_top->setSpacing(4);
    m_tree->setModel(m_model);
    explain(m_tree, m_spec.name, m_spec.tip + " Return edits, Space ticks, Insert adds, Delete deletes.");
    m_tree->viewport()->setAccessibleName(m_spec.name + " rows");
    m_top->addWidget(m_tree, 1);
    all->addWidget(m_content, 1);
    makeMenus();
    connect(m_tree, &TableTree::addWanted, this, [this] { addEntryHere(); });
    connect(m_tree, &TableTree::duplicateWanted, this, &TableSection::duplicateHere);
    connect(m_tree, &TableTree::deleteWanted, this, &TableSection::deleteHere);
    connect(m_tree, &TableTree::moveWanted, this, &TableSection::moveHere);
    connect(m_tree, &TableTree::copyWanted, this, &TableSection::copyHere);
    connect(m_tree, &TableTree::cutWanted, this, &TableSection::cutHere);
    connect(m_tree, &TableTree::pasteWanted, this, &TableSection::pasteHere);
    m_tree->setContextMenuPolicy(Qt::CustomContextMenu);
    connect(m_tree, &QWidget::customContextMenuRequested, this, &TableSection::showContextMenu);
    connect(m_tree->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& now) {
                const Node* node = now.isValid() ? m_model->nodeOf(now) : nullptr;
                while (node && !(node->owner == "form" && node->entry && node->kind == Node::Kind::group))
                    node = node->parent;
                if (node && m_tree->hasFocus()) Q_EMIT formChosen(QString::fromStdString(node->name()));
            });
    // Lists that stand beside other rows show their entries at once.
    const auto unfold = [this] {
        for (int i = 0; i < m_model->rowCount(); ++i) {
            const QModelIndex at = m_model->index(i, 0);
            if (m_model->nodeOf(at)->kind == Node::Kind::list && m_model->rowCount(at) < 12)
                m_tree->expand(at);
        }
    };
    if (m_spec.unfolded) {
        unfold();
        connect(m_model, &QAbstractItemModel::rowsInserted, m_tree, unfold);
    }
    setNote(m_spec.note);
    setOpen(m_spec.open);
}

void TableSection::makeHead() {
    auto* row = new QHBoxLayout;
    row->setSpacing(4);
    m_head->setObjectName("flat");
    m_head->setFont(Theme::words(13, true));
    m_head->setStyleSheet("text-align: left; padding-left: 0; padding-right: 4px;");
    connect(m_head, &QPushButton::clicked, this, [this] { setOpen(!m_open); });
    m_note->setQuiet(true);
    m_note->setFont(Theme::words(12));
    m_note->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    m_add = smallButton("+", "Add to " + m_spec.name, "Adds a row here.");
    m_more = smallButton("⋯", "Change rows of " + m_spec.name,
                         "Doubles, renames, moves or deletes the chosen row.");
    row->addWidget(m_head);
    row->addWidget(m_note, 1);
    row->addWidget(m_add);
    row->addWidget(m_more);
    static_cast<QVBoxLayout*>(layout())->addLayout(row);
}

void TableSection::makeMenus() {
    auto* add = new QMenu(m_add);
    m_add->setMenu(add);
    connect(add, &QMenu::aboutToShow, this, &TableSection::fillAddMenu);
    auto* more = new QMenu(m_more);
    const auto deed = [&](const QString& words, const QString& key, auto&& what) {
        QAction* action = more->addAction(words + "\t" + key);
        connect(action, &QAction::triggered, this, what);
    };
    deed("Edit", "Return",
         [this] { m_tree->edit(m_tree->currentIndex().siblingAtColumn(DocumentModel::typed)); });
    deed("Rename", "", [this] {
        if (const Node* entry = currentEntry())
            m_tree->edit(m_model->find(entry->pointer(), DocumentModel::what));
    });
    if (holdsForms()) {
        deed("Copy", "Ctrl+C", [this] { copyHere(); });
        deed("Cut", "Ctrl+X", [this] { cutHere(); });
        deed("Paste", "Ctrl+V", [this] { pasteHere(); });
    }
    deed("Duplicate", "Ctrl+D", [this] { duplicateHere(); });
    deed("Move up", "Alt+Up", [this] { moveHere(-1); });
    deed("Move down", "Alt+Down", [this] { moveHere(1); });
    deed("Delete", "Del", [this] { deleteHere(); });
    m_more->setMenu(more);
}

void TableSection::fillAddMenu() {
    QMenu* menu = m_add->menu();
    menu->clear();
    int at = 0;
    const Node* list = listForAdd(at);
    const std::string owner = list ? list->owner : "";
    const auto deed = [&](const QString& words, const QString& kind) {
        connect(menu->addAction(words), &QAction::triggered, this, [this, kind] { addEntryHere(kind); });
    };
    if (owner == "form" && list->key == "forms") {
        for (const auto word : detail::kShapeWords)
            deed(QString::fromUtf8(word.data(), static_cast<int>(word.size())) + " form",
                 QString::fromUtf8(word.data(), static_cast<int>(word.size())));
    } else if (owner == "sheet") {
        for (const SheetIdea& idea : sheetIdeas())
            deed(QString::fromStdString(idea.name + " · " + idea.thickness),
                 QString::fromStdString(idea.name));
        deed("Plain sheet", {});
    } else if (list) {
        deed("Add to " + wordsOf(*list).label, {});
    }
    for (const Node* other : listsOf(*m_model->nodeOf({})))
        if (other != list)
            connect(menu->addAction("Add to " + wordsOf(*other).label), &QAction::triggered, this,
                    [this, pointer = other->pointer()] { addEntryTo(pointer); });
}

const Node* TableSection::currentEntry() const {
    const QModelIndex now = m_tree->currentIndex();
    const Node* node = now.isValid() ? m_model->nodeOf(now) : nullptr;
    while (node && !(node->entry && node->parent && !node->absent)) node = node->parent;
    return node;
}

const Node* TableSection::listForAdd(int& at) const {
    const QModelIndex now = m_tree->currentIndex();
    const Node* node = now.isValid() ? m_model->nodeOf(now) : nullptr;
    if (node && node->absent && node->parent && isList(*node->parent)) node = node->parent;
    if (node && isList(*node)) {
        at = present(*node);
        return node;
    }
    if (const Node* entry = currentEntry()) {
        at = entry->row() + 1;
        return entry->parent;
    }
    const Node* top = m_model->topList();
    if (!top)
        for (const auto& c : m_model->nodeOf({})->children)
            if (!top && isList(*c)) top = c.get();
    at = top ? present(*top) : 0;
    return top;
}

void TableSection::offerAdd() {
    setOpen(true);
    QTimer::singleShot(0, m_add, &QToolButton::showMenu);
}

void TableSection::addEntryTo(const std::string& pointer) {
    const QModelIndex at = m_model->find(pointer);
    if (!at.isValid()) return;
    m_tree->setCurrentIndex(at);
    addEntryHere();
}

void TableSection::addEntryHere(const QString& kind) {
    int at = 0;
    const Node* list = listForAdd(at);
    if (!list) {
        offerAdd();
        return;
    }
    const std::string pointer = list->pointer();
    const Node* chosen = m_tree->currentIndex().isValid() ? m_model->nodeOf(m_tree->currentIndex()) : nullptr;
    const bool offered = chosen && chosen->absent && chosen->parent == list;
    const QString what = offered && kind.isEmpty() ? QString::fromStdString(chosen->key) : kind;
    if (!m_model->session()->apply(addEntry(*m_model->session(), *list, at, what))) return;
    // By place, not by name: the entries of a group go by their keys.
    const Node* now = m_model->nodeOf(m_model->find(pointer));
    const bool there = now && static_cast<std::size_t>(at) < now->children.size();
    reveal(there ? now->children[static_cast<std::size_t>(at)]->pointer() : pointer);
}

bool TableSection::holdsForms() const {
    return std::find(m_spec.roots.begin(), m_spec.roots.end(), "/forms") != m_spec.roots.end();
}

QString TableSection::currentForm() const {
    const QModelIndex now = m_tree->currentIndex();
    const Node* node = holdsForms() && now.isValid() ? m_model->nodeOf(now) : nullptr;
    while (node && !(node->owner == "form" && node->entry && node->kind == Node::Kind::group))
        node = node->parent;
    return node && !node->absent ? QString::fromStdString(node->name()) : QString();
}

void TableSection::copyHere() {
    if (const QString form = currentForm(); !form.isEmpty()) {
        copyForm(*m_model->session(), {form});
        return;
    }
    const QModelIndex now = m_tree->currentIndex();
    if (!now.isValid()) return;
    const QString typed = now.siblingAtColumn(DocumentModel::typed).data().toString();
    QGuiApplication::clipboard()->setText(typed.isEmpty() ? now.siblingAtColumn(0).data().toString() : typed);
}

void TableSection::cutHere() {
    if (const QString form = currentForm(); !form.isEmpty()) cutForm(*m_model->session(), {form});
}

void TableSection::pasteHere() {
    if (!holdsForms() || !pasteForms(*m_model->session())) return;
    reveal("/forms/" + std::to_string(m_model->session()->project().forms.size() - 1));
}

void TableSection::duplicateHere() {
    const Node* entry = currentEntry();
    if (!entry) return;
    if (holdsForms() && entry->parent->pointer() == "/forms") {
        // With the openings, materials and joints of its plates, not the bare form.
        if (duplicateForm(*m_model->session(), {currentForm()}))
            reveal("/forms/" + std::to_string(m_model->session()->project().forms.size() - 1));
        return;
    }
    const std::string pointer = entry->parent->pointer();
    const int at = entry->row() + 1;
    if (m_model->session()->apply(duplicateEntry(*m_model->session(), *entry)))
        reveal(pointer + "/" + std::to_string(at));
}

void TableSection::deleteHere() {
    if (const Node* entry = currentEntry()) m_model->session()->apply(removeEntry(*entry));
}

void TableSection::moveHere(int by) {
    const Node* entry = currentEntry();
    if (!entry) return;
    const int to = entry->row() + by;
    if (to < 0 || to >= present(*entry->parent)) return;
    const Node& list = *entry->parent;
    const std::string pointer = list.pointer();
    const bool map = list.kind == Node::Kind::map;
    const std::string key = entry->key;
    if (m_model->session()->apply(moveEntry(*entry, to)) && !map) reveal(pointer + "/" + std::to_string(to));
}

bool TableSection::reveal(const std::string& pointer) {
    const QModelIndex at = m_model->find(pointer);
    if (!at.isValid()) return false;
    setOpen(true);
    for (QModelIndex up = at.parent(); up.isValid(); up = up.parent()) m_tree->expand(up.siblingAtColumn(0));
    m_tree->setCurrentIndex(at);
    m_tree->scrollTo(at);
    return true;
}

void TableSection::mark(const std::string& pointer) {
    const QModelIndex at = m_model->find(pointer);
    if (at.isValid() && !m_tree->hasFocus())
        m_tree->selectionModel()->setCurrentIndex(at, QItemSelectionModel::ClearAndSelect |
                                                          QItemSelectionModel::Rows);
}

void TableSection::showContextMenu(const QPoint& at) {
    QMenu menu;
    menu.addActions(m_more->menu()->actions());
    menu.exec(m_tree->viewport()->mapToGlobal(at));
}

void TableSection::setNote(const QString& note) {
    m_note->setText(note);
}

void TableSection::setOpen(bool open) {
    m_open = open || m_alone;
    m_content->setVisible(m_open);
    m_head->setText((m_alone ? "" : m_open ? "▾ " : "▸ ") + m_spec.name);
    explain(m_head, m_spec.name, m_spec.tip + (m_open ? " Click to fold it." : " Click to unfold it."));
    m_add->setVisible(m_open);
    m_more->setVisible(m_open);
}

void TableSection::setAlone(bool alone) {
    m_alone = alone;
    m_tree->setFitting(!alone);
    m_head->setEnabled(true);
    setOpen(alone ? true : m_spec.open);
}

} // namespace slab::ui
