#include "ui/board/strip_room.h"
#include "ui/theme/theme.h"
#include <QEvent>
#include <QPainter>
#include <algorithm>

namespace slab::ui {

namespace {

constexpr int rowHeight = 32, between = 4; // px
constexpr int above = 5;                   // px of the sheet's own edge over a strip that is higher

class StripSheet : public QWidget {
public:
    explicit StripSheet(QWidget* board) : QWidget(board) {}
    bool over = false;

protected:
    void paintEvent(QPaintEvent*) override {
        if (!over) return;
        QPainter painter(this);
        painter.fillRect(rect(), Theme::colours().card);
        painter.fillRect(QRect(0, 0, width(), 1), Theme::colours().line);
    }
};

} // namespace

StripRoom::StripRoom(QWidget* board) : QWidget(board), m_sheet(new StripSheet(board)) {
    m_sheet->installEventFilter(this);
    m_sheet->hide();
}

void StripRoom::add(QWidget* strip) {
    strip->setParent(m_sheet);
    strip->hide();
}

void StripRoom::show(QWidget* strip) {
    if (m_strip != strip) {
        if (m_strip) m_strip->hide();
        m_strip = strip;
        m_strip->show();
    }
    place();
}

void StripRoom::giveRows(const QSize& board) {
    // Where the tools of a strip stand in two rows, and the sheet has room to spare.
    constexpr int wide = 1300, high = 420; // px
    const int rows = board.width() < wide && board.height() >= high ? 2 : 1;
    setFixedHeight(rows * rowHeight + (rows - 1) * between);
}

void StripRoom::place() {
    if (!m_strip || width() <= 0) return;
    const int wanted = m_strip->hasHeightForWidth() ? m_strip->heightForWidth(width()) : -1;
    const int needed = std::max(wanted >= 0 ? wanted : m_strip->sizeHint().height(), rowHeight);
    const bool over = needed > height();
    static_cast<StripSheet*>(m_sheet)->over = over;
    const int high = over ? needed + above : height();
    m_sheet->setGeometry(x(), y() + height() - high, width(), high);
    m_strip->setGeometry(0, over ? above : 0, width(), needed);
    m_sheet->raise();
    m_sheet->update();
    Q_EMIT covers(high - height());
}

bool StripRoom::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_sheet && event->type() == QEvent::LayoutRequest) place();
    return QWidget::eventFilter(watched, event);
}

void StripRoom::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    place();
}

void StripRoom::moveEvent(QMoveEvent* event) {
    QWidget::moveEvent(event);
    place();
}

void StripRoom::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_sheet->show();
    place();
}

void StripRoom::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    m_sheet->hide();
}

} // namespace slab::ui
