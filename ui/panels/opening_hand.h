#pragma once
// Openings by hand on the panel drawing: put in by a click, chosen, dragged, nudged, deleted.
#include "core/board/opening_edits.h"
#include "ui/panels/panel_hand.h"
#include "ui/panels/panel_place.h"

namespace slab::ui {

class OpeningHand : public PanelHand {
    Q_OBJECT
public:
    OpeningHand(Session* session, const PaperView* view, QObject* parent = nullptr);

    /// The panel that is drawn; null = none.
    void setPanel(const Panel* panel, const std::string& shown);
    /// The document, or what is built of it, has changed.
    void stale() override;
    /// What a click puts in; null = clicks only choose.
    void arm(const OpeningKind* kind);
    [[nodiscard]] const OpeningKind* armed() const { return m_kind; }
    /// Index of the chosen opening if it is cut in the shown panel, else -1.
    [[nodiscard]] int chosen() const;
    [[nodiscard]] QString hint() const override;

    bool press(const QPointF& at, Qt::KeyboardModifiers keys) override;
    void drag(const QPointF& at, Qt::KeyboardModifiers keys) override;
    bool hover(const QPointF& at, Qt::KeyboardModifiers keys) override;
    void paint(QPainter& painter, std::vector<QRectF>& taken) const override;
    [[nodiscard]] Qt::CursorShape cursor() const override;
    [[nodiscard]] QString tip() const override;

protected:
    [[nodiscard]] const char* thing() const override { return "opening"; }
    [[nodiscard]] bool inHand() const override { return m_kind != nullptr; }
    void putBack() override { arm(nullptr); }
    bool putInMiddle() override;
    void putAt(const Vec2& onPanel) override { put(onPanel, step()); }
    [[nodiscard]] int count() const override { return static_cast<int>(placed().openings.size()); }
    [[nodiscard]] int place() const override;
    void chooseAt(int place) override;
    void takeAway() override;
    void nudge(const Vec2& by, const std::string& gesture) override;

private:
    /// What is dragged, as it was.
    struct Held {
        int index = -1;
        Plate plate;
        Frame frame; ///< of the panel
        Vec2 start = Vec2::Zero(),
             middle = Vec2::Zero(); ///< of the opening and of its plate, panel coordinates
    };
    struct Ghost;
    [[nodiscard]] const PanelPlace& placed() const;
    void choose(int index);
    bool put(const Vec2& onPanel, double step);
    [[nodiscard]] Ghost ghostAt(const Vec2& onPanel) const;
    [[nodiscard]] bool onOpening() const; ///< the pointer is on one
    void paintOpening(QPainter& painter, const PanelOpening& opening, std::vector<QRectF>& taken) const;
    void paintRoom(QPainter& painter, const PanelPlate& on, const Ring& outline, const std::string& opening,
                   std::vector<QRectF>& taken) const;

    const OpeningKind* m_kind = nullptr;
    mutable std::optional<PanelPlace> m_place; ///< made when it is asked for
    Held m_held;
};

} // namespace slab::ui
