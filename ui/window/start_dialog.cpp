#include "ui/window/start_dialog.h"
#include "core/board/starts.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

namespace slab::ui {

StartDialog::StartDialog(const std::string& units, QWidget* parent)
    : QDialog(parent), m_kinds(new QListWidget), m_words(new QLabel), m_units(new QComboBox),
      m_donor(new QComboBox) {
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
    m_kinds->setCurrentRow(0);
    m_kinds->setMinimumHeight(150);
    all->addWidget(m_kinds);
    m_words->setWordWrap(true);
    m_words->setProperty("role", "quiet");
    m_words->setMinimumSize(420, 40);
    all->addWidget(m_words);
    auto* form = new QFormLayout;
    for (const char* unit : {"mm", "cm", "m", "in", "ft"}) m_units->addItem(unit);
    m_units->setCurrentText(QString::fromStdString(units));
    explain(m_units, "Units", "The units that you measure in; every size can still be typed in any other.");
    form->addRow("Units", m_units);
    m_donor->addItem("powered chair", "powered_chair");
    m_donor->addItem("scooter", "scooter");
    m_donor->addItem("none", "none");
    explain(m_donor, "Donor", "What carries the body. It is generic: measure yours before you cut.");
    form->addRow("Donor", m_donor);
    all->addLayout(form);
    auto* buttons = new QDialogButtonBox;
    auto* make = buttons->addButton("Begin", QDialogButtonBox::AcceptRole);
    make->setObjectName("primary");
    make->setDefault(true);
    explain(make, "Begin", "Makes a new document of this body.");
    explain(buttons->addButton("Stay", QDialogButtonBox::RejectRole), "Stay",
            "Keeps the document that is open.");
    all->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(m_kinds, &QListWidget::currentRowChanged, this, &StartDialog::describe);
    connect(m_kinds, &QListWidget::itemDoubleClicked, this, &QDialog::accept);
    describe();
}

void StartDialog::describe() {
    const auto row = static_cast<std::size_t>(std::max(m_kinds->currentRow(), 0));
    m_words->setText(QString::fromStdString(startKinds()[row].words));
}

Expected<Project> StartDialog::project() const {
    const auto row = static_cast<std::size_t>(std::max(m_kinds->currentRow(), 0));
    return startProject(startKinds()[row].kind, m_units->currentText().toStdString(),
                        m_donor->currentData().toString().toStdString());
}

} // namespace slab::ui
