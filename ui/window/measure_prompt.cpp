#include "ui/window/measure_prompt.h"
#include "core/formula/formula.h"
#include "ui/session/session.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include "ui/window/notice.h"
#include <QCheckBox>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStyle>
#include <QVBoxLayout>
#include <algorithm>

namespace slab::ui {

Edit measureSheets(std::vector<Measured> sheets) {
    return {"Measure sheets", {}, [sheets = std::move(sheets)](const Project& before) -> Expected<Project> {
                Project project = before;
                for (SheetStock& sheet : project.stock.sheets)
                    for (const Measured& m : sheets) {
                        if (m.stock != sheet.name) continue;
                        sheet.thickness = m.thickness;
                        sheet.width = m.width;
                        sheet.length = m.length;
                        sheet.measured = m.measured;
                    }
                return project;
            }};
}

MeasureDialog::MeasureDialog(Session* session, QWidget* parent)
    : QDialog(parent), m_session(session), m_wrong(new QLabel) {
    setWindowTitle("Measure your sheets");
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(18, 16, 18, 16);
    all->setSpacing(12);
    auto* head = new QLabel(
        "Shop names are rounded: a half inch board is seldom half an inch. Measure each sheet with "
        "a caliper and a tape; every panel follows. Until then its templates say “nominal”.");
    head->setWordWrap(true);
    all->addWidget(head);
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(12);
    grid->setVerticalSpacing(8);
    const char* heads[] = {"sheet", "thickness", "width", "length", "measured"};
    for (int i = 0; i < 5; ++i) {
        auto* label = new QLabel(heads[i]);
        label->setProperty("role", "quiet");
        grid->addWidget(label, 0, i);
    }
    int line = 1;
    for (const SheetStock& sheet : session->project().stock.sheets) {
        const QString name = QString::fromStdString(sheet.name);
        const auto edit = [&](const Text& text, const QString& what) {
            auto* field = new QLineEdit(QString::fromStdString(text));
            field->setFont(Theme::figures(13));
            explain(field, what + " of " + name, "As measured, e.g. 12.4 mm or 31/64 in.");
            return field;
        };
        Row row{sheet.name, new QCheckBox, edit(sheet.thickness, "Thickness"), edit(sheet.width, "Width"),
                edit(sheet.length, "Length")};
        row.measured->setChecked(sheet.measured);
        explain(row.measured, name + " is measured", "Tick it when the figures are from your own sheet.");
        auto* label = new QLabel(name);
        grid->addWidget(label, line, 0);
        grid->addWidget(row.thickness, line, 1);
        grid->addWidget(row.width, line, 2);
        grid->addWidget(row.length, line, 3);
        grid->addWidget(row.measured, line, 4, Qt::AlignHCenter);
        for (QLineEdit* field : {row.thickness, row.width, row.length})
            connect(field, &QLineEdit::textEdited, this, [box = row.measured] { box->setChecked(true); });
        m_rows.push_back(row);
        ++line;
    }
    all->addLayout(grid);
    m_wrong->setProperty("role", "error");
    m_wrong->setWordWrap(true);
    m_wrong->hide();
    all->addWidget(m_wrong);
    auto* buttons = new QDialogButtonBox;
    auto* take = buttons->addButton("Take these", QDialogButtonBox::AcceptRole);
    take->setObjectName("primary");
    explain(take, "Take these", "Sets the sizes; one Undo takes them back.");
    auto* later = buttons->addButton("Later", QDialogButtonBox::RejectRole);
    explain(later, "Later", "Leaves the sheets as they are: their templates stay marked nominal.");
    connect(buttons, &QDialogButtonBox::accepted, this, &MeasureDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    all->addWidget(buttons);
}

bool MeasureDialog::check() {
    Scope bare;
    bare.unit = m_session->unitStyle().unit;
    QString wrong;
    for (const Row& row : m_rows)
        for (QLineEdit* field : {row.thickness, row.width, row.length}) {
            const auto& scope = m_session->evaluation().scope;
            const auto value = evaluate(field->text().trimmed().toStdString(), scope ? *scope : bare,
                                        Space::build, Kind::length);
            const bool bad = !value || !(value->value > 0);
            field->setProperty("wrong", bad);
            field->style()->unpolish(field);
            field->style()->polish(field);
            if (bad && wrong.isEmpty())
                wrong =
                    field->accessibleName() + ": " +
                    (value ? "must be more than nothing." : QString::fromStdString(value.error().message));
        }
    m_wrong->setText(wrong);
    m_wrong->setVisible(!wrong.isEmpty());
    // A line more must not squash the fields.
    layout()->activate();
    resize(width(), std::max(height(), layout()->totalMinimumHeightForWidth(width())));
    return wrong.isEmpty();
}

void MeasureDialog::accept() {
    if (!check()) return;
    const Unit unit = m_session->unitStyle().unit;
    const auto text = [unit](const QLineEdit* field) {
        return withUnit(field->text().trimmed().toStdString(), unit);
    };
    std::vector<Measured> sheets;
    for (const Row& row : m_rows)
        sheets.push_back(
            {row.stock, text(row.thickness), text(row.width), text(row.length), row.measured->isChecked()});
    m_session->apply(measureSheets(std::move(sheets)));
    QDialog::accept();
}

MeasurePrompt::MeasurePrompt(Session* session, Notice* notice, QWidget* window)
    : QObject(window), m_session(session), m_notice(notice), m_window(window) {
    connect(session, &Session::projectChanged, this, &MeasurePrompt::follow);
}

QString MeasurePrompt::wordsNow() const {
    const auto& sheets = m_session->project().stock.sheets;
    const auto unmeasured =
        std::count_if(sheets.begin(), sheets.end(), [](const SheetStock& s) { return !s.measured; });
    if (unmeasured == 0) return {};
    return unmeasured == 1 ? QString("One sheet is not measured yet: its templates are marked nominal.")
                           : QString("%1 sheets are not measured yet: their templates are marked nominal.")
                                 .arg(unmeasured);
}

void MeasurePrompt::offer() {
    if (!wordsNow().isEmpty() && !m_notice->isVisibleTo(m_window)) tell();
}

void MeasurePrompt::tell() {
    m_told = wordsNow();
    m_notice->tell(Notice::Kind::running, m_told, "Measure your sheets…",
                   [this] { MeasureDialog(m_session, m_window).exec(); });
}

void MeasurePrompt::follow() {
    if (m_told.isEmpty() || !m_notice->isVisibleTo(m_window) || m_notice->words() != m_told) return;
    if (wordsNow().isEmpty())
        m_notice->hide();
    else if (wordsNow() != m_told)
        tell();
}

} // namespace slab::ui
