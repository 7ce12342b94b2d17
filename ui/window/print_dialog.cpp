#include "ui/window/print_dialog.h"
#include "core/drawing/tiles.h"
#include "ui/session/session.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include "ui/window/length_box.h"
#include <QButtonGroup>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QRadioButton>
#include <QScreen>
#include <QVBoxLayout>
#include <algorithm>

namespace slab::ui {

namespace {

LengthBox* lengthBox(const UnitStyle& units, const QString& name, const QString& tip) {
    auto* box = new LengthBox(usualMargin(units), 60, units);
    explain(box, name, tip);
    return box;
}

bool has(const Panel& panel, const std::string& plate) {
    return panel.name == plate || panel.isOf(plate);
}

} // namespace

std::vector<bool> cutAlready(const Project& project, const std::vector<Panel>& panels) {
    std::vector<bool> cut(panels.size(), false);
    for (std::size_t i = 0; i < panels.size(); ++i)
        for (const CutPanel& c : project.cut)
            if (has(panels[i], c.panel) && c.fingerprint == panels[i].fingerprint) cut[i] = true;
    return cut;
}

std::vector<int> pagesOf(const std::vector<Panel>& panels, const TemplateOptions& options, const Job& job) {
    std::vector<int> pages;
    for (const Panel& panel : panels) {
        if (job.stopped()) break;
        pages.push_back(templatePlan(panel, options).printedCount());
    }
    return pages;
}

PrintDialog::PrintDialog(Session* session, QWidget* parent)
    : QDialog(parent), m_session(session), m_panels(session->evaluation().panels), m_paper(new QComboBox),
      m_what(new QButtonGroup(this)), m_list(new QListWidget),
      m_border(lengthBox(session->unitStyle(), "Border",
                         "Room that your printer leaves white at each side of the paper.")),
      m_overlap(lengthBox(session->unitStyle(), "Overlap",
                          "How far neighbouring pages lie over each other for gluing.")),
      m_summary(new QLabel), m_counter(std::make_unique<Runner>(true)) {
    if (!m_panels) m_panels = std::make_shared<const std::vector<Panel>>();
    m_cut = cutAlready(session->project(), *m_panels);
    for (std::size_t i = 0; i < m_panels->size(); ++i)
        if (has((*m_panels)[i], session->selection().plate.toStdString())) m_chosen = static_cast<int>(i);
    setWindowTitle("Print true size");
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(18, 16, 18, 16);
    all->setSpacing(10);
    auto* head = new QLabel("Print the calibration page first and measure its bars: if they are true, the "
                            "templates are.");
    head->setWordWrap(true);
    all->addWidget(head);
    addChoices(all);
    for (const std::string& name : paperNames()) m_paper->addItem(QString::fromStdString(name));
    m_paper->setCurrentText(QString::fromStdString(session->project().paper));
    explain(m_paper, "Paper", "The paper in your printer, or the roll at the copy shop.");
    addFields(all);
    connect(m_what, &QButtonGroup::idToggled, this, &PrintDialog::refresh);
    connect(m_list, &QListWidget::itemChanged, this, [this] {
        button(What::ticked)->setChecked(true);
        refresh();
    });
    connect(m_paper, &QComboBox::currentTextChanged, this, &PrintDialog::count);
    connect(m_border, &QDoubleSpinBox::valueChanged, this, &PrintDialog::count);
    connect(m_overlap, &QDoubleSpinBox::valueChanged, this, &PrintDialog::count);
    setMinimumWidth(420);
    // A list of many panels must not push the dialog over a low screen's border, nor may it lie over the
    // rest.
    const int least = all->totalMinimumHeightForWidth(minimumWidth());
    setMinimumHeight(least);
    resize(minimumWidth(), std::max(least, std::min(least + 160, screen()->availableSize().height() - 140)));
    count();
}

PrintDialog::~PrintDialog() {
    m_counter.reset(); // it calls back
}

void PrintDialog::addChoices(QVBoxLayout* all) {
    const auto add = [&](What id, const QString& words, const QString& tip, bool possible) {
        auto* button = new QRadioButton(words);
        explain(button, words, tip);
        button->setEnabled(possible);
        m_what->addButton(button, static_cast<int>(id));
        all->addWidget(button);
        return button;
    };
    const auto count = static_cast<int>(m_panels->size());
    const auto left = static_cast<int>(std::count(m_cut.begin(), m_cut.end(), false));
    const QString name = m_chosen < 0
                             ? QString()
                             : QString::fromStdString((*m_panels)[static_cast<std::size_t>(m_chosen)].name);
    add(What::calibration, "One calibration page",
        "One page with bars in both directions. Print it at 100 % and measure.", true);
    add(What::everything, QString("All %1 panels").arg(count),
        "Every panel, each over as many pages as it needs.", count > 0)
        ->setChecked(true);
    add(What::notCut, QString("Not cut yet: %1 of %2").arg(left).arg(count),
        "Panels that are not ticked as cut, and those that have changed since they were.", left > 0);
    add(What::chosen, m_chosen < 0 ? "The chosen panel" : "The chosen panel: " + name,
        m_chosen < 0 ? "Choose a panel in any view first." : "Only the pages of " + name + ".",
        m_chosen >= 0);
    add(What::ticked, "Panels ticked here:", "Only the panels that you tick in the list.", count > 0);
    fillList();
    all->addWidget(m_list, 1);
}

void PrintDialog::fillList() {
    explain(m_list, "Panels to print", "Tick the panels whose templates you want; Space ticks by key.");
    m_list->setMinimumHeight(84);
    for (std::size_t i = 0; i < m_panels->size(); ++i) {
        const Panel& panel = (*m_panels)[i];
        QString words = QString("%1  %2").arg(i + 1).arg(QString::fromStdString(panel.name));
        if (panel.copyCount() > 1) words += QString(" ×%1").arg(panel.copyCount());
        if (m_cut[i]) words += " · cut";
        auto* item = new QListWidgetItem(words, m_list);
        item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsUserCheckable);
        item->setCheckState(static_cast<int>(i) == m_chosen ? Qt::Checked : Qt::Unchecked);
        if (static_cast<int>(i) == m_chosen) m_list->setCurrentItem(item);
    }
}

