#pragma once
#include "core/evaluate/evaluate.h"
#include <Eigen/Core>
#include <QDialog>
#include <array>

class QDialogButtonBox;
class QDoubleSpinBox;
class QLabel;

namespace slab::ui {

class Session;

/// Asks by how much the subject is to be longer, wider and higher; the survey's advice stands in it where
/// there is one. Accepted it is one undo step.
class StretchDialog : public QDialog {
    Q_OBJECT
public:
    explicit StretchDialog(Session* session, QWidget* parent = nullptr);
    void accept() override;

private:
    [[nodiscard]] Eigen::Vector3d factors() const;
    void refresh();
    Session* m_session;
    Evaluator m_evaluator; ///< builds the stretched subject, for its size
    std::array<QDoubleSpinBox*, 3> m_more;
    QLabel* m_size;
    QLabel* m_wrong;
    QDialogButtonBox* m_buttons;
};

} // namespace slab::ui
