// The hand in the tables on the left.
#include "tests/ui_window/hand.h"
#include "ui/tables/plates_model.h"
#include "ui/tables/plates_table.h"
#include "ui/tables/table_section.h"
#include "ui/tables/table_tree.h"
#include "ui/window/left_column.h"
#include "ui/window/main_window.h"
#include <QApplication>
#include <QComboBox>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QScrollArea>
#include <QTest>
#include <QTimer>
#include <QToolButton>
#include <QWheelEvent>
#include <stdexcept>

namespace slab::ui::test {
namespace {

[[noreturn]] void notThere(const QString& what) {
    throw std::runtime_error(what.toStdString());
}

QPushButton* headOf(const TableSection& section) {
    for (auto* button : section.findChildren<QPushButton*>())
        if (button->accessibleName() == section.spec().name) return button;
    notThere("no head of " + section.spec().name);
}

/// What is open in a cell now; those that were closed may not be gone yet.
QWidget* editorIn(const TableTree& tree) {
    for (auto* child : tree.viewport()->findChildren<QWidget*>(Qt::FindDirectChildrenOnly))
        if (child->isVisible() && (qobject_cast<QLineEdit*>(child) || qobject_cast<QComboBox*>(child)))
            return child;
    return nullptr;
}

/// Opens the list of a box and takes the entry of these words, by keys.
void pickIn(QComboBox& box, const QString& word) {
    const int at = box.findText(word);
    if (at < 0) notThere("not offered: " + word);
    QTest::keyClick(&box, Qt::Key_Down, Qt::AltModifier);
    QAbstractItemView* list = box.view();
    if (!QTest::qWaitFor([&] { return list->isVisible(); })) notThere("the list stays shut");
    QTest::keyClick(list, Qt::Key_Home);
    for (int i = 0; i < at; ++i) QTest::keyClick(list, Qt::Key_Down);
    QTest::keyClick(list, Qt::Key_Return);
    QCoreApplication::processEvents();
}

} // namespace

/// Turns the wheel until the place can be seen. A table takes the height of its rows a moment after they
/// come.
void Hand::scrollTo(QWidget& inside, const QPoint& at) const {
    if (!QTest::qWaitFor([&] { return inside.height() > at.y(); })) notThere("a table too low for its rows");
    auto* area = m_window.tables()->findChild<QScrollArea*>();
    if (!area || !area->isVisible()) return;
    QWidget* sight = area->viewport();
    for (int turns = 0; turns < 400; ++turns) {
        const int y = inside.mapTo(sight, at).y();
        if (y >= 4 && y < sight->height() - 4) return;
        const QPoint by(0, y < 4 ? 120 : -120);
        const QPointF middle = sight->rect().center();
        QWheelEvent wheel(middle, sight->mapToGlobal(middle), {}, by, Qt::NoButton, {}, Qt::NoScrollPhase,
                          false);
        QApplication::sendEvent(sight, &wheel);
        QCoreApplication::processEvents();
    }
    notThere("out of sight, however far the wheel is turned");
}

TableSection& Hand::section(const QString& table) {
    for (TableSection* one : m_window.tables()->sections()) {
        if (one->spec().name != table) continue;
        if (!one->isVisible()) press("Show " + one->spec().shortName); // one table at a time
        QPushButton* head = headOf(*one);
        scrollTo(*head, head->rect().center());
        if (!one->tree()->isVisible()) QTest::mouseClick(head, Qt::LeftButton);
        QCoreApplication::processEvents();
        return *one;
    }
    notThere("no table " + table);
}

/// Clicks the arrow before a row. What is worked out meanwhile may put rows in, so places are read anew.
void Hand::unfold(TableTree& tree, const QPersistentModelIndex& row) const {
    if (tree.isExpanded(row)) return;
    scrollTo(*tree.viewport(), tree.visualRect(row).center());
    const QRect words = tree.visualRect(row);
    const QPoint arrow(words.left() - tree.indentation() / 2, words.center().y());
    QTest::mouseClick(tree.viewport(), Qt::LeftButton, {}, arrow);
    if (!tree.isExpanded(row)) notThere("does not unfold: " + row.data().toString());
    QCoreApplication::processEvents();
}

/// Goes down to a row and unfolds what lies on the way.
QModelIndex Hand::row(TableSection& section, const QStringList& words) {
    TableTree* tree = section.tree();
    const DocumentModel& model = *section.model();
    QPersistentModelIndex at;
    for (const QString& word : words) {
        if (at.isValid()) unfold(*tree, at);
        QModelIndex next;
        for (int i = 0; i < model.rowCount(at) && !next.isValid(); ++i) {
            const QModelIndex here = model.index(i, DocumentModel::what, at);
            if (here.data().toString() == word || word == QString("#%1").arg(i + 1)) next = here;
        }
        if (!next.isValid()) notThere("no row " + words.join(" > ") + " in " + section.spec().name);
        at = next;
    }
    scrollTo(*tree->viewport(), tree->visualRect(at).center());
    return at;
}

void Hand::add(const QString& table, const QString& words) {
    TableSection& where = section(table);
    for (auto* button : where.findChildren<QToolButton*>()) {
        if (button->text() != "+" || !button->menu()) continue;
        QMenu* menu = button->menu();
        QString missing;
        QTimer::singleShot(0, menu, [&missing, menu, words] {
            for (QAction* action : menu->actions())
                if (action->text().startsWith(words))
                    return QTest::mouseClick(menu, Qt::LeftButton, {}, menu->actionGeometry(action).center());
            missing = words;
            menu->close();
        });
        QTest::mouseClick(button, Qt::LeftButton); // comes back when the menu is shut
        QCoreApplication::processEvents();
        if (!missing.isEmpty()) notThere("not offered at " + table + ": " + missing);
        return;
    }
    notThere("no + at " + table);
}

void Hand::insert(const QString& table, const QStringList& words) {
    TableSection& where = section(table);
    const QModelIndex at = row(where, words);
    QTest::mouseClick(where.tree()->viewport(), Qt::LeftButton, {}, where.tree()->visualRect(at).center());
    QTest::keyClick(where.tree(), Qt::Key_Insert);
    QCoreApplication::processEvents();
}

void Hand::edit(TableTree& tree, const QModelIndex& cell, const QString& typed) {
    const QPoint at = tree.visualRect(cell).center();
    QTest::mouseClick(tree.viewport(), Qt::LeftButton, {}, at);
    QTest::mouseDClick(tree.viewport(), Qt::LeftButton, {}, at);
    QWidget* editor = editorIn(tree);
    if (!editor) notThere("cannot be typed in: " + cell.siblingAtColumn(0).data().toString());
    typeOver(*editor, typed);
    QTest::keyClick(editor, Qt::Key_Return);
    QCoreApplication::processEvents();
}

void Hand::choose(TableTree& tree, const QModelIndex& cell, const QString& word) {
    const QPoint at = tree.visualRect(cell).center();
    QTest::mouseClick(tree.viewport(), Qt::LeftButton, {}, at);
    QTest::mouseDClick(tree.viewport(), Qt::LeftButton, {}, at);
    auto* box = qobject_cast<QComboBox*>(editorIn(tree));
    if (!box) notThere("no choices: " + cell.siblingAtColumn(0).data().toString());
    pickIn(*box, word);
}

void Hand::set(const QString& table, const QStringList& words, const QString& typed) {
    TableSection& where = section(table);
    edit(*where.tree(), row(where, words).siblingAtColumn(DocumentModel::typed), typed);
}

void Hand::pick(const QString& table, const QStringList& words, const QString& word) {
    TableSection& where = section(table);
    choose(*where.tree(), row(where, words).siblingAtColumn(DocumentModel::typed), word);
}

void Hand::tick(const QString& table, const QStringList& words) {
    TableSection& where = section(table);
    const QModelIndex cell = row(where, words).siblingAtColumn(DocumentModel::typed);
    QTest::mouseClick(where.tree()->viewport(), Qt::LeftButton, {}, where.tree()->visualRect(cell).center());
    QCoreApplication::processEvents();
}

void Hand::rename(const QString& table, const QStringList& words, const QString& name) {
    TableSection& where = section(table);
    edit(*where.tree(), row(where, words), name);
}

QModelIndex Hand::plateRow(const QString& plate, int column) {
    section("Plates and materials");
    auto* plates = m_window.tables()->findChild<PlatesTable*>();
    const int at = plates->plates()->rowOf(plate);
    if (at < 0) notThere("no plate " + plate);
    const QModelIndex cell = plates->plates()->index(at, column);
    scrollTo(*plates->viewport(), plates->visualRect(cell).center());
    return cell;
}

void Hand::cutFrom(const QString& plate, const QString& sheet) {
    const QModelIndex cell = plateRow(plate, PlatesModel::sheet);
    choose(*m_window.tables()->findChild<PlatesTable*>(), cell, sheet);
}

void Hand::rank(const QString& plate, const QString& place) {
    const QModelIndex cell = plateRow(plate, PlatesModel::rank);
    edit(*m_window.tables()->findChild<PlatesTable*>(), cell, place);
}

void Hand::leaveOut(const QString& plate) {
    const QModelIndex cell = plateRow(plate, PlatesModel::plate);
    auto* plates = m_window.tables()->findChild<PlatesTable*>();
    QTest::mouseClick(plates->viewport(), Qt::LeftButton, {},
                      plates->visualRect(cell).topLeft() + QPoint(9, plates->visualRect(cell).height() / 2));
    QCoreApplication::processEvents();
}

} // namespace slab::ui::test
