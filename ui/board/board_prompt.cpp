#include "ui/board/board_prompt.h"
#include "ui/theme/theme.h"
#include <QFontMetricsF>
#include <QPainter>
#include <algorithm>
#include <vector>

namespace slab::ui {

namespace {

constexpr double inset = 12, pad = 10, between = 6; // px
constexpr const char* leave = "Esc leaves";

struct Line {
    enum class Tone { asks, warns, fine };
    QString badge, words, quiet;
    Tone tone = Tone::asks;
};
using Tone = Line::Tone;

QFont badgeFont() {
    return Theme::figures(14, true);
}
QFont wordsFont() {
    return Theme::words(15, true);
}

double widthOf(const QFont& font, const QString& text) {
    return text.isEmpty() ? 0 : QFontMetricsF(font).horizontalAdvance(text) + pad;
}

/// Its size when it may be so wide: the words wrap, badge and the way out do not.
QSizeF sizeOf(const Line& line, double room) {
    const double beside = widthOf(badgeFont(), line.badge) + (line.badge.isEmpty() ? 0 : pad) +
                          widthOf(Theme::words(12), line.quiet);
    const double words = std::max(120.0, room - beside - 2 * pad);
    const QRectF box =
        QFontMetricsF(wordsFont()).boundingRect(QRectF(0, 0, words, 1000), Qt::TextWordWrap, line.words);
    return {box.width() + 1 + beside + 2 * pad, box.height() + pad};
}

void paintLine(QPainter& painter, const QRectF& box, const Line& line) {
    const Palette& c = Theme::colours();
    const QColor frame = line.tone == Tone::warns ? c.tight : line.tone == Tone::fine ? c.fits : c.chosen;
    painter.setPen(QPen(frame, 2));
    painter.setBrush(c.card);
    painter.drawRoundedRect(box, 8, 8);
    double x = box.left() + pad;
    if (!line.badge.isEmpty()) {
        const QRectF badge(x, box.top() + pad / 2, widthOf(badgeFont(), line.badge), box.height() - pad);
        painter.setPen(Qt::NoPen);
        painter.setBrush(frame);
        painter.drawRoundedRect(badge, 5, 5);
        painter.setPen(c.card);
        painter.setFont(badgeFont());
        painter.drawText(badge, Qt::AlignCenter, line.badge);
        x = badge.right() + pad;
    }
    const double quiet = widthOf(Theme::words(12), line.quiet);
    painter.setFont(wordsFont());
    painter.setPen(c.ink);
    painter.drawText(QRectF(x, box.top(), box.right() - pad - quiet - x + 1, box.height()),
                     Qt::TextWordWrap | Qt::AlignVCenter, line.words);
    if (line.quiet.isEmpty()) return;
    painter.setFont(Theme::words(12));
    painter.setPen(c.quiet);
    painter.drawText(QRectF(box.right() - pad - quiet, box.top(), quiet, box.height()),
                     Qt::AlignRight | Qt::AlignVCenter, line.quiet);
}

/// What a box there covers: the pointer weighs most, drawings least.
double covered(const QRectF& box, const PromptRoom& where) {
    constexpr double shy = 24, underHand = 1e9; // px
    constexpr double light = 0.01;              // of what may be covered, if need be
    double covers =
        where.pointer && box.adjusted(-shy, -shy, shy, shy).contains(*where.pointer) ? underHand : 0;
    for (const auto& [areas, weight] : {std::pair(&where.taken, 1.0), std::pair(&where.drawn, light)})
        for (const QRectF& other : *areas) {
            const QRectF both = box.intersected(other);
            if (!both.isEmpty()) covers += weight * both.width() * both.height();
        }
    return covers;
}

struct Place {
    QRectF box;
    double covers = -1;
};

/// The first of the places that covers least: along the edges and in the corners, then beside what is there.
Place placeFor(const QSizeF& size, const PromptRoom& where) {
    const QRectF inner = where.paper.adjusted(inset, inset, -inset, -inset);
    const double middle = inner.center().x() - size.width() / 2, right = inner.right() - size.width(),
                 low = inner.bottom() - size.height();
    std::vector<QPointF> places{{middle, inner.top()},       {middle, low},       {right, inner.top()},
                                {inner.left(), inner.top()}, {inner.left(), low}, {right, low}};
    std::vector<double> across{inner.left(), middle, right}, down{inner.top(), low};
    for (const auto* areas : {&where.taken, &where.drawn})
        for (const QRectF& other : *areas) {
            across.insert(across.end(), {other.right() + between, other.left() - between - size.width()});
            down.insert(down.end(), {other.bottom() + between, other.top() - between - size.height()});
        }
    for (const double y : down)
        for (const double x : across) places.emplace_back(x, y);
    Place best;
    for (const QPointF& at : places) {
        const QRectF box(at, size);
        if (best.covers >= 0 && !inner.contains(box)) continue;
        const double covers = covered(box, where);
        if (best.covers >= 0 && covers >= best.covers) continue;
        best = {box, covers};
        if (covers == 0) break;
    }
    return best;
}

struct Laid {
    std::vector<QSizeF> sizes;
    QSizeF all;
};

/// One line of words below the other, each at most so wide.
Laid laidOut(const std::vector<Line>& lines, double room) {
    Laid out;
    double width = 0, height = -between;
    for (const Line& line : lines) {
        out.sizes.push_back(sizeOf(line, room));
        width = std::max(width, out.sizes.back().width());
        height += out.sizes.back().height() + between;
    }
    out.all = {width, height};
    return out;
}

} // namespace

QRectF paintPrompt(QPainter& painter, const PromptRoom& where, const BoardPrompt& prompt,
                   const BoardTold& told) {
    std::vector<Line> lines;
    if (!prompt.words.isEmpty()) lines.push_back({prompt.count(), prompt.words, leave, Tone::asks});
    if (!told.words.isEmpty())
        lines.push_back({told.fine ? "✓" : "!", told.words, {}, told.fine ? Tone::fine : Tone::warns});
    if (lines.empty()) return {};
    // Narrower, and so in more lines, only where that covers less.
    Laid laid;
    Place place;
    for (const double most : {900.0, 640.0, 460.0, 330.0, 250.0}) {
        Laid next = laidOut(lines, std::min(where.paper.width() - 2 * inset, most));
        const Place there = placeFor(next.all, where);
        if (place.covers >= 0 && there.covers >= place.covers) continue;
        place = there;
        laid = std::move(next);
        if (place.covers == 0) break;
    }
    const QRectF& all = place.box;
    double y = all.top();
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const QSizeF& size = laid.sizes[i];
        paintLine(painter, QRectF(QPointF(all.center().x() - size.width() / 2, y), size), lines[i]);
        y += size.height() + between;
    }
    return all;
}

} // namespace slab::ui
