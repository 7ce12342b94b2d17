#pragma once
#include "ui/session/session.h"
#include <QWidget>

namespace slab::ui {

/// List of panels with thumbnails and the chosen panel's drawing; an edge can be clicked to choose its joint.
///
/// Draws no title: the card around it shows heading() and note().
class PanelView : public QWidget {
    Q_OBJECT
public:
    explicit PanelView(Session* session, QWidget* parent = nullptr);
    ~PanelView() override;

    [[nodiscard]] QString heading() const; ///< "Panel 7 · hull / starboard"
    [[nodiscard]] QString note() const;    ///< "outside face up · 1 of 1 · other hand of hull/port"

Q_SIGNALS:
    void headingChanged(const QString& heading, const QString& note);

protected:
    void changeEvent(QEvent* event) override;

private:
    struct Private;
    std::unique_ptr<Private> m;
};

} // namespace slab::ui
