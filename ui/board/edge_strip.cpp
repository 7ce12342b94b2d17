#include "ui/board/edge_strip.h"
#include "ui/board/curve_edits.h"
#include "ui/paint/flow_layout.h"
#include "ui/tables/table_edits.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>
#include <nlohmann/json.hpp>

namespace slab::ui {

namespace {

struct KindWord {
    const char* label;
    const char* tip;
    std::optional<CurveKind> kind;
};

const std::vector<KindWord>& kindWords() {
    static const std::vector<KindWord> words{
        {"Straight", "One flat from point to point.", std::nullopt},
        {"Arc", "Part of a circle: drag the round handle, or type its bulge.", CurveKind::arc},
        {"Ellipse", "Part of an ellipse: drag the handle where its end tangents meet.", CurveKind::ellipse},
        {"Spline", "A free curve through points: drag the round handles.", CurveKind::spline}};
    return words;
}

QString textOf(const Project& project, const std::string& pointer) {
    const auto json = valueAt(project, pointer);
    if (!json) return {};
    const auto value = nlohmann::json::parse(*json, nullptr, false);
    if (value.is_number()) return QString::fromStdString(value.dump()); // a plain count
    return value.is_string() ? QString::fromStdString(value.get<std::string>()) : QString();
}

} // namespace

EdgeStrip::EdgeStrip(BoardDesk* desk, QWidget* parent)
    : QWidget(parent), m_desk(desk), m_heading(new ElidedLabel), m_deviation(new QLabel) {
    setAccessibleName(tr("the chosen edge"));
    auto* all = new QHBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(10);
    m_heading->setMinimumWidth(90);
    m_heading->setMaximumWidth(190);
    all->addWidget(m_heading, 1);
    auto* rest = new QWidget;
    auto* row = new FlowLayout(nullptr, 6, 4);
    rest->setLayout(row);
    all->addWidget(rest, 5);
    for (const KindWord& word : kindWords()) {
        auto* button = new QToolButton;
        button->setText(word.label);
        button->setCheckable(true);
        explain(button, QString("%1 edge").arg(word.label), word.tip);
        connect(button, &QToolButton::clicked, this, [this, kind = word.kind] { bend(kind); });
        row->addWidget(button);
        m_kinds.push_back(button);
    }
    m_bulge = entry("bulge", "bulge");
    m_facets = entry("flats", "facets");
    m_facets->hold(52);
    m_tolerance = entry("or within", "tolerance");
    for (StripEntry* one : {m_bulge, m_tolerance}) one->hold(112), one->holdBuilt();
    for (StripEntry* one : {m_bulge, m_facets, m_tolerance}) row->addWidget(one);
    m_deviation->setFont(Theme::words(12));
    m_deviation->setProperty("role", "quiet");
    row->addWidget(m_deviation);
    connect(desk, &BoardDesk::choiceChanged, this, &EdgeStrip::refresh);
    connect(desk, &BoardDesk::sceneChanged, this, &EdgeStrip::refresh);
    refresh();
}

StripEntry* EdgeStrip::entry(const QString& label, const char* key) {
    auto* one = new StripEntry(label, formulaNames(m_desk->project()));
    connect(one, &StripEntry::entered, this, [this, one, key] {
        take(one, key);
        Q_EMIT done();
    });
    connect(one, &StripEntry::left, this, [this, one, key] { take(one, key); });
    connect(one, &StripEntry::givenUp, this, &EdgeStrip::done);
    return one;
}

bool EdgeStrip::serves() const {
    const BoardChoice& choice = m_desk->choice();
    return choice.points.empty() && choice.edges.size() == 1;
}

const BoardEdge* EdgeStrip::edge() const {
    if (!serves()) return nullptr;
    for (const BoardEdge& e : m_desk->scene().of(m_desk->choice().view).edges)
        if (e.pointer == m_desk->choice().edges.front() && !e.mirrored) return &e;
    return nullptr;
}

std::string EdgeStrip::curve() const {
    return serves() ? curvePointer(m_desk->project(), m_desk->choice().edges.front()) : std::string();
}

void EdgeStrip::refresh() {
    const BoardEdge* e = edge();
    if (!e) return;
    m_heading->setText(QString::fromStdString(e->name));
    const std::string pointer = m_desk->choice().edges.front();
    const auto kind = curveKind(m_desk->project(), pointer);
    for (std::size_t i = 0; i < m_kinds.size(); ++i) m_kinds[i]->setChecked(kindWords()[i].kind == kind);
    const std::string at = curve();
    m_bulge->setVisible(kind == CurveKind::arc);
    m_facets->setVisible(kind.has_value());
    m_tolerance->setVisible(kind.has_value());
    m_deviation->setVisible(kind.has_value());
    if (!kind) return;
    const auto show = [&](StripEntry* one, const char* key, bool length) {
        const QString text = textOf(m_desk->project(), at + "/" + key);
        one->show(text);
        if (!one->isTyped() && length) one->tell(readingOf(*m_desk, text, true));
    };
    show(m_bulge, "bulge", true);
    show(m_facets, "facets", false);
    show(m_tolerance, "tolerance", true);
    const QString flats = e->facets.size() > 1 ? QString("%1 flats, ").arg(e->facets.size() - 1) : QString();
    m_deviation->setText(flats + "off the curve by at most " +
                         QString::fromStdString(printFine(deviationOf(*e), m_desk->scene().units)));
}

void EdgeStrip::bend(std::optional<CurveKind> kind) {
    if (!serves()) return;
    const std::string pointer = m_desk->choice().edges.front();
    if (curveKind(m_desk->project(), pointer) != kind)
        m_desk->apply(bendEdge(m_desk->project(), m_desk->scope(), pointer, kind));
    refresh();
}

void EdgeStrip::take(StripEntry* one, const char* key) {
    const std::string at = curve();
    if (!one->isTyped() || at.empty()) return;
    StripField field;
    field.pointers = {at + "/" + key};
    // A count and a greatest deviation cannot both hold: the one typed last does.
    const std::string other = one == m_facets ? "tolerance" : one == m_tolerance ? "facets" : "";
    std::vector<Edit> edits{typedInto(*m_desk->session(), field, one->edit()->text())};
    if (!other.empty() && !one->edit()->text().isEmpty()) edits.push_back(setValue(at + "/" + other, "\"\""));
    const std::string label = edits.front().label;
    if (!m_desk->apply(chained(label, std::move(edits)))) one->restore();
    refresh();
}

void EdgeStrip::begin(const QString& typed) {
    StripEntry* first = m_bulge->isVisible() ? m_bulge : m_facets->isVisible() ? m_facets : nullptr;
    if (!first) {
        m_kinds.front()->setFocus(Qt::ShortcutFocusReason);
        return;
    }
    first->edit()->setFocus(Qt::ShortcutFocusReason);
    if (!typed.isEmpty()) first->edit()->setText(typed);
}

} // namespace slab::ui
