#pragma once
#include "ui/board/likeness_watch.h"
#include <QWidget>

class QHBoxLayout;
class QLabel;
class QToolButton;

namespace slab::ui {

/// Plates against likeness: how far the flat body leaves the curved one at most and on the mean, for more and
/// more plates. A click on a point gives all curves its facets. Left and right go from point to point, Return
/// takes one.
class LikenessPlot : public QWidget {
    Q_OBJECT
public:
    LikenessPlot(Session* session, LikenessWatch* watch, QWidget* parent = nullptr);
    [[nodiscard]] QRectF body() const; ///< between the axes, px
    [[nodiscard]] QPointF placeOf(double plates, double mm) const;
    /// The point of the survey that is nearest across; -1 = none.
    [[nodiscard]] int pointAt(const QPointF& px) const;
    [[nodiscard]] int marked() const { return m_marked; } ///< under the pointer or chosen by keys; -1 = none
    /// The point that is the document as it is; -1 = it is none of them.
    [[nodiscard]] int pointOfNow() const;
    /// "18 plates: at most 12 mm off, 4 mm on the mean · within 12 mm".
    [[nodiscard]] QString wordsOf(const LikenessPoint& point) const;
    /// Where the word at a curve stands, px.
    [[nodiscard]] QRectF wordPlace(bool mean) const;
    bool take(int point); ///< one step to undo
    [[nodiscard]] QSize sizeHint() const override { return {360, 190}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {220, 120}; }

Q_SIGNALS:
    void told(const QString& words); ///< of the point marked, or of the document

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    struct Range {
        double least = 1, most = 10; ///< mm, at build size
        int from = 0, to = 1;        ///< plates
    };
    [[nodiscard]] const LikenessSurvey* survey() const;
    [[nodiscard]] Range range() const;
    void mark(int point);
    void refresh();
    void paintAxes(QPainter& painter, const Range& r) const;
    void paintCurve(QPainter& painter, bool mean) const;
    void paintNow(QPainter& painter) const;

    Session* m_session;
    LikenessWatch* m_watch;
    int m_marked = -1;
};

/// Lengths for the ticks of a logarithmic axis, mm: 1, 2, 5 × 10ⁿ of a metric unit; inches doubled from 1/64.
/// @param count  coarser where there would be more than this
[[nodiscard]] std::vector<double> likenessTicks(double least, double most, const UnitStyle& units,
                                                int count = 1000);

/// The plot with its words, laid over the empty quarter of the drafting sheet.
class LikenessCard : public QWidget {
    Q_OBJECT
public:
    LikenessCard(Session* session, QWidget* parent);
    [[nodiscard]] LikenessPlot* plot() const { return m_plot; }
    [[nodiscard]] LikenessWatch* watch() const { return m_watch; }
    void place(); ///< into the lower right corner of what it lies on

Q_SIGNALS:
    void closed();

protected:
    void paintEvent(QPaintEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    LikenessWatch* m_watch;
    LikenessPlot* m_plot;
    QLabel* m_words;
    QHBoxLayout* m_head;
};

} // namespace slab::ui
