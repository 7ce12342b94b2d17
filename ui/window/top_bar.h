#pragma once
#include <QWidget>

class QLabel;
class QMenuBar;
class QPushButton;
class QToolButton;

namespace slab::ui {

class DocumentFile;
class ElidedLabel;
class Session;

/// Title, saved state, menus, and the buttons that a builder reaches for all day.
class TopBar : public QWidget {
    Q_OBJECT
public:
    TopBar(Session* session, DocumentFile* file, QWidget* parent = nullptr);
    [[nodiscard]] QMenuBar* menus() const { return m_menus; }
    void setNarrow(bool narrow); ///< little room: the title gives way first

protected:
    void changeEvent(QEvent* event) override;

Q_SIGNALS:
    void printWanted();
    void packWanted();
    void darkWanted(bool dark);

private:
    void refresh();
    void tellColours();
    void makeButtons();

    Session* m_session;
    DocumentFile* m_file;
    ElidedLabel* m_title;
    QLabel* m_state;
    QMenuBar* m_menus;
    QPushButton *m_undo, *m_redo, *m_dark, *m_print, *m_pack;
    QToolButton* m_units;
    bool m_narrow = false;
};

/// The word for a document unit on the units button: "mm", "ft-in".
[[nodiscard]] QString unitsWord(const QString& units);

} // namespace slab::ui
