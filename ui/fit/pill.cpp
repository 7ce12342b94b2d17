#include "ui/fit/pill.h"
#include "ui/theme/theme.h"
#include <QFontMetrics>
#include <QPainter>
#include <QPainterPath>
#include <QPointer>
#include <QRasterWindow>
#include <QWidget>
#include <algorithm>

namespace slab::ui {

/// What both kinds share: words, border, and how they are painted.
class Pill::Face {
public:
    virtual ~Face() = default;
    virtual void refresh() = 0;
    virtual void place(const QRect& rect) = 0;
    virtual void setVisible(bool visible) = 0;
    virtual void letThrough() = 0;
    [[nodiscard]] virtual bool isVisible() const = 0;

    void paint(QPainter& painter, const QSize& size) const {
        const QColor card = Theme::colours().card;
        const QRect all(QPoint(0, 0), size);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(QPen(border, 1.4));
        painter.setBrush(Theme::mix(border, card, 0.10));
        painter.drawRoundedRect(QRectF(all).adjusted(1, 1, -1, -1), 5, 5);
        painter.setPen(Theme::colours().ink);
        painter.setFont(Theme::figures(12));
        constexpr int beside = 8; // px: words in several lines keep off the border
        painter.drawText(all.adjusted(beside, 0, -beside, 0),
                         static_cast<int>(Qt::AlignCenter) | Qt::TextWordWrap, text);
    }
    QString text;
    QColor border;
};

class Pill::WidgetFace : public Face, public QWidget {
public:
    WidgetFace(Pill* pill, QWidget* over) : QWidget(over), m_pill(pill) { QWidget::hide(); }
    void refresh() override {
        setAccessibleName(text);
        update();
    }
    void place(const QRect& rect) override { setGeometry(rect); }
    void setVisible(bool visible) override {
        QWidget::setVisible(visible);
        if (visible) raise();
    }
    void letThrough() override { setAttribute(Qt::WA_TransparentForMouseEvents); }
    bool isVisible() const override { return QWidget::isVisible(); }

protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        paint(painter, size());
    }
    void mouseReleaseEvent(QMouseEvent*) override { Q_EMIT m_pill->clicked(); }

private:
    Pill* m_pill;
};

class Pill::WindowFace : public Face, public QRasterWindow {
public:
    WindowFace(Pill* pill, QWindow* over) : QRasterWindow(over), m_pill(pill) {}
    void refresh() override { update(); }
    void place(const QRect& rect) override {
        if (rect.size() != size()) {
            QPainterPath outline;
            outline.addRoundedRect(QRectF(QPointF(0, 0), QSizeF(rect.size())), 6, 6);
            setMask(QRegion(outline.toFillPolygon().toPolygon()));
        }
        setGeometry(rect);
    }
    void setVisible(bool visible) override {
        if (visible != QRasterWindow::isVisible()) QRasterWindow::setVisible(visible);
    }
    void letThrough() override { setFlag(Qt::WindowTransparentForInput); }
    bool isVisible() const override { return QRasterWindow::isVisible(); }

protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        painter.fillRect(QRect(QPoint(0, 0), size()), Theme::colours().card);
        paint(painter, size());
    }
    void mouseReleaseEvent(QMouseEvent*) override { Q_EMIT m_pill->clicked(); }

private:
    Pill* m_pill;
};

Pill::Pill(QObject* surface, QObject* parent) : QObject(parent), m_surface(surface) {
    if (auto* window = qobject_cast<QWindow*>(surface))
        m_face = std::make_unique<WindowFace>(this, window);
    else
        m_face = std::make_unique<WidgetFace>(this, qobject_cast<QWidget*>(surface));
}

Pill::~Pill() = default;

void Pill::say(const QString& text, const QColor& border, int most) {
    constexpr int across = 18, down = 6; // px round the words
    const QFontMetrics metrics(Theme::figures(12));
    QSize size(metrics.horizontalAdvance(text), metrics.height());
    if (const int room = std::max(60, most - across); size.width() > room)
        size =
            metrics.boundingRect(0, 0, room, 1000, static_cast<int>(Qt::AlignCenter) | Qt::TextWordWrap, text)
                .size();
    m_place.setSize(size + QSize(across, down));
    if (text == m_face->text && border == m_face->border) return;
    m_face->text = text;
    m_face->border = border;
    m_face->refresh();
}

void Pill::placeAt(const QPointF& centre) {
    const auto* window = qobject_cast<QWindow*>(m_surface);
    const QSize over = window ? window->size() : qobject_cast<QWidget*>(m_surface)->size();
    const QPoint corner = centre.toPoint() - QPoint(m_place.width(), m_place.height()) / 2;
    m_place.moveTo(std::clamp(corner.x(), 0, std::max(0, over.width() - m_place.width())),
                   std::clamp(corner.y(), 0, std::max(0, over.height() - m_place.height())));
    m_face->place(m_place);
}

void Pill::setVisible(bool visible) {
    m_face->setVisible(visible);
}
void Pill::letThrough() {
    m_face->letThrough();
}
bool Pill::isVisible() const {
    return m_face->isVisible();
}
QString Pill::text() const {
    return m_face->text;
}

} // namespace slab::ui
