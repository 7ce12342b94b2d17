#include "ui/totals/totals_card.h"
#include "core/fit/swept.h"
#include "ui/ruler/rule_paint.h"
#include "ui/ruler/scale_ruler.h"
#include "ui/session/session.h"
#include "ui/theme/theme.h"
#include <QHBoxLayout>
#include <QLabel>
#include <QStyle>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

QString plural(int n, const QString& one, const QString& many) {
    return QString("%1 %2").arg(n).arg(n == 1 ? one : many);
}

} // namespace

TotalsCard::TotalsCard(Session* session, QWidget* parent) : Card("Totals", parent), m_session(session) {
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Maximum);
    body()->setSpacing(4);
    m_sheets = addRow("sheets", "How many sheets the panels lie on, and how many of them you have to buy.");
    m_timber =
        addRow("timber", "How many bars of timber the cleats are sawn from, and their lengths together.");
    m_cost =
        addRow("cost", "What the missing sheets cost, at the prices in Stock, and the timber for cleats.");
    m_mass =
        addRow("shell mass", "Mass of all plates and cleats, from their volumes and the density in Stock.");
    m_gap = addRow("least gap",
                   "The least distance from donor or rider to any plate, and what you asked for there.");
    m_used = addRow("used", "How much of the sheets becomes panels; the rest is waste or offcut.");
    m_panels = addRow("panels", "Different outlines to cut, and how many plates they make.");
    body()->addStretch(1);
    connect(session, &Session::evaluationChanged, this, &TotalsCard::refresh);
    connect(session, &Session::projectChanged, this, &TotalsCard::refresh);
    connect(session, &Session::busyChanged, this, &TotalsCard::refresh);
    refresh();
}

TotalsCard::Row TotalsCard::addRow(const QString& name, const QString& tip) {
    auto* whole = new QWidget;
    auto* line = new QHBoxLayout(whole);
    line->setContentsMargins(0, 0, 0, 0);
    auto* label = new QLabel(name);
    label->setProperty("role", "quiet");
    label->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    label->setContentsMargins(0, 4, 0, 0);
    auto* right = new QVBoxLayout;
    right->setSpacing(0);
    auto* value = new QLabel;
    value->setFont(Theme::figures(18, true));
    value->setAlignment(Qt::AlignRight);
    auto* note = new QLabel;
    note->setFont(Theme::words(11));
    note->setProperty("role", "quiet");
    note->setAlignment(Qt::AlignRight);
    right->addWidget(value);
    right->addWidget(note);
    line->addWidget(label);
    line->addLayout(right, 1);
    whole->setToolTip(tip);
    body()->addWidget(whole);
    return {value, note, whole};
}

void TotalsCard::set(const Row& row, const QString& name, const QString& value, const QString& note) {
    row.value->setText(value);
    row.note->setText(note);
    row.whole->setAccessibleName(name + ": " + value + (note.isEmpty() ? "" : ", " + note));
}

void TotalsCard::refreshGap() {
    const Evaluation& e = m_session->evaluation();
    const UnitStyle style = m_session->unitStyle();
    QString gap = "–", wanted = !e.plates || e.plates->plates.empty() ? "no plates yet" : "no donor or rider";
    if (e.fit && !e.fit->outside.empty()) {
        gap = "outside";
        wanted = QString("the %1 stands outside the body")
                     .arg(QString::fromStdString(e.fit->outside.front().group));
    } else if (e.fit) {
        if (const FitPair* pair = bindingPair(*e.fit, e.afloat.get())) {
            gap = wholeState(*e.fit, e.afloat.get()) == FitState::hits
                      ? "hits"
                      : QString::fromStdString(printLength(e.totals.leastClearance, style));
            wanted = QString("wanted %1").arg(QString::fromStdString(printLength(pair->wanted, style)));
            if (!e.fit->confirmed) wanted += " …";
        }
    }
    set(m_gap, "least gap", gap, wanted);
    const Palette& c = Theme::colours();
    const bool hits = e.fit && wholeState(*e.fit, e.afloat.get()) == FitState::hits;
    const QColor ink = hits ? c.hits : c.ink;
    QPalette colours = m_gap.value->palette();
    colours.setColor(QPalette::WindowText, ink);
    m_gap.value->setPalette(colours);
}

void TotalsCard::refresh() {
    const Evaluation& e = m_session->evaluation();
    const Project& project = m_session->project();
    const Totals& t = e.totals;
    const UnitStyle style = m_session->unitStyle();
    const bool laid = e.sheets != nullptr;
    const bool provisional = laid && e.sheets->provisional;
    setNote(m_session->busy() ? "working…" : "");

    const QString about = provisional ? "≈ " : "";
    int fromShed = 0;
    for (const StockLine& line : t.stock) fromShed += std::min(line.used, line.onHand);
    const int tooLarge = panelsTooLarge(*m_session);
    set(m_sheets, "sheets", laid ? about + QString::number(t.sheets) : "–",
        !laid        ? "not laid out yet"
        : tooLarge   ? tooLargeWords(tooLarge)
        : fromShed   ? QString("%1 in the shed, buy %2").arg(fromShed).arg(t.buy)
        : t.buy == 0 ? ""
                     : QString("buy %1").arg(t.buy));
    const QString money = QString::fromStdString(project.stock.currency) + " " +
                          QString::number(t.cost, 'f', t.cost < 1000 && t.cost != std::round(t.cost) ? 2 : 0);
    std::size_t bars = 0;
    double timber = 0;
    for (const BarLine& line : t.timber) {
        bars += line.bars.size();
        timber += line.withKerf;
    }
    m_timber.whole->setVisible(bars > 0);
    set(m_timber, "timber", plural(static_cast<int>(bars), "bar", "bars"),
        QString::fromStdString(printLength(timber, style)) + " with saw cuts");
    const bool priced =
        t.cost > 0 || std::any_of(project.stock.sheets.begin(), project.stock.sheets.end(),
                                  [](const SheetStock& s) { return !s.price.empty() && s.price != "0"; });
    set(m_cost, "cost", laid ? about + money : "–", priced ? "" : "no prices in Stock yet");
    const QString mass =
        t.mass > 0 || t.unweighed.empty() ? QString::fromStdString(printMass(t.mass, style)) : "–";
    set(m_mass, "shell mass", e.plates ? mass : "–",
        t.unweighed.empty()       ? ""
        : t.unweighed.size() == 1 ? "without " + QString::fromStdString(t.unweighed.front())
                                  : QString("without %1 sheets").arg(t.unweighed.size()));

    refreshGap();
    set(m_used, "used", laid ? about + QString("%1 %").arg(t.usedPercent, 0, 'f', 0) : "–",
        provisional ? "layout being improved" : "of the sheets");
    set(m_panels, "panels", e.panels ? QString::number(t.panels) : "–",
        e.plates ? "for " + plural(t.plates, "plate", "plates") : "");
}

} // namespace slab::ui
