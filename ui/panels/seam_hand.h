#pragma once
// Seams by hand on the panel drawing: moved, added, given back to the program.
#include "core/board/seam_edits.h"
#include "ui/panels/panel_hand.h"

namespace slab::ui {

class SeamHand : public PanelHand {
    Q_OBJECT
public:
    SeamHand(Session* session, const PaperView* view, QObject* parent = nullptr);

    void setPanel(const Panel* panel, const std::string& shown);
    /// A click adds a seam.
    void arm(bool on);
    [[nodiscard]] bool armed() const { return m_armed; }
    [[nodiscard]] QString hint() const override;
    /// Seams of the shown panel.
    [[nodiscard]] const std::vector<PanelSeam>& seams() const { return m_seams; }
    [[nodiscard]] int chosen() const { return place(); } ///< index in seams(), -1 = none

    bool press(const QPointF& at, Qt::KeyboardModifiers keys) override;
    void drag(const QPointF& at, Qt::KeyboardModifiers keys) override;
    bool hover(const QPointF& at, Qt::KeyboardModifiers keys) override;
    void paint(QPainter& painter, std::vector<QRectF>& taken) const override;
    [[nodiscard]] Qt::CursorShape cursor() const override;
    [[nodiscard]] QString tip() const override;

protected:
    [[nodiscard]] const char* thing() const override { return "seam"; }
    [[nodiscard]] bool inHand() const override { return m_armed; }
    void putBack() override { arm(false); }
    bool putInMiddle() override;
    void putAt(const Vec2& onPanel) override { put(seamThrough(m_box, onPanel).at, step()); }
    [[nodiscard]] int count() const override { return static_cast<int>(m_seams.size()); }
    [[nodiscard]] int place() const override;
    void chooseAt(int place) override;
    void takeAway() override;
    void nudge(const Vec2& by, const std::string& gesture) override;
    void letGo() override { m_found.reset(); }

private:
    [[nodiscard]] int seamAt(const QPointF& px) const;
    void put(double at, double step);
    void showEntry(std::size_t entry);
    void paintSizes(QPainter& painter, const Vec2& normal, double at, std::vector<QRectF>& taken) const;

    Box2 m_box;
    std::vector<PanelSeam> m_seams;
    bool m_armed = false;
    std::optional<double> m_found; ///< `at` of the chosen one while the program has found it
    PanelSeam m_held;              ///< what is dragged, as it was
};

} // namespace slab::ui
