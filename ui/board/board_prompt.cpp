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

} // namespace

QRectF paintPrompt(QPainter& painter, const QRectF& paper, const BoardPrompt& prompt, const QString& told,
                   const std::optional<QPointF>& pointer) {
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
    QRectF all(paper.center().x() - width / 2, paper.top() + inset, width, height);
    constexpr double shy = 24; // px: what is worked on is not covered
    if (pointer && all.adjusted(-shy, -shy, shy, shy).contains(*pointer))
        all.moveBottom(paper.bottom() - inset);
    double y = all.top();
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const QSizeF& size = sizes[i];
        paintLine(painter, QRectF(QPointF(all.center().x() - size.width() / 2, y), size), lines[i]);
        y += size.height() + between;
    }
    return all;
}

} // namespace slab::ui
