#pragma once
#include "core/document/project.h"
#include <QDialog>

class QComboBox;
class QLabel;
class QListWidget;

namespace slab::ui {

/// Asks which ready body to begin with, in which units and over which donor.
class StartDialog : public QDialog {
    Q_OBJECT
public:
    /// @param units  of the document that is open: offered first
    explicit StartDialog(const std::string& units, QWidget* parent = nullptr);
    /// The body as chosen. @error what startProject() says
    [[nodiscard]] Expected<Project> project() const;
    [[nodiscard]] QListWidget* kinds() const { return m_kinds; }

private:
    void describe();
    QListWidget* m_kinds;
    QLabel* m_words;
    QComboBox *m_units, *m_donor;
};

} // namespace slab::ui
