#include "ui/ruler/rule_paint.h"
#include "ui/ruler/rule_flags.h"
#include "ui/ruler/rule_strip.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <QPainterPath>
#include <QPolygonF>
#include <cmath>

namespace slab::ui {

namespace {

QColor inkOf(FitState state) {
    const Palette& c = Theme::colours();
    return state == FitState::fits ? c.fits : state == FitState::tight ? c.tight : c.hits;
}

/// Slanted lines for what hits, dots for what is tight, plain for what fits.
void paintPattern(QPainter& painter, const QRectF& area, FitState state) {
    const QColor ink = inkOf(state);
    const bool fits = state == FitState::fits;
    painter.fillRect(area, Theme::mix(ink, Theme::colours().card, fits ? 0.30 : 0.22));
    if (fits) return;
    painter.save();
    painter.setClipRect(area, Qt::IntersectClip);
    if (state == FitState::hits) {
        painter.setPen(QPen(Theme::mix(ink, Theme::colours().card, 0.75), 1));
        const double slant = area.height();
        const double first = std::floor((area.left() - slant) / 9) * 9; // one raster for all bands
        for (double x = first; x < area.right(); x += 9)
            painter.drawLine(QPointF(x, area.bottom()), QPointF(x + slant, area.top()));
    } else {
        painter.setPen(Qt::NoPen);
        painter.setBrush(ink);
        int row = 0;
        for (double y = area.top() + 4; y < area.bottom(); y += 5, ++row) {
            const double first = std::floor(area.left() / 6) * 6 + (row % 2) * 3;
            for (double x = first; x < area.right(); x += 6) painter.drawEllipse(QPointF(x, y), 1.0, 1.0);
        }
    }
    painter.restore();
}

/// The larger part of a band beside the handle, for its words.
QRectF besideHandle(const QRectF& area, double handle) {
    constexpr double clear = 16; // half the handle and a little air, px
    if (handle + clear <= area.left() || handle - clear >= area.right()) return area;
    QRectF left = area, right = area;
    left.setRight(handle - clear);
    right.setLeft(handle + clear);
    return left.width() > right.width() ? left : right;
}

void paintWords(QPainter& painter, const QRectF& area, const QString& words, FitState state) {
    const QFont font = Theme::words(12, true);
    const QFontMetricsF metrics(font);
    const double room = area.width() - 24;
    if (room < 26) return;
    QString shown = words;
    if (metrics.horizontalAdvance(shown) > room) shown = words.section(':', 0, 0);
    if (metrics.horizontalAdvance(shown) > room) return;
    if (room > 150 && shown != words) shown = metrics.elidedText(words, Qt::ElideMiddle, room);
    const double width = metrics.horizontalAdvance(shown);
    QRectF plate(area.center().x() - width / 2 - 5, area.center().y() - 9, width + 10, 18);
    const Palette& c = Theme::colours();
    if (state != FitState::fits) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(Theme::mix(inkOf(state), c.card, 0.16));
        painter.drawRoundedRect(plate, 4, 4);
    }
    painter.setFont(font);
    painter.setPen(c.ink);
    painter.drawText(plate, Qt::AlignCenter, shown);
}

void paintBands(QPainter& painter, const RulePicture& p) {
    QPainterPath outline;
    outline.addRoundedRect(p.body, 4, 4);
    painter.save();
    painter.setClipPath(outline);
    painter.fillRect(p.body, Theme::mix(Theme::colours().line, Theme::colours().card, 0.35));
    std::vector<std::pair<QRectF, const FitBand*>> shown;
    if (p.survey) {
        for (const FitBand& band : p.survey->bands) {
            const double left = std::max(p.body.left(), p.xOf(band.from));
            const double right = std::min(p.body.right(), p.xOf(band.to));
            if (right <= left) continue;
            const QRectF area(left, p.body.top(), right - left, p.body.height());
            paintPattern(painter, area, band.state);
            shown.emplace_back(area, &band);
        }
        painter.setPen(QPen(Theme::mix(Theme::colours().ink, Theme::colours().card, 0.5), 1));
        for (std::size_t i = 1; i < shown.size(); ++i)
            painter.drawLine(shown[i].first.topLeft(), shown[i].first.bottomLeft());
        for (const auto& [area, band] : shown)
            for (const auto& [place, words] : bandTold(*band, area, p.xOf(p.scale)))
                paintWords(painter, place, words, band->state);
        if (!p.current) painter.fillRect(p.body, QColor(255, 255, 255, Theme::dark() ? 20 : 90));
    }
    painter.restore();
    painter.setPen(QPen(Theme::mix(Theme::colours().ink, Theme::colours().line, 0.45), 1));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(outline);
    if (shown.empty()) {
        painter.setFont(Theme::words(12));
        painter.setPen(Theme::colours().quiet);
        painter.drawText(besideHandle(p.body, p.xOf(p.scale)), Qt::AlignCenter, p.idle);
    }
}

void paintTicks(QPainter& painter, const RulePicture& p) {
    const Palette& c = Theme::colours();
    const TickSteps steps = tickSteps(p.to - p.from, p.body.width());
    painter.setFont(Theme::figures(12));
    const double y = p.body.bottom();
    const auto count = static_cast<long>(std::floor(p.to / steps.plain + 1e-6));
    for (auto i = static_cast<long>(std::ceil(p.from / steps.plain - 1e-6)); i <= count; ++i) {
        const double at = static_cast<double>(i) * steps.plain;
        const double x = std::round(p.xOf(at)) + 0.5;
        const double rest = std::fabs(at / steps.labelled - std::round(at / steps.labelled));
        const bool labelled = rest < 1e-6;
        painter.setPen(QPen(Theme::mix(c.quiet, c.card, labelled ? 1 : 0.7), 1));
        painter.drawLine(QPointF(x, y), QPointF(x, y + (labelled ? 9 : 5)));
        if (!labelled || std::fabs(x - p.xOf(p.scale)) < 24)
            continue; // the handle stands there and says its own
        painter.setPen(c.quiet);
        painter.drawText(QRectF(x - 40, y + 10, 80, 16), Qt::AlignHCenter | Qt::AlignTop,
                         QString::number(at, 'f', steps.decimals));
    }
}

void paintSteps(QPainter& painter, const RulePicture& p) {
    const Palette& c = Theme::colours();
    painter.setFont(Theme::words(12));
    painter.setPen(c.quiet);
    painter.drawText(QRectF(0, p.stepsY - 9, p.body.left() + 60, 18), Qt::AlignLeft | Qt::AlignVCenter,
                     "sheets");
    if (!p.survey) return;
    const auto& steps = p.survey->sheetSteps;
    const QFont figures = Theme::figures(12, true), words = Theme::words(12);
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const double end = i + 1 < steps.size() ? steps[i + 1].scale : p.survey->to;
        const double left = std::max(p.body.left() + (i == 0 ? 26 : 2), p.xOf(steps[i].scale) + 2);
        const double right = std::min(p.body.right(), p.xOf(end)) - 2;
        if (right - left < 3) continue;
        const bool tooLarge = steps[i].tooLarge > 0;
        const QFont& font = tooLarge ? words : figures;
        const auto widthOf = [&](const QString& t) { return QFontMetricsF(font).horizontalAdvance(t) + 12; };
        QString text = tooLarge ? stepWords(steps[i]) : QString::number(steps[i].sheets);
        if (tooLarge && widthOf(text) + 8 > right - left) text = QStringLiteral("too large");
        const QString cost = costWords(steps[i], QString::fromStdString(p.survey->currency));
        if (!cost.isEmpty() && widthOf(text + " · " + cost) + 8 <= right - left) text += " · " + cost;
        const double width = widthOf(text), middle = (left + right) / 2;
        painter.setPen(QPen(Theme::mix(tooLarge ? c.hits : c.tight, c.line, tooLarge ? 0.7 : 0.35), 2,
                            tooLarge ? Qt::DashLine : Qt::SolidLine));
        if (right - left < width + 8) {
            painter.drawLine(QPointF(left, p.stepsY), QPointF(right, p.stepsY));
            continue;
        }
        painter.drawLine(QPointF(left, p.stepsY), QPointF(middle - width / 2, p.stepsY));
        painter.drawLine(QPointF(middle + width / 2, p.stepsY), QPointF(right, p.stepsY));
        painter.setFont(font);
        painter.setPen(c.ink);
        painter.drawText(QRectF(middle - width / 2, p.stepsY - 9, width, 18), Qt::AlignCenter, text);
    }
}