void PrintDialog::addFields(QVBoxLayout* all) {
    auto* form = new QFormLayout;
    form->setHorizontalSpacing(14);
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
    m_save = save;
    auto* back = buttons->addButton("Cancel", QDialogButtonBox::RejectRole);
    explain(back, "Cancel", "Prints nothing.");
    all->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
}

PrintDialog::What PrintDialog::what() const {
    return static_cast<What>(m_what->checkedId());
}

QAbstractButton* PrintDialog::button(What what) const {
    return m_what->button(static_cast<int>(what));
}

QString PrintDialog::summary() const {
    return m_summary->text();
}

std::vector<std::size_t> PrintDialog::wanted() const {
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < m_panels->size(); ++i) {
        const auto row = static_cast<int>(i);
        const bool in = what() == What::everything || (what() == What::chosen && row == m_chosen) ||
                        (what() == What::notCut && !m_cut[i]) ||
                        (what() == What::ticked && m_list->item(row)->checkState() == Qt::Checked);
        if (in) all.push_back(i);
    }
    return all;
}

PrintChoice PrintDialog::choice() const {
    PrintChoice c;
    c.paper = m_paper->currentText();
    for (const std::size_t i : wanted()) c.panels << QString::fromStdString((*m_panels)[i].name);
    c.border = m_border->value();
    c.overlap = m_overlap->value();
    return c;
}

void PrintDialog::count() {
    m_pages.clear();
    ++m_asked;
    if (const auto paper = paperNamed(m_paper->currentText().toStdString())) {
        TemplateOptions options;
        options.paper = *paper;
        options.border = m_border->value();
        options.overlap = m_overlap->value();
        options.units = m_session->unitStyle();
        m_counter->post(
            0,
            [this, options, panels = m_panels, asked = m_asked](std::stop_token stop) {
                auto pages = pagesOf(*panels, options, Job{stop, {}});
                if (stop.stop_requested()) return;
                QMetaObject::invokeMethod(
                    this,
                    [this, asked, pages = std::move(pages)] {
                        if (asked != m_asked) return;
                        m_pages = pages;
                        refresh();
                    },
                    Qt::QueuedConnection);
            },
            0);
    }
    refresh();
}

void PrintDialog::refresh() {
    const std::vector<std::size_t> all = wanted();
    m_save->setEnabled(what() == What::calibration || !all.empty());
    if (what() == What::calibration) return m_summary->setText("1 page");
    if (all.empty()) return m_summary->setText("Tick the panels to print.");
    if (m_pages.size() != m_panels->size()) return m_summary->setText("counting pages…");
    int pages = 1;
    bool unmeasured = false;
    const auto& stock = m_session->evaluation().stock;
    for (const std::size_t i : all) {
        pages += m_pages[i];
        const Sheet* sheet = stock ? stock->find((*m_panels)[i].stock) : nullptr;
        unmeasured = unmeasured || (sheet && !sheet->measured);
    }
    m_summary->setText(
        QString("%1 pages, the calibration page included.%2")
            .arg(pages)
            .arg(unmeasured ? " Some sheets are not measured yet: their templates are marked nominal." : ""));
}

} // namespace slab::ui
