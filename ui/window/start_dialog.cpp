#include "ui/window/start_dialog.h"
#include "core/board/starts.h"
#include "core/donor/donor.h"
#include "core/donor/kinds.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include "ui/window/start_preview.h"
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

namespace slab::ui {

namespace {

constexpr QSize iconSize{76, 52};
constexpr const char* openDonor = "as in this document"; // no kind of donor

bool hasDonor(const Project& project) {
    return project.donor.kind != "none" || !project.donor.solids.empty();
}

QString built(const Evaluation& e) {
    if (!e.body) return {};
    UnitStyle style = e.units;
    const Vec3 size = e.body->bounds.size();
    const auto words = [&](int axis) { return QString::fromStdString(printLength(size[axis], style)); };
    return QString("%1 long, %2 wide, %3 high · %4 plates")
        .arg(words(0), words(1), words(2))
        .arg(e.plates ? e.plates->plates.size() : 0);
}

} // namespace

StartDialog::StartDialog(Project open, QWidget* parent)
    : QDialog(parent), m_open(std::move(open)), m_kinds(new QListWidget), m_preview(new StartPreview),
      m_words(new QLabel), m_size(new QLabel), m_units(new QComboBox), m_donor(new QComboBox) {
    setWindowTitle("New from a start");
    auto* all = new QVBoxLayout(this);
    all->setSpacing(space::between);
    auto* title = new QLabel("Which body is yours most like?");
    title->setFont(Theme::words(16, true));
    all->addWidget(title);
    for (const StartKind& kind : startKinds()) {
        auto* item = new QListWidgetItem(QString::fromStdString(kind.label), m_kinds);
        item->setData(Qt::UserRole, QString::fromStdString(kind.kind));
        item->setToolTip(QString::fromStdString(kind.words));
    }
    explain(m_kinds, "Starts",
            "Each is made of named dimensions: change them, or drag its points on the drawing board.");
    m_kinds->setIconSize(iconSize);
    m_kinds->setFixedWidth(220);
    m_kinds->setCurrentRow(0);
    auto* middle = new QHBoxLayout;
    middle->setSpacing(space::between);
    middle->addWidget(m_kinds);
    middle->addWidget(m_preview, 1);
    all->addLayout(middle, 1);
    m_words->setWordWrap(true);
    all->addWidget(m_words);
    m_size->setProperty("role", "quiet");
    all->addWidget(m_size);
    auto* form = new QFormLayout;
    addChoices(form);
    all->addLayout(form);
    auto* buttons = new QDialogButtonBox;
    auto* make = buttons->addButton("Begin", QDialogButtonBox::AcceptRole);
    make->setObjectName("primary");
    make->setDefault(true);
    explain(make, "Begin", "Makes a new document of this body.");
    explain(buttons->addButton("Cancel", QDialogButtonBox::RejectRole), "Cancel",
            "Keeps the document that is open.");
    all->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(m_kinds, &QListWidget::currentRowChanged, this, &StartDialog::describe);
    connect(m_kinds, &QListWidget::itemDoubleClicked, this, &QDialog::accept);
    connect(m_units, &QComboBox::currentIndexChanged, this, &StartDialog::describe);
    connect(m_donor, &QComboBox::currentIndexChanged, this, &StartDialog::redrawIcons);
    redrawIcons();
}

void StartDialog::addChoices(QFormLayout* form) {
    for (const char* unit : {"mm", "cm", "m", "in", "ft"}) m_units->addItem(unit);
    m_units->setCurrentText(QString::fromStdString(m_open.units));
    explain(m_units, "Units", "The units that you measure in; every size can still be typed in any other.");
    form->addRow("Units", m_units);
    for (const std::string& kind : donorKinds())
        m_donor->addItem(QString::fromStdString(donorLabel(kind)), QString::fromStdString(kind));
    if (hasDonor(m_open)) m_donor->addItem("as measured in the open document", openDonor);
    explain(m_donor, "Donor",
            "What carries the body. The ready ones are generic: measure yours before you cut.");
    form->addRow("Donor", m_donor);
}

const StartDialog::Made& StartDialog::made(std::size_t kind) const {
    const std::string name = startKinds()[kind].kind, units = m_units->currentText().toStdString(),
                      donor = m_donor->currentData().toString().toStdString();
    const auto known = m_made.find(name + '/' + units + '/' + donor);
    if (known != m_made.end()) return known->second;
    Made made{
        donor == openDonor ? startProject(name, units, m_open) : startProject(name, units, donor), {}, {}};
    if (made.project) {
        const Evaluation e = Evaluator().evaluate(*made.project, Effort::fitOnly);
        made.scene = boardScene(*made.project, e);
        made.words = built(e);
    } else {
        made.words = QString::fromStdString(made.project.error().message);
    }
    return m_made.emplace(name + '/' + units + '/' + donor, std::move(made)).first->second;
}

void StartDialog::redrawIcons() {
    for (int row = 0; row < m_kinds->count(); ++row)
        m_kinds->item(row)->setIcon(
            StartPreview::icon(made(static_cast<std::size_t>(row)).scene, iconSize, devicePixelRatioF()));
    describe();
}

void StartDialog::describe() {
    const auto row = static_cast<std::size_t>(std::max(m_kinds->currentRow(), 0));
    m_words->setText(QString::fromStdString(startKinds()[row].words));
    m_preview->draw(made(row).scene);
    m_size->setText(made(row).words);
}

QString StartDialog::sizeWords() const {
    return m_size->text();
}

Expected<Project> StartDialog::project() const {
    return made(static_cast<std::size_t>(std::max(m_kinds->currentRow(), 0))).project;
}

} // namespace slab::ui
