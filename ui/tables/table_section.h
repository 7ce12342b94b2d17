#pragma once
#include "ui/tables/document_model.h"
#include <QWidget>

class QPushButton;
class QToolButton;
class QVBoxLayout;

namespace slab::ui {

class ElidedLabel;
class TableTree;

/// What one table shows.
struct SectionSpec {
    QString name, shortName;
    QString note; ///< quiet words at the right of its head
    std::vector<std::string> roots;
    bool open = true;
    QString tip;
    bool unfolded = false; ///< lists among the top rows show their entries
};

/// A part of the left column: a head that folds it, buttons that add and change, and the table.
class TableSection : public QWidget {
    Q_OBJECT
public:
    TableSection(DocumentSource* source, SectionSpec spec, QWidget* parent = nullptr);
    [[nodiscard]] const SectionSpec& spec() const { return m_spec; }
    [[nodiscard]] TableTree* tree() const { return m_tree; }
    [[nodiscard]] DocumentModel* model() const { return m_model; }
    /// Room under the head for a table more.
    [[nodiscard]] QVBoxLayout* top() const { return m_top; }
    void setOpen(bool open);
    /// In the pile: as high as its rows; alone: scrolls inside and cannot be folded.
    void setAlone(bool alone);
    void setNote(const QString& note);
    /// Makes the row of this pointer current. @return false if it is not in this table
    bool reveal(const std::string& pointer);
    /// Chooses the row without opening or scrolling anything.
    void mark(const std::string& pointer);

    void offerAdd();                             ///< unfolds the menu of what can be added
    void addEntryTo(const std::string& pointer); ///< at the end of the list there
    void addEntryHere(const QString& kind = {});
    void duplicateHere();
    void deleteHere();
    void moveHere(int by);
    /// The form of the current row; of any other row what is typed there.
    void copyHere();
    void cutHere();
    void pasteHere(); ///< forms from the clipboard, into the table of forms

Q_SIGNALS:
    void formChosen(const QString& form);

private:
    void makeHead();
    void makeMenus();
    void fillAddMenu();
    [[nodiscard]] const Node* currentEntry() const;
    [[nodiscard]] QString currentForm() const; ///< empty where the row is of none
    [[nodiscard]] bool holdsForms() const;
    [[nodiscard]] const Node* listForAdd(int& at) const;
    void showContextMenu(const QPoint& at);

    SectionSpec m_spec;
    DocumentModel* m_model;
    TableTree* m_tree;
    QPushButton* m_head;
    ElidedLabel* m_note;
    QToolButton *m_add, *m_more;
    QVBoxLayout* m_top;
    QWidget* m_content;
    bool m_open = true, m_alone = false;
};

} // namespace slab::ui
