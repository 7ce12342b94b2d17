#include "ui/ruler/scale_ruler.h"
#include "core/survey/squeeze.h"
#include "core/survey/survey.h"
#include "ui/ruler/margin_plot.h"
#include "ui/ruler/rule_flags.h"
#include "ui/ruler/rule_strip.h"
#include "ui/session/session.h"
#include "ui/theme/theme.h"
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QStyle>
#include <QToolButton>
#include <QToolTip>
#include <QVBoxLayout>
#include <algorithm>

namespace slab::ui {

namespace {

constexpr const char* entryTip =
    "Build size over full size: 0.42, 2/5, 1:2.5 or 40 %. Everything follows at once; Return to set it.";

/// While nothing is typed in it, undo and redo are the document's.
class ScaleEntry : public QLineEdit {
protected:
    bool event(QEvent* event) override {
        if (event->type() == QEvent::ShortcutOverride && !isModified()) {
            const auto* key = static_cast<QKeyEvent*>(event);
            if (key->matches(QKeySequence::Undo) || key->matches(QKeySequence::Redo)) {
                event->ignore();
                return true;
            }
        }
        return QLineEdit::event(event);
    }
};

} // namespace

QString builtSize(const Session& session) {
    const auto& body = session.evaluation().body;
    if (!body || body->skin.vertices.empty()) return {};
    const UnitStyle style = session.unitStyle();
    const Vec3 size = builtBounds(session.evaluation()).size();
    const auto words = [&](int axis) { return QString::fromStdString(printLength(size[axis], style)); };
    return QString("built %1 long, %2 wide, %3 high").arg(words(0), words(1), words(2));
}

int panelsTooLarge(const Session& session) {
    const Evaluation& now = session.evaluation();
    return largerThanSheet(now.seams.get(), now.sheets.get());
}

ScaleRuler::ScaleRuler(Session* session, QWidget* parent)
    : Card("Scale", parent), m_session(session), m_rule(new RuleStrip(session)),
      m_plot(new MarginPlot(session, m_rule)), m_entry(new ScaleEntry), m_built(new QLabel),
      m_state(new QLabel), m_least(new QToolButton), m_pick(new QToolButton), m_curves(new QToolButton),
      m_why(new QToolButton) {
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    layout()->setContentsMargins(space::inside, 8, space::inside, 4);
    static_cast<QVBoxLayout*>(layout())->setSpacing(0);
    m_entry->setFixedWidth(96);
    m_entry->setFont(Theme::figures(13));
    m_entry->setAlignment(Qt::AlignHCenter);
    explain(m_entry, "Scale", entryTip);
    m_built->setFont(Theme::words(13));
    m_built->setProperty("role", "quiet");
    m_built->setAccessibleName("Built size");
    m_state->setFont(Theme::words(12));
    m_state->setProperty("role", "quiet");
    m_state->setAccessibleName("Scale survey state");
    // They come and go; a row that grew with them would move the whole window.
    for (QToolButton* button : {m_least, m_pick, m_curves, m_why}) {
        button->setObjectName("flat");
        QSizePolicy kept = button->sizePolicy();
        kept.setRetainSizeWhenHidden(true);
        button->setSizePolicy(kept);
        button->setFont(Theme::words(12));
    }
    m_curves->setText("To spare");
    m_curves->setCheckable(true);
    explain(m_curves, "Show what is to spare at every scale",
            "One line for each condition over the scale: what binds where, and by how much.");
    m_why->setText("Why?");
    explain(m_why, "Why nothing fits", "Says what stands in the way.");
    m_why->hide();
    connect(m_why, &QToolButton::clicked, this, &ScaleRuler::sayWhy);
    explain(m_least, "Go to the least scale that fits",
            "Sets the smallest scale at which donor and rider fit with the clearance you asked for.");

    auto* head = strip();
    head->setStretch(1, 0);
    head->insertWidget(1, m_entry);
    head->insertWidget(2, m_built, 1);
    head->addWidget(m_state);
    head->addWidget(m_why);
    head->addWidget(m_least);
    head->addWidget(m_pick);
    head->addWidget(m_curves);
    body()->addWidget(m_plot);
    body()->addWidget(m_rule);
    m_plot->hide();

    connect(m_entry, &QLineEdit::returnPressed, this, &ScaleRuler::typed);
    connect(m_entry, &QLineEdit::editingFinished, this, [this] {
        if (m_entry->isModified()) typed();
    });
    connect(m_least, &QToolButton::clicked, this, [this] {
        if (const auto& survey = m_session->survey(); survey && survey->leastFitting)
            m_session->apply(setScale(printRatioUp(*survey->leastFitting)));
    });
    connect(m_pick, &QToolButton::clicked, this, [this] {
        const auto& survey = m_session->survey();
        if (!survey) return;
        if (survey->pick.scale)
            m_session->apply(setScale(scaleText(*survey->pick.scale).toStdString()));
        else if (!survey->pick.stretches.empty())
            m_session->apply(takeAdvice(m_session->evaluation(), survey->pick.stretches.front()));
    });
    connect(m_curves, &QToolButton::clicked, this, [this](bool on) {
        showPlot(on);
        if (on && m_folded) Q_EMIT roomWanted();
    });
    connect(session, &Session::surveyChanged, this, &ScaleRuler::refreshPick);
    connect(session, &Session::projectChanged, this, [this] {
        refreshScale();
        refreshLeast();
    });
    connect(session, &Session::evaluationChanged, this, [this] {
        refreshBuilt();
        refreshLeast();
    });
    connect(session, &Session::surveyChanged, this, &ScaleRuler::refreshLeast);
    connect(session, &Session::busyChanged, this, &ScaleRuler::refreshLeast);
    refreshScale();
    refreshBuilt();
    refreshLeast();
    refreshPick();
}

void ScaleRuler::setFolded(bool folded) {
    m_folded = folded;
    refold();
}

void ScaleRuler::showPlot(bool shown) {
    m_plotShown = shown;
    refold();
}

void ScaleRuler::refold() {
    constexpr int lowWindow = 860; // px: the plot takes the room of flags and sheet counts
    const bool plotted = m_plotShown && !m_folded;
    m_rule->setSlim(m_folded || (plotted && window()->height() < lowWindow));
    m_plot->setVisible(plotted);
    m_curves->setChecked(plotted);
}

/// The pick can be taken; where there is none, the state tells what stands in the way.
void ScaleRuler::refreshPick() {
    const auto& survey = m_session->survey();
    const bool known = survey && survey->pick.scale;
    const bool stretches = survey && !known && !survey->pick.stretches.empty();
    m_pick->setVisible(known || stretches);
    if (stretches) {
        const Edit advice = takeAdvice(m_session->evaluation(), survey->pick.stretches.front());
        m_pick->setText(QString::fromStdString(advice.label));
        explain(m_pick, "No scale fits: stretch the subject, at the scale where least is missing",
                pickWords(*survey));
        m_pick->setAccessibleDescription(pickWords(*survey));
    }
    if (!known) return;
    m_pick->setText("Pick " + scaleText(*survey->pick.scale));
    explain(m_pick, "Set the scale to the pick, " + scaleText(*survey->pick.scale), pickWords(*survey));
    m_pick->setAccessibleDescription(pickWords(*survey));
}

void ScaleRuler::markWrong(const QString& why) {
    m_entry->setProperty("wrong", !why.isEmpty());
    m_entry->style()->unpolish(m_entry);
    m_entry->style()->polish(m_entry);
    m_entry->setToolTip(why.isEmpty() ? entryTip : why);
    if (why.isEmpty()) return;
    m_state->setProperty("role", "error");
    m_state->style()->unpolish(m_state);
    m_state->style()->polish(m_state);
    m_state->setText(why);
}

/// What else the mouse alone would bring up; it stays until a key or the focus takes it away.
void ScaleRuler::sayWhy() {
    constexpr int longEnough = 120000; // ms
    QToolTip::showText(m_why->mapToGlobal(QPoint(0, m_why->height())), m_why->toolTip(), m_why, {},
                       longEnough);
}

void ScaleRuler::typed() {
    m_entry->setModified(false);
    const std::string text = m_entry->text().trimmed().toStdString();
    if (text == m_session->project().scale) return;
    const auto value = parseRatio(text);
    if (!value || !(*value > 0)) {
        markWrong(value ? "The scale must be more than nothing, e.g. 0.4 or 2/5."
                        : QString::fromStdString(value.error().message + " " + value.error().remedy));
        return;
    }
    m_session->apply(setScale(text));
}

void ScaleRuler::refreshScale() {
    const QString text = QString::fromStdString(m_session->project().scale);
    if (m_entry->text() != text && !m_entry->isModified()) m_entry->setText(text);
    markWrong({});
}

void ScaleRuler::refreshBuilt() {
    m_built->setText(builtSize(*m_session));
}

void ScaleRuler::refreshLeast() {
    const auto& survey = m_session->survey();
    const bool known = survey && survey->leastFitting;
    m_least->setVisible(known);
    if (known) m_least->setText("Go to " + QString::fromStdString(printRatioUp(*survey->leastFitting)));
    const int tooLarge = panelsTooLarge(*m_session);
    const auto& sheets = m_session->evaluation().sheets;
    m_state->setProperty("role", sheets && !sheets->unplaced.empty() ? "error" : "quiet");
    m_state->style()->unpolish(m_state);
    m_state->style()->polish(m_state);
    if (tooLarge > 0) {
        m_state->setText(tooLargeWords(tooLarge));
        m_why->hide();
        return;
    }
    const auto& plates = m_session->evaluation().plates;
    const bool empty = plates && plates->plates.empty();
    m_state->setText(m_session->surveyIsCurrent() || empty ? "" : "trying every scale…");
    const bool never = m_session->surveyIsCurrent() && survey && !survey->bands.empty() &&
                       std::none_of(survey->bands.begin(), survey->bands.end(),
                                    [](const FitBand& band) { return band.state == FitState::fits; });
    if (never) m_state->setText("nothing fits on this part of the rule");
    const QString why = never ? pickWords(*survey) : QString();
    m_state->setToolTip(why);
    m_why->setVisible(!why.isEmpty());
    explain(m_why, "Why nothing fits", why.isEmpty() ? "Says what stands in the way." : why);
}

} // namespace slab::ui
