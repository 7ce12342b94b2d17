#pragma once
// What all hands on the panel drawing have in common: one thing of a list is chosen, dragged, nudged, taken
// away, or put in by a click. Which things these are, each hand says.
#include "core/board/moves.h"
#include "ui/paint/paper_view.h"
#include "ui/panels/panel_tool.h"
#include "ui/session/session.h"
#include <QObject>
#include <optional>

namespace slab::ui {

class PanelHand : public QObject, public PanelTool {
    Q_OBJECT
public:
    PanelHand(Session* session, const PaperView* view, QObject* parent);

    [[nodiscard]] bool dragging() const { return m_grip.has_value(); }
    /// What to do next; empty = nothing to say.
    [[nodiscard]] virtual QString hint() const = 0;
    /// The same, or why something could not be done.
    [[nodiscard]] QString words() const { return m_told.isEmpty() ? hint() : m_told; }
    [[nodiscard]] const QString& told() const { return m_told; } ///< why something could not be done

    void release(const QPointF& at) final;
    void away() final;
    /// Escape gives up, Delete takes away, page up and down choose, Return puts in, arrows nudge.
    bool key(QKeyEvent& event) final;

Q_SIGNALS:
    void changed(); ///< draw again, and say words() again

protected:
    /// A drag is worked out anew from where it began, so that nothing adds up.
    struct Grip {
        QPointF from;
        Project base;
        Scope scope;
        std::string gesture;
        bool moved = false, changed = false;
    };
    void grab(const QPointF& at);
    /// The pointer has moved. @return false while nothing is dragged: nothing is held, or it has hardly moved
    bool pull(const QPointF& at);
    /// mm to which places are rounded at this zoom.
    [[nodiscard]] double step() const;
    /// @return whether the document changed; what was refused is told
    bool apply(const Expected<Edit>& edit);
    void refuse(const Error& error);
    /// Chooses what stands at a place of the document ("/openings/2"), on the shown plate.
    void chooseEntry(const QString& plate, const QString& part);
    void chooseShown();

    [[nodiscard]] virtual const char* thing() const = 0; ///< "opening", for gestures
    [[nodiscard]] virtual bool inHand() const = 0;       ///< a click puts something in
    virtual void putBack() = 0;                          ///< no more
    virtual bool putInMiddle() = 0;                      ///< by Return
    virtual void putAt(const Vec2& onPanel) = 0;         ///< by a click
    [[nodiscard]] virtual int count() const = 0;         ///< of things that can be chosen
    [[nodiscard]] virtual int place() const = 0;         ///< of the chosen one among them; -1 = none
    virtual void chooseAt(int place) = 0;
    virtual void takeAway() = 0; ///< the chosen one
    /// @param by  mm on the panel
    virtual void nudge(const Vec2& by, const std::string& gesture) = 0;
    virtual void letGo() {} ///< nothing is chosen any more
    virtual void stale() {} ///< the document has changed

    Session* m_session;
    const PaperView* m_view;
    Panel m_panel;
    std::string m_shown;
    bool m_there = false;          ///< a panel is drawn
    std::optional<Vec2> m_pointer; ///< panel coordinates
    int m_hovered = -1;
    std::optional<Grip> m_grip;
    QString m_told;

private:
    bool escape();
    bool arrow(QKeyEvent& event);
    int m_gestures = 0;
};

} // namespace slab::ui
