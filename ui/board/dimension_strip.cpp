#include "ui/board/dimension_strip.h"
#include "core/board/measure.h"
#include "core/evaluate/stages.h"
#include "ui/paint/flow_layout.h"
#include "ui/tables/table_edits.h"
#include "ui/theme/card.h"
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QSignalBlocker>
#include <cctype>

namespace slab::ui {

namespace {

constexpr const char* tellsOnly = "nothing: it only tells";

std::string lastPart(const std::string& name) {
    const std::size_t slash = name.rfind('/');
    return slash == std::string::npos ? name : name.substr(slash + 1);
}

Scope scopeOf(const Project& project) {
    std::vector<Finding> findings;
    const auto scale = readScale(project.scale);
    return resolveScope(project, scale ? *scale : 1, findings);
}

} // namespace

std::string nameForLine(const Project& project, int line) {
    const DimensionLine& l = project.lines[static_cast<std::size_t>(line)];
    std::string name;
    for (const char c : lastPart(l.from) + " to " + lastPart(l.to)) {
        const auto u = static_cast<unsigned char>(c);
        name += std::isalnum(u) && u < 128 ? static_cast<char>(std::tolower(u)) : '_';
    }
    if (!isValidName(name)) name = "distance_" + name;
    if (!isValidName(name)) name = "distance";
    std::vector<std::string> taken;
    for (const Dimension& d : project.dimensions) taken.push_back(d.name);
    return freeName(name, taken);
}

Expected<Edit> typedDistance(const Project& project, const Scope& scope, int line, const Text& typed) {
    const DimensionLine& l = project.lines[static_cast<std::size_t>(line)];
    if (!l.drives.empty()) return driveLine(project, line, typed);
    auto driving = makeDriving(project, scope, line, nameForLine(project, line));
    if (!driving) return driving;
    const auto with = driving->apply(project);
    if (!with) return tl::make_unexpected(with.error());
    auto moved = driveLine(*with, line, typed);
    if (!moved) return moved;
    const std::string label = moved->label;
    return chained(label, {std::move(*driving), std::move(*moved)});
}

DimensionStrip::DimensionStrip(BoardDesk* desk, QWidget* parent)
    : QWidget(parent), m_desk(desk), m_heading(new ElidedLabel), m_drives(new QComboBox) {
    setAccessibleName(tr("the chosen dimension line"));
    auto* all = new QHBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(10);
    m_heading->setMinimumWidth(90);
    m_heading->setMaximumWidth(260);
    all->addWidget(m_heading, 1);
    m_distance = new StripEntry("distance", formulaNames(desk->project()));
    explain(m_distance->edit(), "distance",
            "Of the full-size subject, as the figures of its points are; behind it what is built.");
    m_distance->hold(150);
    m_distance->holdBuilt();
    all->addWidget(m_distance);
    auto* word = new QLabel("drives");
    word->setProperty("role", "quiet");
    all->addWidget(word);
    m_drives->setEditable(true);
    m_drives->setMinimumWidth(170);
    m_drives->setInsertPolicy(QComboBox::NoInsert);
    explain(
        m_drives, "Driven dimension",
        "The named dimension that a typed distance changes. Type a new name to make one of this distance.");
    all->addWidget(m_drives);
    all->addStretch(1);
    connect(m_distance, &StripEntry::entered, this, [this] {
        take();
        Q_EMIT done();
    });
    connect(m_distance, &StripEntry::left, this, &DimensionStrip::take);
    connect(m_distance, &StripEntry::givenUp, this, &DimensionStrip::done);
    connect(m_distance, &StripEntry::typed, this,
            [this](const QString& text) { m_distance->tell(readingOf(*m_desk, text, true)); });
    connect(m_drives, &QComboBox::activated, this, [this](int) { takeDriven(m_drives->currentText()); });
    connect(m_drives->lineEdit(), &QLineEdit::returnPressed, this,
            [this] { takeDriven(m_drives->currentText()); });
    connect(desk, &BoardDesk::choiceChanged, this, &DimensionStrip::refresh);
    connect(desk, &BoardDesk::sceneChanged, this, &DimensionStrip::refresh);
    refresh();
}

const BoardDimension* DimensionStrip::line() const {
    for (const BoardElevation& e : m_desk->scene().views)
        for (const BoardDimension& d : e.dimensions)
            if (d.index == m_desk->choice().dimension) return &d;
    return nullptr;
}

void DimensionStrip::refresh() {
    if (!serves()) return;
    const Project& project = m_desk->project();
    const DimensionLine& l = project.lines[static_cast<std::size_t>(m_desk->choice().dimension)];
    m_heading->setText(QString::fromStdString(l.from + " to " + l.to) +
                       (l.along.empty() ? QString() : QString::fromStdString(" · along " + l.along)));
    const BoardDimension* shown = line();
    const BoardScene& scene = m_desk->scene();
    const double scale = scene.scale > 0 ? scene.scale : 1;
    m_distance->show(shown ? QString::fromStdString(printLength(shown->value / scale, scene.units))
                           : QString());
    const QString built = shown ? QString::fromStdString(printLength(shown->value, scene.units)) : QString();
    if (!m_distance->isTyped()) m_distance->tell({built, {}});
    const QSignalBlocker quiet(m_drives);
    if (m_drives->lineEdit()->hasFocus() && m_drives->lineEdit()->isModified()) return; // it is being typed
    m_drives->clear();
    m_drives->addItem(tellsOnly);
    m_drives->addItems(formulaNames(project));
    m_drives->setCurrentText(l.drives.empty() ? tellsOnly : QString::fromStdString(l.drives));
}

void DimensionStrip::take() {
    if (!serves() || !m_distance->isTyped()) return;
    const Text typed = withUnit(m_distance->edit()->text().toStdString(), m_desk->scope().unit);
    if (!m_desk->apply(
            typedDistance(m_desk->project(), scopeOf(m_desk->project()), m_desk->choice().dimension, typed)))
        m_distance->restore();
    refresh();
}

void DimensionStrip::takeDriven(const QString& name) {
    if (!serves()) return;
    const Project& project = m_desk->project();
    const int index = m_desk->choice().dimension;
    const DimensionLine& l = project.lines[static_cast<std::size_t>(index)];
    const std::string wanted = name == tellsOnly ? std::string() : name.trimmed().toStdString();
    if (wanted == l.drives) return;
    bool known = wanted.empty();
    for (const Dimension& d : project.dimensions) known = known || d.name == wanted;
    if (known)
        m_desk->apply(setValue("/dimension_lines/" + std::to_string(index) + "/drives", quotedJson(wanted),
                               "Change what the dimension line drives"));
    else
        m_desk->apply(makeDriving(project, m_desk->scope(), index, wanted));
    m_drives->lineEdit()->setModified(false);
    refresh();
    Q_EMIT done();
}

void DimensionStrip::begin(const QString& typed) {
    m_distance->edit()->setFocus(Qt::ShortcutFocusReason);
    if (!typed.isEmpty()) m_distance->edit()->setText(typed);
}

} // namespace slab::ui
