#pragma once
#include "ui/panels/edge_story.h"
#include "ui/panels/joint_edits.h"
#include <QWidget>
#include <array>

class QLabel;
class QToolButton;

namespace slab::ui {

/// Strip under the drawing: the joint seen end on, and the choice of who covers whom.
class JointBar : public QWidget {
    Q_OBJECT
public:
    explicit JointBar(QWidget* parent = nullptr);
    void show(const EdgeStory& story);
    enum class Room {
        all,    ///< with the picture of the joint
        words,  ///< without it
        choices ///< the edge and its choices; the reason stands in a tooltip, and of trouble two lines
    };
    void setRoom(Room room);
    void refuse(const QString& message, const QString& remedy); ///< what the last choice ran into
    [[nodiscard]] QToolButton* button(EdgeChoice choice) const {
        return m_choices[static_cast<std::size_t>(choice)];
    }
    [[nodiscard]] QToolButton* ruleButton() const { return m_rule; }

Q_SIGNALS:
    void choiceMade(slab::ui::EdgeChoice choice);
    void ruleWanted();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    JointSketch* m_sketch;
    void showWords();
    void showTrouble();

    QLabel* m_title; ///< the edge; length, corner, tilt
    QLabel *m_why, *m_trouble;
    QString m_edge, m_figures, m_troubleWords;
    Room m_room = Room::all;
    std::array<QToolButton*, 5> m_choices{};
    QToolButton* m_rule;
};

} // namespace slab::ui
