#include "ui/board/draw_strip.h"
#include "ui/board/board_canvas.h"
#include "ui/paint/flow_layout.h"
#include "ui/theme/card.h"
#include "ui/window/titles.h"
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <utility>

namespace slab::ui {

DrawStrip::DrawStrip(BoardCanvas* canvas, QWidget* parent)
    : QWidget(parent), m_canvas(canvas), m_place(new QPushButton("Place corner")),
      m_make(new QPushButton("Make it")) {
    setAccessibleName(tr("the form that is being drawn"));
    auto* row = new FlowLayout(nullptr, 6, 4);
    setLayout(row);
    const QStringList names = formulaNames(canvas->desk().project());
    m_name = new StripEntry("name", {});
    m_size = new StripEntry("size", names);
    m_from = new StripEntry("from", names);
    m_right = new StripEntry("next x", names);
    m_up = new StripEntry("next z", names);
    for (StripEntry* one : {m_name, m_size, m_from, m_right, m_up}) {
        row->addWidget(one);
        one->hold(one == m_name ? 130 : 92);
        if (one != m_name) one->holdBuilt();
        connect(one, &StripEntry::givenUp, this, &DrawStrip::done);
    }
    explain(m_place, "Place corner", "Puts the next corner at the figures typed before it (Return).");
    explain(m_make, "Make the form", "Closes the outline and makes the form (Return on the sheet).");
    row->addWidget(m_place);
    row->addWidget(m_make);
    for (StripEntry* one : {m_name, m_size, m_from}) {
        connect(one, &StripEntry::typed, this, &DrawStrip::figures);
        connect(one, &StripEntry::entered, this, &DrawStrip::done);
    }
    for (StripEntry* one : {m_size, m_from, m_right, m_up})
        connect(one, &StripEntry::typed, this,
                [this, one](const QString& text) { one->tell(readingOf(m_canvas->desk(), text, true)); });
    for (StripEntry* one : {m_right, m_up})
        connect(one, &StripEntry::typed, this, [this] {
            if (DrawTool* t = tool()) t->hold(m_right->edit()->text(), m_up->edit()->text());
        });
    connect(m_right, &StripEntry::entered, this, [this] {
        DrawTool* t = tool();
        const bool nothing = m_right->edit()->text().trimmed().isEmpty();
        if (nothing && t && t->canFinish()) {
            t->finish();
            Q_EMIT done();
        } else {
            m_up->edit()->setFocus(Qt::TabFocusReason);
        }
    });
    connect(m_up, &StripEntry::entered, this, &DrawStrip::placeCorner);
    connect(m_place, &QPushButton::clicked, this, &DrawStrip::placeCorner);
    connect(m_make, &QPushButton::clicked, this, [this] {
        if (DrawTool* t = tool()) t->finish();
        Q_EMIT done();
    });
    connect(canvas, &BoardCanvas::pointed, this, &DrawStrip::refresh);
}

DrawTool* DrawStrip::tool() const {
    return dynamic_cast<DrawTool*>(&m_canvas->tool());
}

void DrawStrip::refresh() {
    DrawTool* t = tool();
    if (!t) {
        m_for = nullptr;
        return;
    }
    const DrawKind& kind = t->kind();
    const auto label = [](StripEntry* entry, const char* word) {
        entry->setVisible(word != nullptr);
        if (auto* l = entry->findChild<QLabel*>(); l && word) l->setText(word);
        if (word) entry->edit()->setAccessibleName(word);
    };
    if (m_for != t) {
        m_for = t;
        m_count = t->count();
        for (StripEntry* one : {m_name, m_size, m_from, m_right, m_up})
            one->show({}), one->restore(), one->tell({});
        label(m_size, kind.sizeWord);
        label(m_from, kind.fromWord);
        m_name->edit()->setPlaceholderText(kind.kind);
        m_size->edit()->setPlaceholderText("as it suits");
        m_from->edit()->setPlaceholderText("0");
    }
    if (std::exchange(m_count, t->count()) != t->count()) // placed by a click, with what was typed for it
        for (StripEntry* one : {m_right, m_up}) one->show({}), one->restore(), one->tell({});
    label(m_right, (std::string("next ") + axisOf(t->view(), 0)).c_str());
    label(m_up, (std::string("next ") + axisOf(t->view(), 1)).c_str());
    m_make->setEnabled(t->canFinish());
}

void DrawStrip::figures() {
    if (DrawTool* t = tool())
        t->setFigures({m_name->edit()->text(), m_size->edit()->text(), m_from->edit()->text()});
}

void DrawStrip::placeCorner() {
    DrawTool* t = tool();
    if (!t) return;
    for (StripEntry* one : {m_right, m_up}) {
        if (!one->edit()->text().trimmed().isEmpty()) continue;
        one->edit()->setFocus(Qt::TabFocusReason);
        return;
    }
    const auto placed = t->placeTyped(m_right->edit()->text(), m_up->edit()->text());
    if (!placed) {
        Q_EMIT m_canvas->desk().told(errorWords(placed.error()));
        return;
    }
    for (StripEntry* one : {m_right, m_up}) one->restore(), one->tell({});
    m_right->edit()->setFocus(Qt::TabFocusReason);
}

void DrawStrip::begin(const QString& typed) {
    m_right->edit()->setFocus(Qt::ShortcutFocusReason);
    if (typed.isEmpty()) return;
    m_right->edit()->setText(typed);
    Q_EMIT m_right->typed(typed);
}

} // namespace slab::ui
