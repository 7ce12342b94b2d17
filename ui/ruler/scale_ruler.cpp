#include "ui/ruler/scale_ruler.h"
#include "ui/ruler/rule_paint.h"
#include "ui/ruler/rule_strip.h"
#include "ui/session/session.h"
#include "ui/theme/theme.h"
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QStyle>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

namespace slab::ui {

namespace {

constexpr const char* entryTip =
    "Build size over full size: 0.42, 2/5, 1:2.5 or 40 %. Everything follows at once; Return to set it.";

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
    : Card("Scale", parent), m_session(session), m_rule(new RuleStrip(session)), m_entry(new QLineEdit),
      m_built(new QLabel), m_state(new QLabel), m_least(new QToolButton) {
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
    // It comes and goes; a row that grew with it would move the whole window.
    m_least->setObjectName("flat");
    QSizePolicy kept = m_least->sizePolicy();
    kept.setRetainSizeWhenHidden(true);
    m_least->setSizePolicy(kept);
    m_least->setFont(Theme::words(12));
    explain(m_least, "Go to the least scale that fits",
            "Sets the smallest scale at which donor and rider fit with the clearance you asked for.");

    auto* head = strip();
    head->setStretch(1, 0);
    head->insertWidget(1, m_entry);
    head->insertWidget(2, m_built, 1);
    head->addWidget(m_state);
    head->addWidget(m_least);
    body()->addWidget(m_rule);

    connect(m_entry, &QLineEdit::returnPressed, this, &ScaleRuler::typed);
    connect(m_entry, &QLineEdit::editingFinished, this, [this] {
        if (m_entry->isModified()) typed();
    });
    connect(m_least, &QToolButton::clicked, this, [this] {
        if (const auto& survey = m_session->survey(); survey && survey->leastFitting)
            m_session->apply(setScale(printRatioUp(*survey->leastFitting)));
    });
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
}

void ScaleRuler::setFolded(bool folded) {
    m_rule->setVisible(!folded);
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
        return;
    }
    const auto& plates = m_session->evaluation().plates;
    const bool empty = plates && plates->plates.empty();
    m_state->setText(m_session->surveyIsCurrent() || empty ? "" : "trying every scale…");
    const bool never = m_session->surveyIsCurrent() && survey && !survey->bands.empty() &&
                       std::none_of(survey->bands.begin(), survey->bands.end(),
                                    [](const FitBand& band) { return band.state == FitState::fits; });
    if (never) m_state->setText("nothing fits on this part of the rule");
}

} // namespace slab::ui
