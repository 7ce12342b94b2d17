#pragma once
// Seams by hand on the panel drawing: moved, added, given back to the program.
#include "core/board/seam_edits.h"
#include "ui/paint/paper_view.h"
#include "ui/panels/panel_tool.h"
#include "ui/session/session.h"
#include <QObject>
#include <memory>

namespace slab::ui {

class SeamHand : public QObject, public PanelTool {
    Q_OBJECT
public:
    SeamHand(Session* session, const PaperView* view, QObject* parent = nullptr);

    void setPanel(const Panel* panel, const std::string& shown);
    /// A click adds a seam.
    void arm(bool on);
    [[nodiscard]] bool armed() const { return m_armed; }
    [[nodiscard]] bool dragging() const { return m_drag != nullptr; }
    /// What to do next; empty = nothing to say.
    [[nodiscard]] QString hint() const;
    /// The same, or why something could not be done.
    [[nodiscard]] QString words() const { return m_told.isEmpty() ? hint() : m_told; }
    [[nodiscard]] const QString& told() const { return m_told; } ///< why something could not be done
    /// Seams of the shown panel.
    [[nodiscard]] const std::vector<PanelSeam>& seams() const { return m_seams; }
    [[nodiscard]] int chosen() const; ///< index in seams(), -1 = none

    bool press(const QPointF& at, Qt::KeyboardModifiers keys) override;
    void drag(const QPointF& at, Qt::KeyboardModifiers keys) override;
    void release(const QPointF& at) override;
    bool hover(const QPointF& at, Qt::KeyboardModifiers keys) override;
    void away() override;
    bool key(QKeyEvent& event) override;
    void paint(QPainter& painter) const override;
    [[nodiscard]] Qt::CursorShape cursor() const override;
    [[nodiscard]] QString tip() const override;

Q_SIGNALS:
    void changed();

private:
    struct Drag {
        PanelSeam seam;
        QPointF from;
        Project base;
        Scope scope;
        std::string gesture;
        bool moved = false, changed = false;
    };
    [[nodiscard]] int seamAt(const QPointF& px) const;
    [[nodiscard]] double step() const;
    void choose(int index);
    bool apply(const Expected<Edit>& edit);
    void put(double at, double step);
    bool escape();
    bool nudge(QKeyEvent& event);
    void giveBack();
    void paintSizes(QPainter& painter, const Vec2& normal, double at) const;

    Session* m_session;
    const PaperView* m_view;
    Panel m_panel;
    std::string m_shown;
    Box2 m_box;
    std::vector<PanelSeam> m_seams;
    bool m_there = false, m_armed = false;
    int m_hovered = -1, m_gestures = 0;
    std::optional<double> m_found; ///< `at` of the chosen one while the program has found it
    std::optional<Vec2> m_pointer;
    std::unique_ptr<Drag> m_drag;
    QString m_told;
};

} // namespace slab::ui
