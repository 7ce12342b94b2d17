#pragma once
#include "core/board/board.h"
#include "core/document/project.h"
#include <QDialog>
#include <map>

class QComboBox;
class QLabel;
class QListWidget;

namespace slab::ui {

class StartPreview;

/// Asks which ready body to begin with, in which units and round which donor; shows each as it would be
/// built.
class StartDialog : public QDialog {
    Q_OBJECT
public:
    /// @param open  the document that is open: its units are offered first, and its donor if it has one
    explicit StartDialog(Project open, QWidget* parent = nullptr);
    /// The body as chosen. @error what startProject() says
    [[nodiscard]] Expected<Project> project() const;
    [[nodiscard]] QListWidget* kinds() const { return m_kinds; }
    [[nodiscard]] QComboBox* donors() const { return m_donor; }
    [[nodiscard]] QString sizeWords() const; ///< of the body shown: size, plates

private:
    /// A start made and looked at.
    struct Made {
        Expected<Project> project;
        BoardScene scene;
        QString words;
    };
    void addChoices(class QFormLayout* form);
    void describe();
    void redrawIcons();
    [[nodiscard]] const Made& made(std::size_t kind) const;
    Project m_open;
    mutable std::map<std::string, Made> m_made; ///< by kind, units and donor
    QListWidget* m_kinds;
    StartPreview* m_preview;
    QLabel *m_words, *m_size;
    QComboBox *m_units, *m_donor;
};

} // namespace slab::ui
