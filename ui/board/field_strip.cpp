#include "ui/board/field_strip.h"
#include "ui/paint/flow_layout.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QFocusEvent>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QStyle>
#include <algorithm>

namespace slab::ui {

StripEntry::StripEntry(const QString& label, const QStringList& names, QWidget* parent)
    : QWidget(parent), m_name(label), m_edit(new FormulaEdit(names, this)), m_built(new QLabel),
      m_label(new QLabel(label)) {
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 10, 0);
    row->setSpacing(6);
    m_label->setProperty("role", "quiet");
    row->addWidget(m_label);
    m_edit->setFont(Theme::figures(13));
    explain(m_edit, label, "As typed: a length, a name or a formula. Return goes on to the next.");
    m_label->setBuddy(m_edit);
    row->addWidget(m_edit);
    m_built->setProperty("role", "quiet");
    m_built->setFont(Theme::figures(12));
    row->addWidget(m_built);
    m_edit->installEventFilter(this);
    connect(m_edit, &QLineEdit::textEdited, this, &StripEntry::typed);
    connect(m_edit, &QLineEdit::textChanged, this, &StripEntry::grow);
    grow();
}

void StripEntry::rename(const QString& label) {
    if (label == m_name) return;
    m_name = label;
    m_label->setText(label);
    m_edit->setAccessibleName(label);
}

void StripEntry::hold(int px) {
    m_held = true;
    m_edit->setFixedWidth(px);
}

void StripEntry::setLeast(int px) {
    m_least = px;
    grow();
}

void StripEntry::holdBuilt() {
    m_builtRoom = m_built->fontMetrics().horizontalAdvance(QStringLiteral("10′ 11-15/16″")) + 2;
    m_built->setFixedWidth(m_builtRoom);
}

StripEntry::~StripEntry() {
    delete m_reason;
}

void StripEntry::say() {
    const bool whole = m_built->fontMetrics().horizontalAdvance(m_trouble) <= m_built->width();
    if (m_trouble.isEmpty() || whole || !m_edit->hasFocus()) {
        if (m_reason) m_reason->hide();
        return;
    }
    if (!m_reason) {
        m_reason = new QLabel(window());
        m_reason->setProperty("role", "reason");
    }
    m_reason->setText(m_trouble);
    m_reason->adjustSize();
    const QPoint at = m_edit->mapTo(window(), QPoint(0, -m_reason->height() - 2));
    m_reason->move(std::clamp(at.x(), 0, std::max(0, window()->width() - m_reason->width())), at.y());
    m_reason->show();
    m_reason->raise();
}

void StripEntry::hideEvent(QHideEvent* event) {
    if (m_reason) m_reason->hide();
    QWidget::hideEvent(event);
}

void StripEntry::grow() {
    if (m_held) return;
    constexpr int most = 380, edges = 26; // the text's margins, frame and cursor
    const int wanted = m_edit->fontMetrics().horizontalAdvance(m_edit->text()) + edges;
    m_edit->setFixedWidth(std::clamp(wanted, m_least, most));
}

void StripEntry::show(const QString& text, bool differ) {
    const bool typing = m_edit->hasFocus() && isTyped();
    m_shown = text;
    m_edit->setPlaceholderText(differ ? "several" : QString());
    if (typing || m_edit->text() == text) return;
    m_edit->setText(text);
    if (m_held) m_edit->setCursorPosition(0); // what does not fit is cut off behind
}

bool StripEntry::isTyped() const {
    return m_edit->text() != m_shown;
}

void StripEntry::restore() {
    m_edit->setText(m_shown);
}

void StripEntry::tell(const Reading& reading) {
    const bool wrong = !reading.trouble.isEmpty();
    const int room = m_builtRoom > 0 ? m_builtRoom : 420; // of a reason, px; what is longer is over it
    m_trouble = reading.trouble;
    m_built->setText(wrong ? m_built->fontMetrics().elidedText(reading.trouble, Qt::ElideRight, room)
                           : reading.text);
    m_built->setToolTip(reading.trouble);
    m_built->setProperty("role", wrong ? "error" : "quiet");
    m_built->style()->unpolish(m_built);
    m_built->style()->polish(m_built);
    say();
    if (m_edit->property("wrong").toBool() == wrong) return;
    m_edit->setProperty("wrong", wrong);
    m_edit->style()->unpolish(m_edit);
    m_edit->style()->polish(m_edit);
    m_edit->setToolTip(wrong ? reading.trouble
                             : "As typed: a length, a name or a formula. Return goes on to the next.");
}

