#include "ui/board/board_glyphs.h"
#include "ui/theme/theme.h"
#include <QGuiApplication>
#include <QPainter>
#include <QPixmap>
#include <functional>
#include <map>

namespace slab::ui {

namespace {

using Draw = std::function<void(QPainter&)>;

void polygon(QPainter& p, std::initializer_list<QPointF> points) {
    p.drawPolygon(QPolygonF(QList<QPointF>(points)));
}

void nodes(QPainter& p, std::initializer_list<QPointF> points) {
    const QBrush before = p.brush();
    p.setBrush(p.pen().color());
    for (const QPointF& at : points) p.drawRect(QRectF(at.x() - 1.2, at.y() - 1.2, 2.4, 2.4));
    p.setBrush(before);
}

/// On a field of 16 by 16.
const std::map<QString, Draw>& drawings() {
    static const std::map<QString, Draw> all{
        {"choose",
         [](QPainter& p) {
             polygon(p, {{3, 2}, {13, 8}, {8.4, 9.2}, {6.4, 13.6}});
         }},
        {"profile",
         [](QPainter& p) {
             polygon(p, {{1.5, 12.5}, {1.5, 7}, {10, 7}, {14.5, 4}, {12, 12.5}});
             nodes(p, {{1.5, 7}, {14.5, 4}, {12, 12.5}});
         }},
        {"taper",
         [](QPainter& p) {
             polygon(p, {{1.5, 13.5}, {14.5, 13.5}, {11, 3}, {5, 3}});
             p.drawLine(QPointF(5, 3), QPointF(6.5, 5.5));
             p.drawLine(QPointF(11, 3), QPointF(9.5, 5.5));
             p.drawLine(QPointF(6.5, 5.5), QPointF(9.5, 5.5));
         }},
        {"plate",
         [](QPainter& p) {
             polygon(p, {{1.5, 11}, {5.5, 5}, {14.5, 5}, {10.5, 11}});
         }},
        {"round",
         [](QPainter& p) {
             p.drawEllipse(QRectF(3, 1.5, 10, 4));
             p.drawArc(QRectF(3, 10.5, 10, 4), 180 * 16, 180 * 16);
             p.drawLine(QPointF(3, 3.5), QPointF(3, 12.5));
             p.drawLine(QPointF(13, 3.5), QPointF(13, 12.5));
         }},
        {"facet",
         [](QPainter& p) {
             polygon(p, {{8, 1.5}, {14.5, 6}, {12, 14}, {4, 14}, {1.5, 6}});
             p.drawLine(QPointF(8, 1.5), QPointF(8, 9));
             p.drawLine(QPointF(8, 9), QPointF(4, 14));
             p.drawLine(QPointF(8, 9), QPointF(12, 14));
         }},
        {"frame",
         [](QPainter& p) {
             polygon(p, {{1.5, 13.5}, {1.5, 2.5}, {14.5, 2.5}, {14.5, 13.5}});
             polygon(p, {{5, 10.5}, {5, 5.5}, {11, 5.5}, {11, 10.5}});
         }},
        {"measure",
         [](QPainter& p) {
             polygon(p, {{1, 11}, {11, 1}, {15, 5}, {5, 15}});
             for (int i = 0; i < 4; ++i)
                 p.drawLine(QPointF(3.2 + 2.2 * i, 8.8 - 2.2 * i), QPointF(4.8 + 2.2 * i, 10.4 - 2.2 * i));
         }},
        {"dimension",
         [](QPainter& p) {
             p.drawLine(QPointF(2, 3), QPointF(2, 13));
             p.drawLine(QPointF(14, 3), QPointF(14, 13));
             p.drawLine(QPointF(2, 8), QPointF(14, 8));
             p.drawLine(QPointF(2, 8), QPointF(5, 6));
             p.drawLine(QPointF(2, 8), QPointF(5, 10));
             p.drawLine(QPointF(14, 8), QPointF(11, 6));
             p.drawLine(QPointF(14, 8), QPointF(11, 10));
         }},
        {"picture",
         [](QPainter& p) {
             p.drawRect(QRectF(1.5, 2.5, 13, 11));
             p.drawEllipse(QRectF(9.5, 4.5, 3, 3));
             p.drawPolyline(QPolygonF({{1.5, 12}, {6, 7}, {9, 11}, {11, 9}, {14.5, 12.5}}));
         }},
        {"likeness",
         [](QPainter& p) {
             p.drawPolyline(QPolygonF({{1.5, 1.5}, {1.5, 14.5}, {15, 14.5}}));
             p.drawPolyline(QPolygonF({{3.5, 3}, {6, 9}, {9.5, 11.5}, {14.5, 12.5}}));
             nodes(p, {{3.5, 3}, {6, 9}, {9.5, 11.5}});
         }},
        {"grid",
         [](QPainter& p) {
             for (const double at : {2.5, 8.0, 13.5}) {
                 p.drawLine(QPointF(at, 1), QPointF(at, 15));
                 p.drawLine(QPointF(1, at), QPointF(15, at));
             }
         }},
        {"fit", [](QPainter& p) {
             p.drawRect(QRectF(4.5, 5.5, 7, 5));
             for (const auto& [x, y, dx, dy] :
                  {std::array{1.0, 1.5, 3.0, 3.0}, std::array{15.0, 1.5, -3.0, 3.0},
                   std::array{1.0, 14.5, 3.0, -3.0}, std::array{15.0, 14.5, -3.0, -3.0}}) {
                 p.drawLine(QPointF(x, y), QPointF(x + dx, y));
                 p.drawLine(QPointF(x, y), QPointF(x, y + dy));
             }
         }}};
    return all;
}

} // namespace

QIcon boardGlyph(const QString& name) {
    const auto at = drawings().find(name);
    if (at == drawings().end()) return {};
    QIcon icon;
    for (const bool on : {false, true}) {
        constexpr double ratio = 3; // enough for any screen; it is scaled down smoothly
        QPixmap picture(QSize(16, 16) * ratio);
        picture.setDevicePixelRatio(ratio);
        picture.fill(Qt::transparent);
        QPainter painter(&picture);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(QPen(on ? Theme::colours().chosen : Theme::colours().ink, 1.2, Qt::SolidLine,
                            Qt::RoundCap, Qt::RoundJoin));
        at->second(painter);
        painter.end();
        icon.addPixmap(picture, QIcon::Normal, on ? QIcon::On : QIcon::Off);
    }
    return icon;
}

} // namespace slab::ui
