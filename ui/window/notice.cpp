#include "ui/window/notice.h"
#include "ui/findings/finding_delegate.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QTimer>
#include <QToolButton>

namespace slab::ui {

/// The severity's shape beside the words.
class SeverityMark : public QWidget {
public:
    SeverityMark() { setFixedSize(18, 18); }
    void set(Notice::Kind kind) {
        m_kind = kind;
        update();
    }

protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        const QRectF area = QRectF(rect()).adjusted(1, 1, -1, -1);
        if (m_kind == Notice::Kind::bad) return paintSeverity(painter, area, Severity::look);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(
            QPen(m_kind == Notice::Kind::good ? Theme::colours().fits : Theme::colours().quiet, 2));
        if (m_kind == Notice::Kind::good)
            painter.drawPolyline(QPolygonF{{4, 9}, {8, 13}, {14, 5}});
        else
            for (int i = 0; i < 3; ++i) painter.drawPoint(QPointF(4 + 5 * i, 9));
    }

private:
    Notice::Kind m_kind = Notice::Kind::good;
};

Notice::Notice(QWidget* parent)
    : QFrame(parent), m_mark(new SeverityMark), m_words(new QLabel), m_button(new QPushButton),
      m_close(new QToolButton), m_hide(new QTimer(this)) {
    setObjectName("card");
    auto* line = new QHBoxLayout(this);
    line->setContentsMargins(space::inside, 6, 8, 6);
    line->setSpacing(10);
    m_words->setWordWrap(true);
    m_words->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_close->setText("Close");
    m_close->setObjectName("flat");
    explain(m_close, "Close this message", "Takes the message away.");
    explain(m_button, "What to do about it", "Does what the message offers.");
    line->addWidget(m_mark);
    line->addWidget(m_words, 1);
    line->addWidget(m_button);
    line->addWidget(m_close);
    connect(m_close, &QToolButton::clicked, this, &QWidget::hide);
    connect(m_button, &QPushButton::clicked, this, [this] {
        const auto action = m_action;
        hide();
        if (action) action();
    });
    m_hide->setSingleShot(true);
    connect(m_hide, &QTimer::timeout, this, &QWidget::hide);
    hide();
}

void Notice::tell(Kind kind, const QString& words, const QString& button, std::function<void()> action) {
    m_mark->set(kind);
    m_words->setText(words);
    m_words->setAccessibleName(words);
    m_button->setText(button);
    m_button->setVisible(!button.isEmpty());
    explain(m_button, button.isEmpty() ? "No action" : button, words);
    m_action = std::move(action);
    show();
    m_hide->stop();
    if (kind == Kind::good) m_hide->start(12000);
}

QString Notice::words() const {
    return m_words->text();
}

} // namespace slab::ui
