#include "ui/window/stretch_dialog.h"
#include "core/survey/stretch.h"
#include "core/survey/survey.h"
#include "ui/session/session.h"
#include "ui/theme/theme.h"
#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace slab::ui {

namespace {

constexpr std::array<const char*, 3> directions{"Longer", "Wider", "Higher"};

} // namespace

StretchDialog::StretchDialog(Session* session, QWidget* parent)
    : QDialog(parent), m_session(session), m_more{}, m_size(new QLabel), m_wrong(new QLabel),
      m_buttons(new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel)) {
    setWindowTitle("Stretch the subject");
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(18, 16, 18, 16);
    all->setSpacing(12);
    auto* head =
        new QLabel("Where no scale fits, the subject may be made a little longer, wider or higher by "
                   "itself. Corners and places go along; sheets, openings' sizes, round parts, donor and "
                   "rider stay as they are, and so do drawings behind the board.");
    head->setWordWrap(true);
    all->addWidget(head);
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(12);
    grid->setVerticalSpacing(8);
    for (std::size_t k = 0; k < 3; ++k) {
        auto* field = new QDoubleSpinBox;
        field->setRange(-99, 999); // what is too much is said, not cut off while it is typed
        field->setDecimals(1);
        field->setSingleStep(0.5);
        field->setSuffix(" %");
        field->setFont(Theme::figures(13));
        explain(field, QString(directions[k]) + " by, per cent",
                "Below 0 it is made less. All three together change the scale only.");
        auto* label = new QLabel(QString(directions[k]) + " by");
        label->setBuddy(field);
        grid->addWidget(label, static_cast<int>(k), 0);
        grid->addWidget(field, static_cast<int>(k), 1);
        m_more[k] = field;
        connect(field, &QDoubleSpinBox::valueChanged, this, &StretchDialog::refresh);
    }
    grid->setColumnStretch(2, 1);
    all->addLayout(grid);
    m_size->setProperty("role", "quiet");
    m_wrong->setProperty("role", "error");
    m_wrong->setWordWrap(true);
    all->addWidget(m_size);
    all->addWidget(m_wrong);
    all->addWidget(m_buttons);
    m_buttons->button(QDialogButtonBox::Ok)->setText("Stretch");
    for (QAbstractButton* button : m_buttons->buttons()) button->setIcon({});
    connect(m_buttons, &QDialogButtonBox::accepted, this, &StretchDialog::accept);
    connect(m_buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    if (const auto& survey = session->survey(); survey && !survey->pick.stretches.empty()) {
        const Squeeze& s = survey->pick.stretches.front();
        m_more[static_cast<std::size_t>(s.axis)]->setValue(100 * (roundedOff(s.factor) - 1));
    }
    setMinimumWidth(460);
    refresh();
}

Eigen::Vector3d StretchDialog::factors() const {
    return {1 + m_more[0]->value() / 100, 1 + m_more[1]->value() / 100, 1 + m_more[2]->value() / 100};
}

void StretchDialog::refresh() {
    const Evaluation& e = m_session->evaluation();
    const auto made = stretched(m_session->project(), e, factors());
    m_wrong->setText(made ? QString()
                          : QString::fromStdString(made.error().message + " " + made.error().remedy));
    m_wrong->setVisible(!made);
    m_buttons->button(QDialogButtonBox::Ok)->setEnabled(made && factors() != Eigen::Vector3d::Ones());
    if (!e.body) return;
    m_size->setVisible(made.has_value());
    if (!made) return;
    const Vec3 size = builtBounds(m_evaluator.evaluate(*made, Effort::fitOnly)).size();
    const auto words = [&](double v) { return QString::fromStdString(printLength(v, e.units)); };
    m_size->setText(QString("At the scale as it is, built %1 long, %2 wide, %3 high.")
                        .arg(words(size.x()), words(size.y()), words(size.z())));
}

void StretchDialog::accept() {
    m_session->apply(stretchSubject(m_session->evaluation(), factors()));
    QDialog::accept();
}

} // namespace slab::ui
