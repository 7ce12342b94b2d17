#pragma once
#include "ui/session/session.h"
#include <QWidget>
#include <array>
#include <memory>

class QGridLayout;
class QToolButton;

namespace slab::ui {

class RidePage;
class RoutePage;

/// Route and ride: how it stands, what it passes, what is seen from it, how one gets out. A page each, or all
/// four at once where there is room.
class RideView : public QWidget {
    Q_OBJECT
public:
    enum Page { stands, route, sight, leaving };
    explicit RideView(Session* session, QWidget* parent = nullptr);
    ~RideView() override;
    void open(Page page);
    [[nodiscard]] Page page() const { return m_page; }
    [[nodiscard]] RidePage* pageOf(Page page) const { return m_pages[page]; }
    [[nodiscard]] RoutePage* routePage() const;
    [[nodiscard]] bool showsAll() const { return m_all; }
    [[nodiscard]] QToolButton* tab(Page page) const { return m_tabs[page]; }

Q_SIGNALS:
    void openingWanted();

protected:
    void showEvent(QShowEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void refresh();
    void refreshTabs();
    void arrange();
    void follow(bool turns); ///< what is chosen elsewhere; turns to its page
    Session* m_session;
    std::array<RidePage*, 4> m_pages{};
    std::array<QToolButton*, 4> m_tabs{};
    QWidget* m_strip;
    QGridLayout* m_grid;
    Page m_page = stands;
    bool m_all = false, m_stale = true;
};

} // namespace slab::ui
