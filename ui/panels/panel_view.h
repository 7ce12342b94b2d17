#pragma once
#include "ui/session/session.h"
#include <QWidget>

namespace slab::ui {

/// List of panels with thumbnails and the chosen panel's drawing; an edge can be clicked to choose its joint.
class PanelView : public QWidget {
    Q_OBJECT
public:
    explicit PanelView(Session* session, QWidget* parent = nullptr);
    ~PanelView() override;

private:
    struct Private;
    std::unique_ptr<Private> m;
};

} // namespace slab::ui
