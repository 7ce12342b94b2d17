#pragma once
#include "ui/window/exporter.h"
#include <QDialog>

class QButtonGroup;
class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QVBoxLayout;

namespace slab::ui {

/// What to print at true size: one calibration page first, one panel, or all; on which paper.
class PrintDialog : public QDialog {
    Q_OBJECT
public:
    explicit PrintDialog(Session* session, QWidget* parent = nullptr);
    [[nodiscard]] PrintChoice choice() const;

private:
    void addFields(QVBoxLayout* all);
    void refresh();

    Session* m_session;
    QComboBox *m_paper, *m_panel;
    QButtonGroup* m_what;
    QDoubleSpinBox *m_border, *m_overlap;
    QLabel* m_summary;
};

} // namespace slab::ui