void paintHandle(QPainter& painter, const RulePicture& p) {
    const Palette& c = Theme::colours();
    const double x = std::clamp(p.xOf(p.scale), p.body.left(), p.body.right());
    const double top = p.body.top() - 7, foot = p.body.bottom() + 9;
    painter.setPen(QPen(c.chosen, 3));
    painter.drawLine(QPointF(x, top), QPointF(x, foot));
    painter.setPen(Qt::NoPen);
    painter.setBrush(c.chosen);
    painter.drawPolygon(QPolygonF{{x - 10, foot + 9},
                                  {x - 10, foot + 1},
                                  {x - 6, foot + 1},
                                  {x, foot - 4},
                                  {x + 6, foot + 1},
                                  {x + 10, foot + 1},
                                  {x + 10, foot + 9}});
    if (p.focus) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(c.ink, 2));
        painter.drawEllipse(QPointF(x, p.body.center().y()), 13, 13);
    }
    painter.setBrush(p.held ? c.chosenFill : c.card);
    painter.setPen(QPen(c.chosen, 3));
    painter.drawEllipse(QPointF(x, p.body.center().y()), 8.5, 8.5);
}

} // namespace

QString bandWords(const FitBand& band, double at) {
    if (band.state == FitState::fits) return "fits";
    QString binding = QString::fromStdString(band.bindingAt(at));
    binding.replace("donor/", "").replace("rider/", "rider ");
    const QString word = band.state == FitState::tight ? "tight" : "hits";
    // What is no pair of things that come near says by itself what is wrong.
    if (!binding.isEmpty() && !binding.contains(" – ")) return binding;
    return binding.isEmpty() ? word : word + ": " + binding;
}

