#pragma once
// Openings by hand on the panel drawing: put in by a click, chosen, dragged, nudged, deleted.
#include "core/board/opening_edits.h"
#include "ui/paint/paper_view.h"
#include "ui/panels/panel_place.h"
#include "ui/panels/panel_tool.h"
#include <QObject>
#include <memory>

namespace slab::ui {

class OpeningHand : public QObject, public PanelTool {
    Q_OBJECT
public:
    OpeningHand(Session* session, const PaperView* view, QObject* parent = nullptr);
    ~OpeningHand() override;

    /// The panel that is drawn; null = none.
    void setPanel(const Panel* panel, const std::string& shown);
    /// The document, or what is built of it, has changed.
    void stale();
    /// What a click puts in; null = clicks only choose.
    void arm(const OpeningKind* kind);
    [[nodiscard]] const OpeningKind* armed() const { return m_kind; }
    [[nodiscard]] bool dragging() const { return m_drag != nullptr; }
    /// Index of the chosen opening if it is cut in the shown panel, else -1.
    [[nodiscard]] int chosen() const;
    /// What to do next; empty = nothing to say.
    [[nodiscard]] QString hint() const;
    /// The same, or why something could not be done.
    [[nodiscard]] QString words() const { return m_told.isEmpty() ? hint() : m_told; }
    [[nodiscard]] const QString& told() const { return m_told; } ///< why something could not be done

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
    void changed(); ///< draw again, and say words() again

private:
    /// A drag is worked out anew from where it began, so that nothing adds up.
    struct Drag {
        int index = -1;
        QPointF from;
        Project base;
        Scope scope;
        Plate plate; ///< as it was
        Frame frame; ///< of the panel
        Vec2 start = Vec2::Zero(),
             middle = Vec2::Zero(); ///< of the opening and of its plate, panel coordinates
        std::string gesture;
        bool moved = false, changed = false;
    };
    struct Ghost;
    [[nodiscard]] const PanelPlace& place() const;
    [[nodiscard]] double step() const;
    void choose(int index);
    bool put(const Vec2& onPanel, double step);
    void refuse(const Error& error);
    bool nudge(QKeyEvent& event);
    void remove();
    void next(int by);
    bool escape();
    void apply(const Expected<Edit>& edit, bool settle);
    [[nodiscard]] Ghost ghostAt(const Vec2& onPanel) const;
    void paintOpening(QPainter& painter, const PanelOpening& opening) const;
    void paintRoom(QPainter& painter, const PanelPlate& on, const Ring& outline,
                   const std::string& opening) const;

    Session* m_session;
    const PaperView* m_view;
    const OpeningKind* m_kind = nullptr;
    Panel m_panel;
    std::string m_shown;
    bool m_there = false;
    mutable std::optional<PanelPlace> m_place; ///< made when it is asked for
    std::optional<Vec2> m_pointer;             ///< panel coordinates
    int m_hovered = -1, m_gestures = 0;
    std::unique_ptr<Drag> m_drag;
    QString m_told;
};

} // namespace slab::ui
