#pragma once
#include "ui/session/session.h"
#include <QWidget>

namespace slab::ui {

/// All sheet layouts with their panels; zoom, used area; a click selects the plate.
///
/// Draws no title: the frame around it does.
class SheetView : public QWidget {
    Q_OBJECT
public:
    explicit SheetView(Session* session, QWidget* parent = nullptr);
    ~SheetView() override;

Q_SIGNALS:
    /// The empty state's button: the builder wants to add stock.
    void stockWanted();

protected:
    void changeEvent(QEvent* event) override;

private:
    struct Private;
    std::unique_ptr<Private> m;
};

} // namespace slab::ui
