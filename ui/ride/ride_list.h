#pragma once
#include "ui/ride/ride_rows.h"
#include <QListView>

namespace slab::ui {

class RideRowsModel;

/// The punch list's mark where it tells of the row, else a tick for what passes.
void paintRowMark(QPainter& painter, const QRectF& area, const RideRow& row);

/// Rows of figures: the shape, word and colour of each outcome, what it is, its figure, and why.
class RideList : public QListView {
    Q_OBJECT
public:
    explicit RideList(const QString& name, const QString& tip, QWidget* parent = nullptr);
    /// Keeps the chosen row where the same thing is still there; tells nobody.
    void show(RideRows rows);
    [[nodiscard]] const RideRows& rows() const;
    [[nodiscard]] int chosenRow() const; ///< −1 = none
    void setFaint(bool faint);           ///< its figures are old
    void choose(int row);                ///< without telling; out of range = none
    [[nodiscard]] bool isFaint() const { return m_faint; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {150, 90}; }

Q_SIGNALS:
    void chosen(int row);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    RideRowsModel* m_model;
    bool m_showing = false, m_faint = false;
    int m_laidOutFor = -1;
};

} // namespace slab::ui
