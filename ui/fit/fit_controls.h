#pragma once
#include "ui/fit/ride_marks.h"
#include "ui/fit/view_camera.h"
#include <QWidget>
#include <array>

class QComboBox;
class QSlider;
class QToolButton;

namespace slab {
struct OpeningKind;
struct MechanismWords;
} // namespace slab

namespace slab::ui {

class FlowLayout;

/// How the builder looks at the body: view state, not part of the document.
struct FitState3d {
    double seeThrough = 0.68; ///< 0 … 1
    double apart = 0;         ///< 0 … 1
    int sectionAxis = -1;     ///< 0, 1, 2; -1 = whole
    double sectionAt = 0.5;   ///< 0 … 1 along the shell
    bool keepBelow = true;
    bool donor = true, rider = true, parallel = false, moving = false;
    GroundMarks marks;
    bool operator==(const FitState3d&) const = default;
};

/// The rows under the 3D view.
class FitControls : public QWidget {
    Q_OBJECT
public:
    explicit FitControls(QWidget* parent = nullptr);
    [[nodiscard]] const FitState3d& state() const { return m_state; }
    void setKeepBelow(bool below);
    /// What a click puts in; null = clicks choose.
    [[nodiscard]] const OpeningKind* opening() const { return m_opening; }
    void arm(const OpeningKind* kind);
    /// A mechanism that a click puts in; null = none.
    [[nodiscard]] const MechanismWords* mechanism() const { return m_mechanism; }
    void arm(const MechanismWords* kind);
    void disarm();
    void offerOpenings(); ///< opens the menu
    void offerMechanisms();
    void toggleMoving();
    void toggleParallel();
    /// Marks the button of the direction that the eye has; none = a free view.
    void mark(std::optional<Direction> direction);

Q_SIGNALS:
    void directionWanted(slab::ui::Direction direction);
    void fitWanted();
    void sectionStarted(); ///< an axis was chosen: the owner picks the side to keep
    void mechanismWanted(const slab::MechanismWords* kind); ///< null = it is put back
    void changed();

private:
    QToolButton* button(const QString& words, const QString& tip, bool checkable);
    QWidget* slider(const QString& words, const QString& tip, double value, double FitState3d::*field,
                    QSlider** out = nullptr);
    QToolButton* toggle(const QString& words, const QString& tip, bool FitState3d::*field);
    void addDirections(FlowLayout& rows);
    void addToggles(FlowLayout& rows);
    QWidget* sectionGroup();
    QToolButton* groundButton();

    FitState3d m_state;
    std::array<QToolButton*, 4> m_directions{};
    const OpeningKind* m_opening = nullptr;
    const MechanismWords* m_mechanism = nullptr;
    QToolButton *m_openings = nullptr, *m_mechanisms = nullptr;
    QToolButton *m_moving = nullptr, *m_parallel = nullptr, *m_flip = nullptr;
    QSlider* m_sectionAt = nullptr;
    QComboBox* m_axis = nullptr;
};

} // namespace slab::ui
