#include "ui/panels/joint_bar.h"
#include "ui/paint/flow_layout.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>
#include <QVBoxLayout>
#include <cmath>
#include <numbers>

namespace slab::ui {

JointBar::JointBar(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("joint at the chosen edge"));
    // A tool button keeps a space at each end of its words anyway.
    setStyleSheet(QStringLiteral("QToolButton { padding: 2px 2px; } QToolButton:focus { padding: 1px; }"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(8);
    m_sketch = new JointSketch;
    row->addWidget(m_sketch, 0, Qt::AlignTop);
    auto* words = new QVBoxLayout;
    words->setSpacing(5);
    m_title = new QLabel;
    m_title->setFont(Theme::words(12));
    m_title->setTextFormat(Qt::RichText);
    m_title->setWordWrap(true);
    words->addWidget(m_title);
    auto* choices = new QWidget;
    auto* flow = new FlowLayout(choices, 5, 5);
    const std::array<QString, 5> names{tr("Covers"), tr("Butts"), tr("Mitre"), tr("Fold"), tr("Open")};
    const std::array<QString, 5> tips{tr("This plate runs past; the other butts against it"),
                                      tr("The other plate runs past; this one butts against it"),
                                      tr("Both plates are cut at half the angle and meet on the corner"),
                                      tr("Score and bend: both plates are cut as one piece"),
                                      tr("No joint: both edges stay free here")};
    for (std::size_t i = 0; i < m_choices.size(); ++i) {
        auto* b = m_choices[i] = new QToolButton;
        b->setText(names[i]);
        b->setCheckable(true);
        b->setFont(Theme::words(12));
        explain(b, names[i], tips[i]);
        connect(b, &QToolButton::clicked, this, [this, i] { Q_EMIT choiceMade(static_cast<EdgeChoice>(i)); });
        flow->addWidget(b);
    }
    m_rule = new QToolButton;
    m_rule->setText(tr("Back to the rule"));
    m_rule->setFont(Theme::words(12));
    explain(m_rule, tr("Back to the rule"), tr("Let the order of the plates decide here again"));
    connect(m_rule, &QToolButton::clicked, this, &JointBar::ruleWanted);
    flow->addWidget(m_rule);
    words->addWidget(choices);
    m_why = new QLabel;
    m_why->setProperty("role", "quiet");
    m_trouble = new QLabel;
    m_trouble->setProperty("role", "error");
    for (auto* label : {m_why, m_trouble}) {
        label->setFont(Theme::words(12));
        label->setWordWrap(true);
        label->setTextInteractionFlags(Qt::TextSelectableByMouse);
        words->addWidget(label);
    }
    words->addStretch(1);
    row->addLayout(words, 1);
}

void JointBar::show(const EdgeStory& story) {
    const PanelEdge& edge = story.edge;
    m_edge = story.neighbour.isEmpty() ? tr("Free edge") : tr("Edge to %1").arg(story.neighbour);
    QStringList figures{QString::fromStdString(printLength(edge.length, story.units))};
    if (edge.dihedral > 0) figures << tr("corner %1").arg(QString::fromStdString(printAngle(edge.dihedral)));
    figures << (std::abs(edge.bevel) > 1e-3
                    ? tr("tilt %1 from square").arg(QString::fromStdString(printAngle(std::abs(edge.bevel))))
                    : tr("cut square"));
    // A size is not torn apart where the line is folded.
    for (QString& figure : figures) figure.replace(' ', QChar::Nbsp);
    m_figures = figures.join(QStringLiteral(" · "));
    const std::array<EdgeRole, 5> roles{EdgeRole::covers, EdgeRole::butts, EdgeRole::mitre, EdgeRole::fold,
                                        EdgeRole::open};
    for (std::size_t i = 0; i < roles.size(); ++i) {
        m_choices[i]->setVisible(story.joint);
        m_choices[i]->setChecked(story.joint && edge.role == roles[i]);
    }
    m_rule->setVisible(story.joint);
    m_rule->setEnabled(story.forced);
    m_why->setText(story.why);
    refuse(story.trouble, story.remedy);
    if (edge.dihedral > 0 && story.other.thickness > 0)
        m_sketch->show(edge.dihedral, story.mine, story.other);
    else
        m_sketch->show(0, story.mine, {});
    showWords();
}

void JointBar::setRoom(Room room) {
    m_room = room;
    m_sketch->setVisible(room == Room::all);
    showWords();
    layout()->activate();
}

void JointBar::showWords() {
    const QString name = QStringLiteral("<b>%1</b>").arg(m_edge.toHtmlEscaped());
    m_title->setText(name + (m_room == Room::all ? QStringLiteral("<br>") : QStringLiteral(" · ")) +
                     m_figures);
    m_title->setToolTip(m_why->text());
    m_title->setAccessibleName(m_edge + QStringLiteral(" · ") + m_figures);
    m_why->setVisible(m_room != Room::choices && !m_why->text().isEmpty());
    showTrouble();
}

void JointBar::refuse(const QString& message, const QString& remedy) {
    m_troubleWords = remedy.isEmpty() ? message : message + QStringLiteral("\n→ ") + remedy;
    m_trouble->setVisible(!message.isEmpty());
    showTrouble();
}

void JointBar::showTrouble() {
    constexpr double lines = 1.8; // two, less what wrapping leaves empty
    QString words = m_troubleWords;
    if (const int room = m_trouble->width(); m_room == Room::choices && room > 0) {
        words.replace('\n', ' ');
        words =
            QFontMetrics(m_trouble->font()).elidedText(words, Qt::ElideRight, static_cast<int>(lines * room));
    }
    m_trouble->setText(words);
    m_trouble->setToolTip(words == m_troubleWords ? QString() : m_troubleWords);
}

void JointBar::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    showTrouble();
}

} // namespace slab::ui
