#include "ui/ruler/plot_paint.h"
#include "ui/ruler/rule_paint.h"
#include "ui/ruler/rule_strip.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <QPolygonF>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

class PlotPainter {
public:
    PlotPainter(QPainter& painter, const PlotPicture& picture)
        : m_painter(painter), m_p(picture), m_lines(plotLines(*picture.survey)) {
        std::tie(m_low, m_high) = plotRange(*picture.survey);
    }

    void paint() {
        m_painter.save();
        m_painter.setClipRect(m_p.area);
        ground();
        grid();
        for (auto line = m_lines.rbegin(); line != m_lines.rend(); ++line) curve(*line);
        m_painter.restore();
        labels();
        axis();
        places();
    }

private:
    [[nodiscard]] double yOf(double mm) const {
        return m_p.area.bottom() - (mm - m_low) / (m_high - m_low) * m_p.area.height();
    }
    [[nodiscard]] QPointF at(const Constraint& c, const Margin& m) const {
        return {m_p.xOf(m.scale), yOf(plotted(c, m.margin))};
    }

    /// Scales at which all holds, and what lies below 0.
    void ground() {
        const Palette& c = Theme::colours();
        for (const FeasibleBand& band : m_p.survey->feasible) {
            const QRectF stretch(QPointF(m_p.xOf(band.from), m_p.area.top()),
                                 QPointF(m_p.xOf(band.to), m_p.area.bottom()));
            m_painter.fillRect(stretch, Theme::mix(c.fits, c.card, Theme::dark() ? 0.22 : 0.16));
        }
        const QRectF below(QPointF(m_p.area.left(), yOf(0)), m_p.area.bottomRight());
        m_painter.setPen(QPen(Theme::mix(c.hits, c.card, Theme::dark() ? 0.28 : 0.18), 1));
        for (double x = below.left() - below.height(); x < below.right(); x += 9)
            m_painter.drawLine(QPointF(x, below.bottom()), QPointF(x + below.height(), below.top()));
    }

    /// 1, 2 or 5 times a power of ten, mm, or a length that an inch rule has.
    [[nodiscard]] double gridStep() const {
        const double least = (m_high - m_low) / std::max(2.0, m_p.area.height() / 34);
        const bool inches = m_p.units.unit == Unit::in || m_p.units.unit == Unit::ft;
        const double unit = inches ? 25.4 / 8 : 1;
        for (double power = 1; power < 1e6; power *= inches ? 2 : 10)
            for (const double times : inches ? std::vector{1.0} : std::vector{1.0, 2.0, 5.0})
                if (unit * power * times >= least) return unit * power * times;
        return m_high;
    }
    void grid() {
        const Palette& c = Theme::colours();
        m_step = gridStep();
        for (auto k = static_cast<int>(std::ceil(m_low / m_step)); k * m_step <= m_high; ++k) {
            const double y = std::round(yOf(k * m_step)) + 0.5;
            m_painter.setPen(QPen(k == 0 ? c.ink : Theme::mix(c.line, c.card, 0.7), k == 0 ? 1.5 : 1));
            m_painter.drawLine(QPointF(m_p.area.left(), y), QPointF(m_p.area.right(), y));
        }
    }
    void axis() {
        const Palette& c = Theme::colours();
        m_painter.setFont(Theme::figures(11));
        for (auto k = static_cast<int>(std::ceil(m_low / m_step)); k * m_step <= m_high; ++k) {
            const double y = yOf(k * m_step);
            if (y < m_p.area.top() + 8 || y > m_p.area.bottom() - 6) continue;
            const QString text =
                k == 0 ? QStringLiteral("0")
                       : (k < 0 ? QStringLiteral("−") : QString()) +
                             QString::fromStdString(printLength(std::abs(k * m_step), m_p.units));
            words(QPointF(m_p.area.left() + 4, y - 7), text, c.quiet);
        }
    }

    void curve(const PlotLine& line) {
        const Palette& c = Theme::colours();
        const Constraint& of = *line.of;
        m_painter.setPen(line.strong ? plotPen(line.style) : QPen(Theme::mix(c.quiet, c.card, 0.45), 1));
        m_painter.setBrush(Qt::NoBrush);
        QPolygonF run;
        const auto draw = [&] {
            if (run.size() > 1) m_painter.drawPolyline(run);
            run.clear();
        };
        for (const Margin& m : of.points) {
            if (m.known != Known::exactly)
                draw();
            else
                run << at(of, m);
        }
        draw();
    }

    /// Words on a patch of the card's colour, so that lines do not run through them.
    QRectF words(const QPointF& topLeft, const QString& text, const QColor& ink) {
        const QFontMetricsF metrics(m_painter.font());
        const QRectF box(topLeft.x(), topLeft.y(), metrics.horizontalAdvance(text) + 6, 15);
        QColor patch = Theme::colours().card;
        patch.setAlpha(215);
        m_painter.setPen(Qt::NoPen);
        m_painter.setBrush(patch);
        m_painter.drawRoundedRect(box, 3, 3);
        m_painter.setPen(ink);
        m_painter.drawText(box, Qt::AlignCenter, text);
        return box;
    }

