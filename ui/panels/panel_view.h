#pragma once
#include "ui/session/session.h"
#include <QWidget>

namespace slab::ui {

/// List of panels with thumbnails and the chosen panel's drawing; an edge can be clicked to choose its joint.
///
/// Draws no title: the frame around it does.
class PanelView : public QWidget {
    Q_OBJECT
public:
    explicit PanelView(Session* session, QWidget* parent = nullptr);
    ~PanelView() override;

Q_SIGNALS:
    void formWanted();  ///< there is none yet
    void stockWanted(); ///< there is no sheet to cut from

protected:
    void changeEvent(QEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    struct Private;
    std::unique_ptr<Private> m;
};

} // namespace slab::ui
