#include "ui/fit/fit_controls.h"
#include "ui/chosen/kind_menu.h"
#include "ui/chosen/mechanism_menu.h"
#include "ui/paint/flow_layout.h"
#include "ui/panels/opening_menu.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QSlider>
#include <QToolButton>

namespace slab::ui {

FitControls::FitControls(QWidget* parent) : QWidget(parent) {
    // Twelve controls over a picture: tighter than elsewhere, so that they leave it its room.
    setStyleSheet(
        QStringLiteral("QToolButton { padding: 2px 4px; } QToolButton:focus { padding: 1px 3px; }"));
    auto* rows = new FlowLayout(this, 6, 6);
    addDirections(*rows);
    rows->startGroup();
    addToggles(*rows);
    rows->startGroup();
    rows->addWidget(slider(tr("see-through"), tr("How far you see through the plates"), m_state.seeThrough,
                           &FitState3d::seeThrough));
    rows->addWidget(slider(tr("apart"), tr("Spread the plates apart along their own direction"),
                           m_state.apart, &FitState3d::apart));
    rows->addWidget(sectionGroup());
}

void FitControls::addDirections(FlowLayout& rows) {
    static constexpr std::array directions{Direction::side, Direction::plan, Direction::end,
                                           Direction::threeQuarter};
    const std::array<QString, 4> words{tr("Side"), tr("Plan"), tr("End"), tr("Three-quarter")};
    const std::array<QString, 4> tips{tr("Look square at the starboard side, bow to the right (key 1)"),
                                      tr("Look straight down (key 2)"), tr("Look square at the bow (key 3)"),
                                      tr("Look from the bow corner, a little from above (key 4)")};
    for (std::size_t i = 0; i < 4; ++i) {
        m_directions[i] = button(words[i], tips[i], true);
        connect(m_directions[i], &QToolButton::clicked, this,
                [this, i] { Q_EMIT directionWanted(directions[i]); });
        rows.addWidget(m_directions[i]);
    }
    auto* fit = button(tr("Fit"), tr("Show the whole body as large as it goes (key F)"), false);
    connect(fit, &QToolButton::clicked, this, &FitControls::fitWanted);
    rows.addWidget(fit);
}

/// What lies on the ground under it: a tick each.
QToolButton* FitControls::groundButton() {
    auto* b =
        button(tr("Ground"), tr("Show on the ground how it stands, what is hidden and how it turns"), true);
    b->setPopupMode(QToolButton::InstantPopup);
    auto* menu = new QMenu(b);
    menu->setToolTipsVisible(true);
    const auto add = [&](const QString& words, const QString& tip, bool GroundMarks::*field) {
        QAction* action = menu->addAction(words);
        action->setCheckable(true);
        action->setToolTip(tip);
        connect(action, &QAction::toggled, this, [this, b, field](bool on) {
            m_state.marks.*field = on;
            b->setChecked(!(m_state.marks == GroundMarks{}));
            Q_EMIT changed();
        });
    };
    add(tr("How it stands"), tr("Lines that it tips over, the first one thick, and the middle of all mass"),
        &GroundMarks::stand);
    add(tr("Blind ground"), tr("Ground that the rider cannot see"), &GroundMarks::blind);
    add(tr("Tightest turn"), tr("What it sweeps in its tightest turn"), &GroundMarks::circle);
    connect(menu, &QMenu::aboutToHide, this, [this, b] { b->setChecked(!(m_state.marks == GroundMarks{})); });
    b->setMenu(menu);
    return b;
}

void FitControls::addToggles(FlowLayout& rows) {
    m_parallel = toggle(tr("Parallel"), tr("Parallel lines stay parallel, for measuring by eye (key P)"),
                        &FitState3d::parallel);
    m_moving =
        toggle(tr("Move"),
               tr("Drag donor or rider forward, back, up and down, and turn what a turntable or a trunnion "
                  "carries; the gap or the angle is shown beside the hand (key M)"),
               &FitState3d::moving);
    rows.addWidget(m_parallel);
    rows.addWidget(m_moving);
    m_openings =
        button(tr("Opening"),
               tr("Put a hatch, slit, hand hole, wheel arch or light into a plate by a click (key O)"), true);
    fillOpenings(m_openings, [this](const OpeningKind* kind) { arm(kind); });
    connect(m_openings->menu(), &QMenu::aboutToHide, this, [this] { markOpening(m_openings, m_opening); });
    rows.addWidget(m_openings);
    m_mechanisms =
        button(tr("Mechanism"), tr("Put a turntable, trunnion, linkage or belt in by a click (key W)"), true);
    fillMechanisms(m_mechanisms, [this](const MechanismWords* kind) { Q_EMIT mechanismWanted(kind); });
    connect(m_mechanisms->menu(), &QMenu::aboutToHide, this,
            [this] { markMechanism(m_mechanisms, m_mechanism); });
    rows.addWidget(m_mechanisms);
    rows.addWidget(toggle(tr("Donor"), tr("Show or hide the donor"), &FitState3d::donor));
    rows.addWidget(toggle(tr("Rider"), tr("Show or hide the rider"), &FitState3d::rider));
    rows.addWidget(groundButton());
}

QToolButton* FitControls::button(const QString& words, const QString& tip, bool checkable) {
    auto* b = new QToolButton(this);
    b->setText(words);
    b->setCheckable(checkable);
    b->setFocusPolicy(Qt::TabFocus);
    explain(b, words, tip);
    return b;
}

QToolButton* FitControls::toggle(const QString& words, const QString& tip, bool FitState3d::*field) {
    auto* b = button(words, tip, true);
    b->setChecked(m_state.*field);
    connect(b, &QToolButton::toggled, this, [this, field](bool on) {
        m_state.*field = on;
        Q_EMIT changed();
    });
    return b;
}

QWidget* FitControls::slider(const QString& words, const QString& tip, double value,
                             double FitState3d::*field, QSlider** out) {
    auto* group = new QWidget(this);
    auto* row = new QHBoxLayout(group);
    row->setContentsMargins(2, 0, 2, 0);
    row->setSpacing(6);
    if (!words.isEmpty()) {
        auto* label = new QLabel(words);
        label->setProperty("role", "quiet");
        label->setFont(Theme::words(12));
        row->addWidget(label);
    }
    auto* s = new QSlider(Qt::Horizontal);
    s->setRange(0, 1000);
    s->setValue(static_cast<int>(value * 1000));
    s->setSingleStep(10);
    s->setPageStep(100);
    s->setFixedWidth(60);
    s->setFixedHeight(20);
    explain(s, words.isEmpty() ? tr("place of the section") : words, tip);
    connect(s, &QSlider::valueChanged, this, [this, field](int v) {
        m_state.*field = v / 1000.0;
        Q_EMIT changed();
    });
    row->addWidget(s);
    if (out) *out = s;
    return group;
}

QWidget* FitControls::sectionGroup() {
    auto* group = new QWidget(this);
    auto* row = new QHBoxLayout(group);
    row->setContentsMargins(2, 0, 2, 0);
    row->setSpacing(6);
    auto* label = new QLabel(tr("section"));
    label->setProperty("role", "quiet");
    label->setFont(Theme::words(12));
    row->addWidget(label);
    m_axis = new QComboBox;
    m_axis->addItems({tr("off"), tr("x"), tr("y"), tr("z")});
    explain(m_axis, tr("section"),
            tr("Cut the shell open across x (length), y (width) or z (height); donor and rider stay whole"));
    row->addWidget(m_axis);
    auto* at = slider({}, tr("Where the shell is cut open"), m_state.sectionAt, &FitState3d::sectionAt,
                      &m_sectionAt);
    row->addWidget(at);
    m_flip = button(tr("Flip"), tr("Show the other half"), false);
    row->addWidget(m_flip);
    // They keep their room while the section is off, so that nothing moves under the hand.
    at->setEnabled(false);
    m_flip->setEnabled(false);
    connect(m_axis, &QComboBox::currentIndexChanged, this, [this, at](int index) {
        m_state.sectionAxis = index - 1;
        at->setEnabled(index > 0);
        m_flip->setEnabled(index > 0);
        if (index > 0) Q_EMIT sectionStarted();
        Q_EMIT changed();
    });
    connect(m_flip, &QToolButton::clicked, this, [this] {
        m_state.keepBelow = !m_state.keepBelow;
        Q_EMIT changed();
    });
    return group;
}

void FitControls::setKeepBelow(bool below) {
    m_state.keepBelow = below;
}
void FitControls::arm(const OpeningKind* kind) {
    m_opening = kind;
    m_mechanism = nullptr;
    markOpening(m_openings, kind);
    markMechanism(m_mechanisms, nullptr);
    Q_EMIT changed();
}
void FitControls::arm(const MechanismWords* kind) {
    m_mechanism = kind;
    m_opening = nullptr;
    markOpening(m_openings, nullptr);
    markMechanism(m_mechanisms, kind);
    Q_EMIT changed();
}
void FitControls::disarm() {
    arm(static_cast<const OpeningKind*>(nullptr));
}
void FitControls::offerOpenings() {
    popUp(m_openings->menu(), m_openings->mapToGlobal(QPoint(0, m_openings->height())));
}
void FitControls::offerMechanisms() {
    popUp(m_mechanisms->menu(), m_mechanisms->mapToGlobal(QPoint(0, m_mechanisms->height())));
}
void FitControls::toggleMoving() {
    m_moving->toggle();
}
void FitControls::toggleParallel() {
    m_parallel->toggle();
}

void FitControls::mark(std::optional<Direction> direction) {
    for (std::size_t i = 0; i < 4; ++i)
        m_directions[i]->setChecked(direction && static_cast<std::size_t>(*direction) == i);
}

} // namespace slab::ui