std::vector<std::pair<QRectF, QString>> bandTold(const FitBand& band, const QRectF& area, double handle) {
    const QString low = bandWords(band, band.from), high = bandWords(band, band.to);
    const QFontMetricsF metrics(Theme::words(12, true));
    constexpr double air = 40; // px
    if (low == high ||
        metrics.horizontalAdvance(low) + metrics.horizontalAdvance(high) + 2 * air > area.width())
        return {{besideHandle(area, handle), bandWords(band, (band.from + band.to) / 2)}};
    const double share = (metrics.horizontalAdvance(low) + air) /
                         (metrics.horizontalAdvance(low) + metrics.horizontalAdvance(high) + 2 * air);
    QRectF left = area, right = area;
    left.setWidth(area.width() * share);
    right.setLeft(left.right());
    return {{besideHandle(left, handle), low}, {besideHandle(right, handle), high}};
}

QString tooLargeWords(int panels) {
    return panels == 1 ? QStringLiteral("1 panel larger than its sheet")
                       : QString("%1 panels larger than their sheets").arg(panels);
}

QString costWords(const ScaleSurvey::Step& step, const QString& currency) {
    if (step.tooLarge > 0 || !(step.cost > 0)) return {};
    const bool whole = std::fabs(step.cost - std::round(step.cost)) < 0.005;
    const QString figure = QString::number(step.cost, 'f', whole ? 0 : 2);
    return currency.isEmpty() ? figure : currency + " " + figure;
}

QString stepWords(const ScaleSurvey::Step& step) {
    if (step.tooLarge > 0) return tooLargeWords(step.tooLarge);
    return QString("%1 %2").arg(step.sheets).arg(step.sheets == 1 ? "sheet" : "sheets");
}

void paintRule(QPainter& painter, const RulePicture& picture) {
    painter.setRenderHint(QPainter::Antialiasing);
    paintBands(painter, picture);
    paintTicks(painter, picture);
    if (!picture.slim) {
        paintSteps(painter, picture);
        paintFlags(painter, picture);
    }
    paintHandle(painter, picture);
}

} // namespace slab::ui
