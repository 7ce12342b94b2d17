#include "ui/window/print_dialog.h"
#include "ui/session/session.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QButtonGroup>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>
#include <QRadioButton>
#include <QVBoxLayout>

namespace slab::ui {

namespace {

enum What { calibration, onePanel, everything };

QDoubleSpinBox* millimetres(double value, const QString& name, const QString& tip) {
    auto* box = new QDoubleSpinBox;
    box->setRange(0, 60);
    box->setDecimals(1);
    box->setSuffix(" mm");
    box->setValue(value);
    explain(box, name, tip);
    return box;
}

} // namespace

PrintDialog::PrintDialog(Session* session, QWidget* parent)
    : QDialog(parent), m_session(session), m_paper(new QComboBox), m_panel(new QComboBox),
      m_what(new QButtonGroup(this)),
      m_border(millimetres(10, "Border", "Room that your printer leaves white at each side of the paper.")),
      m_overlap(millimetres(10, "Overlap", "How far neighbouring pages lie over each other for gluing.")),
      m_summary(new QLabel) {
    setWindowTitle("Print true size");
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(18, 16, 18, 16);
    all->setSpacing(12);
    auto* head = new QLabel("Print the calibration page first and measure its bars: if they are true, the "
                            "templates are.");
    head->setWordWrap(true);
    all->addWidget(head);
    const auto add = [&](What id, const QString& words, const QString& tip) {
        auto* button = new QRadioButton(words);
        explain(button, words, tip);
        m_what->addButton(button, id);
        all->addWidget(button);
        return button;
    };
    add(calibration, "One calibration page",
        "One page with bars in both directions. Print it at 100 % and measure.");
    add(onePanel, "One panel", "Only the pages of the panel chosen below.");
    add(everything, "All panels", "Every panel, each over as many pages as it needs.")->setChecked(true);
    for (const std::string& name : paperNames()) m_paper->addItem(QString::fromStdString(name));
    m_paper->setCurrentText(QString::fromStdString(session->project().paper));
    explain(m_paper, "Paper", "The paper in your printer, or the roll at the copy shop.");
    if (session->evaluation().panels)
        for (const Panel& panel : *session->evaluation().panels)
            m_panel->addItem(QString::fromStdString(panel.name));
    m_panel->setCurrentText(session->selection().plate);
    explain(m_panel, "Panel", "The panel to print when only one is wanted.");
    addFields(all);
    connect(m_what, &QButtonGroup::idToggled, this, &PrintDialog::refresh);
    connect(m_paper, &QComboBox::currentTextChanged, this, &PrintDialog::refresh);
    connect(m_panel, &QComboBox::currentTextChanged, this, &PrintDialog::refresh);
    connect(m_border, &QDoubleSpinBox::valueChanged, this, &PrintDialog::refresh);
    connect(m_overlap, &QDoubleSpinBox::valueChanged, this, &PrintDialog::refresh);
    setMinimumWidth(380);
    refresh();
}

void PrintDialog::addFields(QVBoxLayout* all) {
    auto* form = new QFormLayout;
    form->setHorizontalSpacing(14);
    form->addRow("Panel", m_panel);
    form->addRow("Paper", m_paper);
    form->addRow("Border", m_border);
    form->addRow("Overlap", m_overlap);
    all->addLayout(form);
    m_summary->setProperty("role", "quiet");
    m_summary->setWordWrap(true);
    all->addWidget(m_summary);
    auto* buttons = new QDialogButtonBox;
    auto* save = buttons->addButton("Save PDF…", QDialogButtonBox::AcceptRole);
    save->setObjectName("primary");
    explain(save, "Save PDF",
            "Writes a PDF at true size. Print it at 100 %, without fitting it to the page.");
    auto* back = buttons->addButton("Cancel", QDialogButtonBox::RejectRole);
    explain(back, "Cancel", "Prints nothing.");
    all->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
}

PrintChoice PrintDialog::choice() const {
    PrintChoice c;
    c.paper = m_paper->currentText();
    c.calibration = m_what->checkedId() == calibration;
    if (m_what->checkedId() == onePanel) c.panel = m_panel->currentText();
    c.border = m_border->value();
    c.overlap = m_overlap->value();
    return c;
}

void PrintDialog::refresh() {
    m_panel->setEnabled(m_what->checkedId() == onePanel);
    const auto& panels = m_session->evaluation().panels;
    const auto paper = paperNamed(m_paper->currentText().toStdString());
    if (m_what->checkedId() == calibration || !panels || !paper) {
        m_summary->setText(m_what->checkedId() == calibration ? "1 page" : "");
        return;
    }
    TemplateOptions options;
    options.paper = *paper;
    options.border = m_border->value();
    options.overlap = m_overlap->value();
    options.units = m_session->unitStyle();
    std::size_t pages = 1;
    bool unmeasured = false;
    for (const Panel& panel : *panels) {
        if (m_what->checkedId() == onePanel && panel.name != m_panel->currentText().toStdString()) continue;
        pages += templatePages(panel, options).size();
        const Sheet* sheet =
            m_session->evaluation().stock ? m_session->evaluation().stock->find(panel.stock) : nullptr;
        unmeasured = unmeasured || (sheet && !sheet->measured);
    }
    m_summary->setText(
        QString("%1 pages, the calibration page included.%2")
            .arg(pages)
            .arg(unmeasured ? " Some sheets are not measured yet: their templates are marked nominal." : ""));
}

} // namespace slab::ui
