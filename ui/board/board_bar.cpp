#include "ui/board/board_bar.h"
#include "ui/board/board_glyphs.h"
#include "ui/board/draw_tool.h"
#include "ui/paint/flow_layout.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QEvent>
#include <QMenu>
#include <QToolButton>

namespace slab::ui {

BoardBar::BoardBar(QWidget* parent) : QWidget(parent), m_deeds(new QMenu(this)), m_shown(new QMenu(this)) {
    setAccessibleName(tr("drawing tools"));
    auto* row = new FlowLayout(nullptr, 0, 2);
    setLayout(row);
    const auto put = [&](QToolButton* button) { row->addWidget(button); };
    put(add("choose", "Choose", "C", "Choose points, edges and dimension lines, and drag them."));
    row->startGroup();
    for (const DrawKind& kind : drawKinds()) put(add(kind.kind, kind.label, kind.key, kind.tip));
    put(add("frame", "Frame", "B",
            "A bulkhead, rib or shelf: click where it stands, or drag in its direction."));
    row->startGroup();
    put(add("dimension", "Dimension", "D",
            "A line between two points that tells their distance, and may drive it."));
    put(add("measure", "Measure", "M", "Distance and angle between any places. Changes nothing."));
    put(add("picture", "Picture", "R", "Lay a picture of the subject or of your donor under an elevation."));
    row->startGroup();
    QToolButton* deeds = add("deeds", "Change", {}, "What can be done to what is chosen.");
    deeds->setCheckable(false);
    deeds->setPopupMode(QToolButton::InstantPopup);
    deeds->setMenu(m_deeds);
    m_deeds->setToolTipsVisible(true);
    put(deeds);
    QToolButton* show =
        add("show", "Show", {}, "What is seen on the board: donor, rider, frames, pictures …");
    show->setCheckable(false);
    show->setPopupMode(QToolButton::InstantPopup);
    show->setMenu(m_shown);
    put(show);
    QToolButton* grid = add("grid", "Grid", "G", "Shows the grid, and lets points snap to it.");
    put(grid);
    put(add("likeness", "Likeness", "K",
            "How far the flat body leaves its curves, against the number of plates: choose how simple is "
            "simple enough."));
    QToolButton* fit =
        add("fit", "Fit", "F", "Everything on the sheet (a double click on it does the same).");
    fit->setCheckable(false);
    put(fit);
    // Closer than elsewhere: all tools stand in one row beside the body.
    setStyleSheet("QToolButton { padding: 4px 6px; } QToolButton:focus { padding: 3px 5px; }");
    mark("choose");
    setGrid(true);
}

QToolButton* BoardBar::add(const QString& name, const QString& words, const QString& key,
                           const QString& tip) {
    auto* button = new QToolButton;
    button->setObjectName("flat");
    button->setText(words);
    button->setIcon(boardGlyph(name));
    button->setIconSize({16, 16});
    button->setToolButtonStyle(boardGlyph(name).isNull() ? Qt::ToolButtonTextOnly
                                                         : Qt::ToolButtonTextBesideIcon);
    button->setCheckable(true);
    button->setFont(Theme::words(12));
    explain(button, words, key.isEmpty() ? tip : tip + " (" + key + ")");
    m_buttons.insert(name, button);
    connect(button, &QToolButton::clicked, this, [this, name, button] {
        if (name == "grid") return Q_EMIT gridWanted(button->isChecked());
        if (name == "likeness") return Q_EMIT likenessWanted(button->isChecked());
        if (name == "fit") return Q_EMIT fitWanted();
        if (name == "deeds" || name == "show") return;
        if (name == "picture") return button->setChecked(false), Q_EMIT pictureWanted();
        button->setChecked(true);
        Q_EMIT toolWanted(name);
    });
    return button;
}

void BoardBar::mark(const QString& tool) {
    for (auto at = m_buttons.begin(); at != m_buttons.end(); ++at)
        if (at.key() != "grid" && at.key() != "likeness" && at.value()->isCheckable())
            at.value()->setChecked(at.key() == tool);
}

void BoardBar::setGrid(bool on) {
    m_buttons["grid"]->setChecked(on);
}

void BoardBar::setLikeness(bool on) {
    m_buttons["likeness"]->setChecked(on);
}

QString BoardBar::toolFor(const QString& letter) {
    if (letter == "C") return "choose";
    if (letter == "B") return "frame";
    if (letter == "W") return "mechanism"; // of which kind, a menu asks: the row has no room for it
    if (letter == "D") return "dimension";
    if (letter == "M") return "measure";
    if (letter == "R") return "picture";
    if (letter == "K") return "likeness";
    for (const DrawKind& kind : drawKinds())
        if (letter == kind.key) return kind.kind;
    return {};
}

/// Where one row does not hold all words with their drawings, most do with one of the two.
void BoardBar::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    if (m_needed == 0)
        for (QToolButton* button : std::as_const(m_buttons)) m_needed += button->sizeHint().width() + 2;
    const bool compact = width() < m_needed;
    if (compact == m_compact) return;
    m_compact = compact;
    for (auto at = m_buttons.begin(); at != m_buttons.end(); ++at) {
        if (boardGlyph(at.key()).isNull()) continue;
        const bool aside = at.key() == "grid" || at.key() == "likeness" || at.key() == "fit";
        at.value()->setToolButtonStyle(!compact ? Qt::ToolButtonTextBesideIcon
                                       : aside  ? Qt::ToolButtonIconOnly
                                                : Qt::ToolButtonTextOnly);
    }
}

void BoardBar::redraw() {
    for (auto at = m_buttons.begin(); at != m_buttons.end(); ++at) at.value()->setIcon(boardGlyph(at.key()));
}

void BoardBar::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange) redraw();
    QWidget::changeEvent(event);
}

} // namespace slab::ui