    /// Each strong line's words on the line, where they lie on no others.
    void labels() {
        m_painter.setFont(Theme::words(12));
        const QFontMetricsF metrics(m_painter.font());
        for (const PlotLine& line : m_lines) {
            if (!line.strong) continue;
            QString text = QString::fromStdString(line.of->words); // what is no length has the 0 in common
            if (line.of->unit != Constraint::Unit::length) text += QStringLiteral(" (own scale)");
            const double width = metrics.horizontalAdvance(text) + 6;
            double first = -1e9; // a second time where the line comes back far off
            for (int i = 0; i < 40; ++i) {
                // From the middle outward, over the whole plot.
                const double share = 0.5 + 0.024 * ((i % 2 == 0 ? 1 : -1) * ((i + 1) / 2));
                const double scale = m_p.from + (m_p.to - m_p.from) * share;
                const Margin* near = line.of->nearest(scale);
                const auto margin = line.of->margin(scale);
                if (!near || !margin || near->known != Known::exactly) continue;
                const double x = m_p.xOf(scale), y = yOf(plotted(*line.of, *margin));
                const QRectF box(x - width / 2, y - 8, width, 16);
                if (std::abs(x - first) < 0.3 * m_p.area.width() || !free(box)) continue;
                m_taken.push_back(words(box.topLeft(), text, plotPen(line.style).color()));
                if (first > -1e8) break;
                first = x;
            }
        }
    }
    [[nodiscard]] bool free(const QRectF& box) const {
        return m_p.area.adjusted(56, 2, -4, -2).contains(box) &&
               std::none_of(m_taken.begin(), m_taken.end(), [&](const QRectF& other) {
                   return other.adjusted(-6, -2, 6, 2).intersects(box);
               });
    }

    /// The handle's place, and what is read.
    void places() {
        const Palette& c = Theme::colours();
        const auto line = [&](double scale, const QPen& pen) {
            m_painter.setPen(pen);
            m_painter.drawLine(QPointF(m_p.xOf(scale), m_p.area.top()),
                               QPointF(m_p.xOf(scale), m_p.area.bottom()));
        };
        if (m_p.scale >= m_p.from && m_p.scale <= m_p.to) line(m_p.scale, QPen(c.chosen, 2));
        if (!m_p.reading) return;
        line(*m_p.reading, QPen(c.ink, 1, Qt::DashLine));
        readings(*m_p.reading);
    }
    void readings(double scale) {
        const Palette& c = Theme::colours();
        const int most = std::clamp(static_cast<int>(m_p.area.height() / 18) - 3, 2, 8);
        QStringList lines = plotWordsAt(*m_p.survey, scale, m_p.units, most);
        lines.prepend("scale " + scaleText(scale));
        m_painter.setFont(Theme::words(12));
        const QFontMetricsF metrics(m_painter.font());
        double width = 0;
        for (const QString& l : lines) width = std::max(width, metrics.horizontalAdvance(l));
        width = std::min(width + 20, m_p.area.width() / 2 - 20);
        const double x = m_p.xOf(scale);
        const bool right = x < m_p.area.center().x();
        const QRectF box(right ? x + 12 : x - 12 - width, m_p.area.top() + 8, width,
                         17.0 * static_cast<double>(lines.size()) + 10);
        m_painter.setPen(QPen(c.line, 1));
        m_painter.setBrush(c.card);
        m_painter.drawRoundedRect(box, 6, 6);
        for (int i = 0; i < lines.size(); ++i) {
            m_painter.setFont(Theme::words(12, i == 0));
            m_painter.setPen(lines[i].endsWith("short") || lines[i].endsWith("meet") ? c.hits : c.ink);
            const QRectF row(box.left() + 10, box.top() + 5 + 17 * i, width - 20, 17);
            m_painter.drawText(
                row, Qt::AlignLeft | Qt::AlignVCenter,
                QFontMetricsF(m_painter.font()).elidedText(lines[i], Qt::ElideMiddle, row.width()));
        }
    }

    QPainter& m_painter;
    const PlotPicture& m_p;
    std::vector<PlotLine> m_lines;
    double m_low = -1, m_high = 1, m_step = 1;
    std::vector<QRectF> m_taken;
};

} // namespace

QPen plotPen(int style) {
    const Palette& c = Theme::colours();
    const QColor inks[] = {c.ink, c.chosen, c.hits, Theme::mix(c.tight, c.ink, 0.8),
                           Theme::mix(c.fits, c.ink, 0.7)};
    const std::vector<QList<qreal>> patterns = {{}, {6, 3}, {1.5, 2.5}, {7, 2.5, 1.5, 2.5}};
    QPen pen(inks[style % 5], 1.8);
    pen.setCapStyle(Qt::FlatCap);
    pen.setJoinStyle(Qt::RoundJoin);
    const QList<qreal>& pattern = patterns[static_cast<std::size_t>(style) % patterns.size()];
    if (!pattern.isEmpty()) pen.setDashPattern(pattern);
    return pen;
}

void paintPlot(QPainter& painter, const PlotPicture& picture) {
    painter.setRenderHint(QPainter::Antialiasing);
    const Palette& c = Theme::colours();
    painter.fillRect(picture.area, c.card);
    if (!picture.survey || picture.survey->constraints.empty()) {
        painter.setFont(Theme::words(12));
        painter.setPen(c.quiet);
        painter.drawText(picture.area, Qt::AlignCenter,
                         picture.survey ? "nothing has to keep clear of anything yet"
                                        : "trying every scale…");
    } else {
        PlotPainter(painter, picture).paint();
        if (!picture.current) painter.fillRect(picture.area, QColor(255, 255, 255, Theme::dark() ? 14 : 90));
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(picture.focus ? QPen(c.chosen, 2) : QPen(c.line, 1));
    painter.drawRoundedRect(picture.area, 4, 4);
}

} // namespace slab::ui
