#include "ui/outlines/outline_dialog.h"
#include "core/evaluate/stages.h"
#include "ui/board/strip_fields.h"
#include "ui/outlines/outline_preview.h"
#include "ui/session/session.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSignalBlocker>
#include <QVBoxLayout>

namespace slab::ui {

namespace {

constexpr int addingUses = 5; ///< the uses that add forms come first

Scope scopeOfDocument(const Project& project) {
    std::vector<Finding> findings;
    const auto scale = readScale(project.scale);
    return resolveScope(project, scale ? *scale : 1, findings);
}

QLineEdit* figureEdit(const QString& text, const QString& name, const QString& tip) {
    auto* edit = new QLineEdit(text);
    edit->setFont(Theme::figures(13));
    edit->setMaximumWidth(150);
    explain(edit, name, tip);
    return edit;
}

/// Where outlines of a use begin on the axes.
QString beginning(OutlineUse use, bool instead) {
    if (instead) return "begin where the old outline begins";
    if (use == OutlineUse::plateFront) return "stand on the ground, astride the middle";
    const bool plan = use == OutlineUse::taper || use == OutlineUse::platePlan;
    return plan ? "begin at the rear end, astride the middle" : "begin at the ground and the rear end";
}

/// "3 corners, 2 arcs, 1 spline; 14 flats, 4.6 mm off its curves at most".
QString wordsOf(const OutlineDraft& draft, const UnitStyle& units, double tolerance) {
    int arcs = 0, ellipses = 0, splines = 0;
    for (const OutlineEdge& e : draft.edges) {
        arcs += e.kind == OutlineEdge::Kind::arc ? 1 : 0;
        ellipses += e.kind == OutlineEdge::Kind::ellipse ? 1 : 0;
        splines += e.kind == OutlineEdge::Kind::spline ? 1 : 0;
    }
    QStringList parts{QString("%1 corners").arg(draft.points.size())};
    const auto add = [&](int n, const char* one, const char* many) {
        if (n > 0) parts << QString("%1 %2").arg(n).arg(n == 1 ? one : many);
    };
    add(arcs, "arc", "arcs");
    add(ellipses, "ellipse arc", "ellipse arcs");
    add(splines, "spline", "splines");
    QString words = parts.join(", ");
    const OutlineFlats flats = flatsOf(draft, tolerance);
    if (flats.deviation > 0)
        words += QString("; %1 flats, %2 off its curves at most")
                     .arg(flats.count)
                     .arg(QString::fromStdString(printFine(flats.deviation, units)));
    if (draft.wasOpen) words += "; it was open and is closed by a straight side";
    return words;
}

} // namespace

OutlineDialog::OutlineDialog(Session* session, SvgFile file, const QString& name, QWidget* parent)
    : QDialog(parent), m_session(session), m_outlines(outlinesOf(file)), m_choices(unitChoices(file)) {
    setWindowTitle("Outlines from a drawing");
    for (const std::string& words : file.leftOut) m_leftOut << QString::fromStdString(words);
    build(name);
    refresh();
}

void OutlineDialog::build(const QString& name) {
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(18, 16, 18, 16);
    all->setSpacing(space::between);
    auto* title = new QLabel("Which outlines of " + name + " become forms?");
    title->setFont(Theme::words(16, true));
    all->addWidget(title);
    auto* row = new QHBoxLayout;
    row->setSpacing(space::between);
    m_preview = new OutlinePreview(m_outlines);
    row->addWidget(m_preview, 1);
    row->addWidget(buildChoices());
    all->addLayout(row, 1);
    m_told = new QLabel;
    m_told->setWordWrap(true);
    m_told->setProperty("role", "quiet");
    all->addWidget(m_told);
    m_wrong = new QLabel;
    m_wrong->setWordWrap(true);
    m_wrong->setProperty("role", "error");
    all->addWidget(m_wrong);
    auto* buttons = new QDialogButtonBox;
    m_make = buttons->addButton("Make forms", QDialogButtonBox::AcceptRole);
    m_make->setObjectName("primary");
    explain(m_make, "Make forms", "Adds the forms; one Undo takes them back.");
    explain(buttons->addButton("Cancel", QDialogButtonBox::RejectRole), "Cancel", "Adds nothing.");
    connect(buttons, &QDialogButtonBox::accepted, this, &OutlineDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    all->addWidget(buttons);
    connect(m_preview, &OutlinePreview::clicked, this, [this](int index) {
        QListWidgetItem* item = m_list->item(index);
        item->setCheckState(item->checkState() == Qt::Checked ? Qt::Unchecked : Qt::Checked);
    });
    connect(m_preview, &OutlinePreview::marked, this, &OutlineDialog::refresh);
    connect(m_list, &QListWidget::itemChanged, this, &OutlineDialog::refresh);
    connect(m_list, &QListWidget::currentRowChanged, m_preview, &OutlinePreview::setHovered);
    for (QComboBox* box : {m_units, m_use, m_space})
        connect(box, &QComboBox::currentIndexChanged, this, &OutlineDialog::refresh);
    for (QLineEdit* edit : {m_distance, m_size, m_tolerance})
        connect(edit, &QLineEdit::textChanged, this, &OutlineDialog::refresh);
}

QWidget* OutlineDialog::buildChoices() {
    auto* side = new QWidget;
    side->setFixedWidth(400);
    auto* all = new QVBoxLayout(side);
    all->setContentsMargins(0, 0, 0, 0);
    m_list = new QListWidget;
    explain(m_list, "Outlines of the drawing",
            "Tick those that are to become forms. The largest come first.");
    m_list->setMinimumHeight(110);
    for (const SvgChoice& one : m_outlines) {
        auto* item = new QListWidgetItem(QString::fromStdString(one.name), m_list);
        item->setFlags(item->flags() | Qt::ItemIsUserCheckable);
        item->setCheckState(m_list->count() == 1 ? Qt::Checked : Qt::Unchecked);
    }
    all->addWidget(m_list, 1);
    auto* form = new QFormLayout;
    form->setVerticalSpacing(8);
    m_units = new QComboBox;
    m_units->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    explain(m_units, "Unit of the drawing", "One unit of the drawing is as long as this.");
    const UnitStyle style = m_session->unitStyle();
    for (const SvgUnit& unit : m_choices)
        m_units->addItem(QString::fromStdString(unit.name + " – all " + printLength(unit.width, style) +
                                                " by " + printLength(unit.height, style)));
    m_units->addItem("two points and their distance");
    auto* unitWord = new QLabel("Its unit, and what the whole drawing then measures");
    unitWord->setBuddy(m_units);
    form->addRow(unitWord);
    form->addRow(m_units); // alone in its row: the sizes are long
    m_pointWords = new QLabel;
    m_pointWords->setWordWrap(true);
    m_pointWords->setProperty("role", "quiet");
    form->addRow(m_pointWords);
    m_distance = figureEdit({}, "Distance between the two points", "What lies between them in truth.");
    m_distanceLabel = new QLabel("Between them");
    form->addRow(m_distanceLabel, m_distance);
    m_use = new QComboBox;
    for (const char* use : {"a profile form, drawn from the side", "a taper form, drawn in plan",
                            "a plate in the plan", "a plate in the side view", "a plate in the front view"})
        m_use->addItem(use);
    m_replaceable = replaceable(m_session->project());
    for (const int form : m_replaceable) {
        const std::string& of = m_session->project().forms[static_cast<std::size_t>(form)].name;
        m_use->addItem("in place of the outline of " + QString::fromStdString(of));
    }
    m_use->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    explain(m_use, "What each outline becomes",
            "The kind of form and the elevation that it is drawn in; or the form whose outline it replaces. "
            "That keeps its half widths and, in their order, the names of its points.");
    form->addRow("Each becomes", m_use);
    m_sizeLabel = new QLabel;
    m_size = figureEdit(isInch(style) ? "18 in" : "500 mm", "Size across", "A length or a formula.");
    form->addRow(m_sizeLabel, m_size);
    m_tolerance = figureEdit(isInch(style) ? "1/4 in" : "5 mm", "Deviation of the flats",
                             "The most that the flats of a curved edge may leave it.");
    form->addRow("Flats within", m_tolerance);
    m_space = new QComboBox;
    m_space->addItem("of the subject: it shrinks with the scale");
    m_space->addItem("of the build: it stays as it is");
    m_space->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    explain(m_space, "Whose size the drawing has", "Full size of the subject, or size as built.");
    form->addRow("Its size is", m_space);
    m_axes = new QCheckBox("begin at the ground and the rear end");
    m_axes->setChecked(true);
    explain(
        m_axes, "Begin at zero",
        "Moves all of them together to the axes; a plan's and a front view's lie astride the middle. Else "
        "they stand where the drawing has them.");
    form->addRow("They", m_axes);
    all->addLayout(form);
    return side;
}

int OutlineDialog::replaced() const {
    const int index = m_use->currentIndex() - addingUses;
    return index >= 0 && index < static_cast<int>(m_replaceable.size())
               ? m_replaceable[static_cast<std::size_t>(index)]
               : -1;
}

std::vector<SvgChoice> OutlineDialog::taken() const {
    std::vector<SvgChoice> all;
    for (int i = 0; i < m_list->count(); ++i)
        if (m_list->item(i)->checkState() == Qt::Checked)
            all.push_back(m_outlines[static_cast<std::size_t>(i)]);
    return all;
}

Expected<OutlineWish> OutlineDialog::wish() const {
    OutlineWish wish;
    wish.replaces = replaced();
    if (wish.replaces < 0) wish.use = static_cast<OutlineUse>(m_use->currentIndex());
    wish.space = m_space->currentIndex() == 1 ? Space::build : Space::subject;
    const Unit unit = m_session->unitStyle().unit;
    wish.size = withUnit(m_size->text().trimmed().toStdString(), unit);
    wish.tolerance = withUnit(m_tolerance->text().trimmed().toStdString(), unit);
    wish.onAxes = m_axes->isChecked();
    const auto index = static_cast<std::size_t>(std::max(m_units->currentIndex(), 0));
    if (index < m_choices.size()) {
        wish.mmX = m_choices[index].unitX;
        wish.mmY = m_choices[index].unitY;
        return wish;
    }
    const auto points = m_preview->points();
    if (!points)
        return fail("svg-points", "The unit is not known yet.", {},
                    "Click two points in the drawing and type what lies between them.");
    const auto distance = evaluate(withUnit(m_distance->text().trimmed().toStdString(), unit),
                                   scopeOfDocument(m_session->project()), wish.space, Kind::length);
    if (!distance)
        return fail("svg-distance", "The distance between the two points cannot be read.", {},
                    "Type a length, for example 2.4 m.");
    // A subject's length is times the scale by now; the drawing has its full size.
    const double scale = wish.space == Space::subject ? readScale(m_session->project().scale).value_or(1) : 1;
    const auto one = unitBetween((*points)[0], (*points)[1], distance->value / scale);
    if (!one) return Unexpected(one.error());
    wish.mmX = wish.mmY = *one;
    return wish;
}

Expected<Edit> OutlineDialog::edit() const {
    const auto how = wish();
    if (!how) return Unexpected(how.error());
    return importOutlines(m_session->project(), scopeOfDocument(m_session->project()), taken(), *how);
}

QString OutlineDialog::trouble() const {
    const auto made = edit();
    if (made) return {};
    return QString::fromStdString(made.error().message +
                                  (made.error().remedy.empty() ? "" : " " + made.error().remedy));
}

void OutlineDialog::refresh() {
    std::vector<bool> ticks;
    for (int i = 0; i < m_list->count(); ++i) ticks.push_back(m_list->item(i)->checkState() == Qt::Checked);
    m_preview->setTaken(ticks);
    const bool points = m_units->currentIndex() >= static_cast<int>(m_choices.size());
    m_preview->askPoints(points);
    m_pointWords->setVisible(points);
    m_pointWords->setText(m_preview->points()
                              ? "Both points are marked; a click begins anew."
                              : "Click two points in the drawing; tick outlines in the list.");
    m_distance->setVisible(points);
    m_distanceLabel->setVisible(points);
    const auto use = static_cast<OutlineUse>(m_use->currentIndex());
    const bool instead = replaced() >= 0;
    m_axes->setText(beginning(use, instead));
    m_make->setText(instead ? "Replace outline" : "Make forms");
    const bool thick = use == OutlineUse::profile || use == OutlineUse::taper;
    m_sizeLabel->setVisible(thick);
    m_size->setVisible(thick);
    m_sizeLabel->setText(use == OutlineUse::taper ? "Height" : "Half width");
    const QString why = trouble();
    m_wrong->setText(why);
    m_wrong->setVisible(!why.isEmpty());
    m_make->setEnabled(why.isEmpty());
    QStringList told;
    const Scope scope = scopeOfDocument(m_session->project());
    if (const auto how = wish())
        for (const SvgChoice& one : taken())
            if (const auto draft = draftFor(one, *how, scope)) {
                const Vec2 size = bounds(*draft).size();
                const UnitStyle style = m_session->unitStyle();
                told << QString::fromStdString(one.name) + ": " +
                            QString::fromStdString(printLength(size.x(), style) + " by " +
                                                   printLength(size.y(), style)) +
                            ", " + wordsOf(*draft, style, flatsTolerance(*how, scope).value_or(1));
            }
    if (told.size() > 3) told = told.mid(0, 3) << QString("and %1 more").arg(told.size() - 3);
    if (!m_leftOut.isEmpty()) told << "Left out: " + m_leftOut.mid(0, 3).join(", ");
    m_told->setText(told.join("\n"));
}

void OutlineDialog::accept() {
    const auto made = edit();
    if (!made || !m_session->apply(*made)) return refresh();
    QDialog::accept();
}

} // namespace slab::ui
