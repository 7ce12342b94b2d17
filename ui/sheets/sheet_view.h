#pragma once
#include "ui/session/session.h"
#include <QWidget>

namespace slab::ui {

/// All sheet layouts with their panels; zoom, used area; a click selects the plate.
///
/// Draws no title: the card around it shows heading() and note().
class SheetView : public QWidget {
    Q_OBJECT
public:
    explicit SheetView(Session* session, QWidget* parent = nullptr);
    ~SheetView() override;

    [[nodiscard]] QString heading() const;
    [[nodiscard]] QString note() const; ///< "5 sheets · 83 % used"

Q_SIGNALS:
    void headingChanged(const QString& heading, const QString& note);
    /// The empty state's button: the builder wants to add stock.
    void stockWanted();

protected:
    void changeEvent(QEvent* event) override;

private:
    struct Private;
    std::unique_ptr<Private> m;
};

} // namespace slab::ui
