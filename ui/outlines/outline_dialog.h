#pragma once
#include "ui/outlines/outline_import.h"
#include <QDialog>

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;

namespace slab::ui {

class OutlinePreview;
class Session;

/// Outlines of a drawing become forms: which of them, in which unit the drawing is, and what each becomes.
class OutlineDialog : public QDialog {
    Q_OBJECT
public:
    OutlineDialog(Session* session, SvgFile file, const QString& name, QWidget* parent = nullptr);
    /// Adds the forms, and goes; what cannot be made is told beside the cause.
    void accept() override;
    [[nodiscard]] OutlinePreview* preview() const { return m_preview; }
    [[nodiscard]] QListWidget* list() const { return m_list; }
    [[nodiscard]] QComboBox* units() const { return m_units; }
    [[nodiscard]] QComboBox* uses() const { return m_use; }
    [[nodiscard]] QLineEdit* distance() const { return m_distance; }
    [[nodiscard]] QPushButton* make() const { return m_make; }
    [[nodiscard]] QLineEdit* tolerance() const { return m_tolerance; }
    [[nodiscard]] QLabel* told() const { return m_told; } ///< what the ticked outlines come to
    [[nodiscard]] int replaced() const;    ///< form whose outline is replaced; -1 = forms are added
    [[nodiscard]] QString trouble() const; ///< why nothing can be made; empty = it can

private:
    void build(const QString& name);
    class QWidget* buildChoices();
    void refresh();
    [[nodiscard]] std::vector<SvgChoice> taken() const;
    [[nodiscard]] Expected<OutlineWish> wish() const;
    [[nodiscard]] Expected<Edit> edit() const;

    Session* m_session;
    std::vector<SvgChoice> m_outlines;
    std::vector<SvgUnit> m_choices;
    QStringList m_leftOut;
    std::vector<int> m_replaceable;
    OutlinePreview* m_preview = nullptr;
    QListWidget* m_list = nullptr;
    QComboBox *m_units = nullptr, *m_use = nullptr, *m_space = nullptr;
    QLineEdit *m_distance = nullptr, *m_size = nullptr, *m_tolerance = nullptr;
    QCheckBox* m_axes = nullptr;
    QLabel *m_pointWords = nullptr, *m_distanceLabel = nullptr, *m_sizeLabel = nullptr, *m_told = nullptr,
           *m_wrong = nullptr;
    QPushButton* m_make = nullptr;
};

} // namespace slab::ui
