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
    QString badge, words, quiet;
    bool told = false;
};

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
    const QColor frame = line.told ? c.tight : c.chosen;
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

/// The first of the places that covers least.
QRectF placeFor(const QSizeF& size, const PromptRoom& where) {
    constexpr double shy = 24, underHand = 1e9; // px
    const QRectF inner = where.paper.adjusted(inset, inset, -inset, -inset);
    const double middle = inner.center().x() - size.width() / 2, right = inner.right() - size.width(),
                 low = inner.bottom() - size.height();
    QRectF best;
    double least = -1;
    for (const QPointF& at :
         {QPointF(middle, inner.top()), QPointF(middle, low), QPointF(right, inner.top()),
          QPointF(inner.left(), inner.top()), QPointF(inner.left(), low), QPointF(right, low)}) {
        const QRectF box(at, size);
        double covers =
            where.pointer && box.adjusted(-shy, -shy, shy, shy).contains(*where.pointer) ? underHand : 0;
        constexpr double light = 0.01; // of what may be covered, if need be
        for (const auto& [areas, weight] : {std::pair(&where.taken, 1.0), std::pair(&where.drawn, light)})
            for (const QRectF& other : *areas) {
                const QRectF both = box.intersected(other);
                if (!both.isEmpty()) covers += weight * both.width() * both.height();
            }
        if (least >= 0 && covers >= least) continue;
        least = covers;
        best = box;
    }
    return best;
}

} // namespace

QRectF paintPrompt(QPainter& painter, const PromptRoom& where, const BoardPrompt& prompt,
                   const QString& told) {
    const QRectF& paper = where.paper;
    std::vector<Line> lines;
    if (!prompt.words.isEmpty()) lines.push_back({prompt.count(), prompt.words, leave, false});
    if (!told.isEmpty()) lines.push_back({"!", told, {}, true});
    if (lines.empty()) return {};
    const double room = std::min(paper.width() - 2 * inset, 900.0);
    double width = 0, height = -between;
    std::vector<QSizeF> sizes;
    for (const Line& line : lines) {
        sizes.push_back(sizeOf(line, room));
        width = std::max(width, sizes.back().width());
        height += sizes.back().height() + between;
    }
    const QRectF all = placeFor({width, height}, where);
    double y = all.top();
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const QSizeF& size = sizes[i];
        paintLine(painter, QRectF(QPointF(all.center().x() - size.width() / 2, y), size), lines[i]);
        y += size.height() + between;
    }
    return all;
}

} // namespace slab::ui
