#pragma once
// A builder's hand on the real window: mouse and keyboard events and nothing else. It reads where things are;
// it calls no action, no document and no session. What cannot be found or done throws and says what.
#include "core/board/board.h"
#include <QKeySequence>
#include <QModelIndex>
#include <QPoint>
#include <QStringList>
#include <functional>

class QWidget;

namespace slab::ui {
class BoardCanvas;
class MainWindow;
class TableSection;
class TableTree;
} // namespace slab::ui

namespace slab::ui::test {

class Hand {
public:
    explicit Hand(MainWindow& window);

    /// Keys to whatever has the focus, shortcuts of the menus among them: "Ctrl+Shift+Z".
    void keys(const char* sequence, int times = 1);
    /// An entry of the menus by its words: {"View", "Drawing board"}.
    void menu(const QStringList& words);
    /// Opens a menu at the pointer or under a button, and clicks an entry of it.
    void offered(const std::function<void()>& opens, const QString& words);
    /// A button that is seen, by its accessible name.
    void press(const QString& button);
    /// Does `opens`, then `deed` in the dialog that it opens; the deed has to close it.
    void inDialog(const std::function<void()>& opens, const std::function<void(QWidget&)>& deed);
    /// Types a path into the file dialog that `opens` opens.
    void giveFile(const std::function<void()>& opens, const QString& path);

    // Tables. A row is named by the words in its first column from the top, {"hull", "outline", "bow", "x"};
    // "#2" is the second row under what stands before it.
    void add(const QString& table, const QString& words);      ///< by the menu of its "+"
    void insert(const QString& table, const QStringList& row); ///< by the Insert key
    void set(const QString& table, const QStringList& row, const QString& typed);
    void pick(const QString& table, const QStringList& row, const QString& word); ///< from the cell's choices
    void tick(const QString& table, const QStringList& row);
    void rename(const QString& table, const QStringList& row, const QString& name);
    /// The list of plates: the sheet of one, its place in the order, its tick.
    void cutFrom(const QString& plate, const QString& sheet);
    void rank(const QString& plate, const QString& place);
    void leaveOut(const QString& plate);

    // The drawing board. Places are mm on the sheet, at build size.
    void click(BoardView view, double right, double up, Qt::KeyboardModifiers held = {});
    void drag(BoardView view, const Vec2& from, const Vec2& to);
    void point(BoardView view, double right, double up); ///< moves the pointer there
    void boardKey(Qt::Key key, Qt::KeyboardModifiers held = {});
    /// Types into an entry under the board by its label.
    void type(const QString& entry, const QString& text, bool enter = true);
    /// Types the corners of what is being drawn, each with two formulas.
    void corners(const QStringList& labels, const QList<QStringList>& places);

private:
    MainWindow& m_window;

    [[nodiscard]] BoardCanvas& canvas() const;
    [[nodiscard]] QPoint pixel(BoardView view, double right, double up) const;
    void pointer(const QPoint& at, Qt::MouseButtons held, Qt::KeyboardModifiers keys = {}) const;
    TableSection& section(const QString& table);
    QModelIndex row(TableSection& section, const QStringList& words);
    void unfold(TableTree& tree, const QPersistentModelIndex& row) const;
    void scrollTo(QWidget& inside, const QPoint& at) const;
    void edit(TableTree& tree, const QModelIndex& cell, const QString& typed);
    void choose(TableTree& tree, const QModelIndex& cell, const QString& word);
    QModelIndex plateRow(const QString& plate, int column);
};

/// Selects all in an entry and types over it; a list of names that opens on the way is put away.
void typeOver(QWidget& entry, const QString& text);

} // namespace slab::ui::test
