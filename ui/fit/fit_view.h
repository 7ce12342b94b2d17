#pragma once
#include "ui/session/session.h"
#include <QWidget>

namespace slab::ui {

/// The 3D view: plates, donor, rider, tight and hitting pairs. Shows the session; a click selects.
class FitView : public QWidget {
    Q_OBJECT
public:
    explicit FitView(Session* session, QWidget* parent = nullptr);
    ~FitView() override;

private:
    struct Private;
    std::unique_ptr<Private> m;
};

} // namespace slab::ui
