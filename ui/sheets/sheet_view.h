#pragma once
#include "ui/session/session.h"
#include <QWidget>

namespace slab::ui {

/// All sheet layouts with their panels; zoom, used area; a click selects the plate.
class SheetView : public QWidget {
    Q_OBJECT
public:
    explicit SheetView(Session* session, QWidget* parent = nullptr);
    ~SheetView() override;

private:
    struct Private;
    std::unique_ptr<Private> m;
};

} // namespace slab::ui