bool StripEntry::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_edit && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Escape) {
            restore();
            Q_EMIT givenUp();
            return true;
        }
        // A list of names that is open takes the key first.
        if ((key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) && !m_edit->proposing()) {
            Q_EMIT entered();
            return true;
        }
    }
    if (watched == m_edit && event->type() == QEvent::FocusOut && m_reason) m_reason->hide();
    if (watched == m_edit && (event->type() == QEvent::FocusOut || event->type() == QEvent::FocusIn)) {
        // The list of names that opens while typing is no leaving, and its closing no coming back.
        const Qt::FocusReason reason = static_cast<QFocusEvent*>(event)->reason();
        if (reason != Qt::PopupFocusReason && reason != Qt::ActiveWindowFocusReason && !m_edit->proposing()) {
            if (event->type() == QEvent::FocusOut)
                Q_EMIT left();
            else
                m_edit->selectAll();
        }
    }
    return QWidget::eventFilter(watched, event);
}

FieldStrip::FieldStrip(BoardDesk* desk, QWidget* parent)
    : QWidget(parent), m_desk(desk), m_heading(new ElidedLabel), m_row(nullptr) {
    setAccessibleName(tr("figures of what is chosen"));
    auto* all = new QHBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(10);
    m_heading->setMinimumWidth(90);
    m_heading->setMaximumWidth(190);
    all->addWidget(m_heading, 1);
    auto* fields = new QWidget;
    m_row = new FlowLayout(nullptr, 6, 4);
    fields->setLayout(m_row);
    all->addWidget(fields, 5);
    connect(desk, &BoardDesk::choiceChanged, this, &FieldStrip::refresh);
    connect(desk, &BoardDesk::sceneChanged, this, &FieldStrip::refresh);
    refresh();
}

void FieldStrip::refresh() {
    StripContent content = stripContent(*m_desk);
    const bool same = content.fields.size() == m_content.fields.size() &&
                      std::equal(content.fields.begin(), content.fields.end(), m_content.fields.begin(),
                                 [](const auto& a, const auto& b) { return a.label == b.label; });
    m_content = std::move(content);
    m_heading->setText(m_content.heading);
    if (!same) rebuild(); // other points with the same fields keep the entries, and the focus
    for (std::size_t i = 0; i < m_entries.size(); ++i) {
        const StripField& field = m_content.fields[i];
        m_entries[i]->show(field.text, field.differ);
        if (!m_entries[i]->isTyped())
            m_entries[i]->tell(readingOf(*m_desk, field.text, field.length, field.space));
    }
}

void FieldStrip::rebuild() {
    for (StripEntry* entry : m_entries) {
        entry->disconnect(this);
        entry->hide();
        entry->deleteLater();
        m_row->removeWidget(entry);
    }
    m_entries.clear();
    for (std::size_t i = 0; i < m_content.fields.size(); ++i) {
        auto* entry = new StripEntry(m_content.fields[i].label, formulaNames(m_desk->project()));
        constexpr int narrow = 72; // px: "100 deg"; many fields would take the sheet's room
        constexpr std::size_t many = 4;
        if (m_content.fields.size() >= many || !m_content.fields[i].length) entry->setLeast(narrow);
        entry->holdBuilt();
        m_row->addWidget(entry);
        m_entries.push_back(entry);
        connect(entry, &StripEntry::typed, this, [this, i](const QString& text) {
            m_entries[i]->tell(
                readingOf(*m_desk, text, m_content.fields[i].length, m_content.fields[i].space));
        });
        connect(entry, &StripEntry::entered, this, [this, i] { goOn(i); });
        connect(entry, &StripEntry::left, this, [this, i] {
            if (i < m_entries.size()) take(i);
        });
        connect(entry, &StripEntry::givenUp, this, [this, i] {
            m_entries[i]->tell(readingOf(*m_desk, m_content.fields[i].text, m_content.fields[i].length,
                                         m_content.fields[i].space));
            Q_EMIT done();
        });
    }
    updateGeometry();
}

bool FieldStrip::take(std::size_t index) {
    StripEntry* entry = m_entries[index];
    if (!entry->isTyped()) return true;
    const StripField field = m_content.fields[index];
    const QString typed = entry->edit()->text();
    if (!readingOf(*m_desk, typed, field.length, field.space).trouble.isEmpty()) return false;
    const bool done = m_desk->apply(typedInto(*m_desk->session(), field, typed));
    if (!done && index < m_entries.size()) m_entries[index]->restore();
    return done;
}

void FieldStrip::goOn(std::size_t index) {
    if (!take(index)) return;
    if (index + 1 < m_entries.size())
        m_entries[index + 1]->edit()->setFocus(Qt::TabFocusReason);
    else
        Q_EMIT done();
}

void FieldStrip::begin(const QString& typed) {
    if (m_entries.empty()) return;
    FormulaEdit* edit = m_entries.front()->edit();
    edit->setFocus(Qt::ShortcutFocusReason);
    if (typed.isEmpty()) return;
    edit->setText(typed);
    edit->setCursorPosition(static_cast<int>(typed.size()));
    Q_EMIT m_entries.front()->typed(typed);
}

} // namespace slab::ui
