#pragma once
#include "ui/ride/ride_page.h"

class QComboBox;
class QLabel;
class QMenu;
class QSlider;
class QToolButton;

namespace slab::ui {

/// " (813 mm)" behind the size of a published part whose unit is not the document's; else empty.
[[nodiscard]] QString sizeBeside(const RoutePart& part, const UnitStyle& units);

class StandsPage : public RidePage {
    Q_OBJECT
public:
    explicit StandsPage(Session* session, QWidget* parent = nullptr);
    [[nodiscard]] QComboBox* standing() const { return m_standing; }

protected:
    [[nodiscard]] RideRows rows() const override;
    void draw(const RideDraw& draw) const override;
    void refreshControls() override;
    [[nodiscard]] EmptyState* lacking() const override;

private:
    QComboBox* m_standing;
    EmptyState* m_noStance;
};

class RoutePage : public RidePage {
    Q_OBJECT
public:
    explicit RoutePage(Session* session, QWidget* parent = nullptr);
    void step(int by) override;
    void offer() override;
    void discard() override;
    [[nodiscard]] QSlider* along() const { return m_along; }
    [[nodiscard]] QMenu* examples() const { return m_examples; }
    /// The result that is drawn; null = none.
    [[nodiscard]] const trial::RouteResult* shown() const;

protected:
    [[nodiscard]] RideRows rows() const override;
    void draw(const RideDraw& draw) const override;
    void refreshControls() override;
    [[nodiscard]] int favourite(const RideRows& rows) const override;
    [[nodiscard]] EmptyState* lacking() const override;

private:
    QToolButton *m_add, *m_closest;
    QMenu* m_examples;
    QSlider* m_along;
    QLabel* m_alongWords;
    EmptyState* m_noRoute;
    void add(const RoutePart& part);
    void refreshExamples();
    std::optional<Unit> m_examplesIn; ///< unit that the menu speaks
    std::string m_posed;              ///< whose poses the slider goes along
};

class SightPage : public RidePage {
    Q_OBJECT
public:
    explicit SightPage(Session* session, QWidget* parent = nullptr);

protected:
    [[nodiscard]] const Evaluation& evaluation() const override;
    [[nodiscard]] QString outdated() const override;
    [[nodiscard]] RideRows rows() const override;
    void draw(const RideDraw& draw) const override;
    [[nodiscard]] EmptyState* lacking() const override;

private:
    [[nodiscard]] bool isWaiting() const;
    EmptyState *m_nobody, *m_working, *m_unseen;
};

class LeavingPage : public RidePage {
    Q_OBJECT
public:
    explicit LeavingPage(Session* session, QWidget* parent = nullptr);

Q_SIGNALS:
    void openingWanted();

protected:
    [[nodiscard]] RideRows rows() const override;
    void draw(const RideDraw& draw) const override;
    void refreshControls() override;
    [[nodiscard]] int favourite(const RideRows& rows) const override;

private:
    QToolButton* m_add;
};

/// What can be added to the route: published figures with their sections, then what is measured. A published
/// size has the document's unit beside it.
void fillExamples(QMenu* menu, const UnitStyle& units, std::function<void(const RoutePart&)> taken);

} // namespace slab::ui
