#include "ui/window/left_column.h"
#include "core/board/mechanism_moves.h"
#include "ui/chosen/mechanism_deeds.h"
#include "ui/session/session.h"
#include "ui/tables/plates_model.h"
#include "ui/tables/plates_table.h"
#include "ui/tables/table_section.h"
#include "ui/tables/table_tree.h"
#include "ui/window/side_column.h"
#include <QHBoxLayout>
#include <QLabel>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>
#include <cstdlib>

namespace slab::ui {

namespace {

std::vector<SectionSpec> specs() {
    return {
        {"Dimensions",
         "Sizes",
         "full size → built",
         {"/dimensions"},
         true,
         "Named sizes; formulas everywhere may use them."},
        {"Forms", "Forms", "", {"/forms"}, true, "The solids that the shell is shaped over."},
        {"Donor and rider",
         "Donor",
         "",
         {"/donor", "/rider", "/passengers", "/clearance"},
         true,
         "The chassis, who sits in it, and how far they stay from the plates."},
        {"Route and ride",
         "Ride",
         "",
         {"/route", "/ride"},
         false,
         "What the finished thing must pass, and how it is to be ridden."},
        {"Stock",
         "Stock",
         "what is in the shed first",
         {"/stock/sheets", "/stock/rounds", "/stock/match", "/stock/kerf", "/stock/margin",
          "/stock/currency"},
         true,
         "Sheets, pipes and tubs that you have or can buy, as measured.",
         true},
        {"Plates and materials", "Plates", "", {"/materials"}, false, "Which sheet each plate is cut from."},
        {"Joints", "Joints", "", {"/joints"}, false, "Which plate covers which where two meet."},
        {"Openings", "Openings", "", {"/openings"}, false, "Holes cut on purpose: exit, sight, hand holes."},
        {"Frames and seams",
         "Frames",
         "",
         {"/frames", "/cleats", "/seams", "/modules", "/passages"},
         false,
         "What holds the plates, splits the large ones, and comes off as one."},
        {"Mechanisms", "Moving", "", {"/mechanisms"}, false, "What turns, elevates, floats or runs round."},
        {"Pictures and dimension lines",
         "Pictures",
         "",
         {"/pictures", "/dimension_lines"},
         false,
         "What lies under the drawing board, and lines that tell a size."},
        {"Document",
         "Document",
         "",
         {"/title", "/units", "/scale", "/paper", "/seed", "/cut", "/pieces"},
         false,
         "Title, units, paper, panels that are cut already."},
    };
}

} // namespace

LeftColumn::LeftColumn(Session* session, QWidget* parent)
    : Card("Design", parent), m_session(session), m_parts(new SideColumn("Design tables", 4, true)) {
    setBare();
    layout()->setContentsMargins(space::inside, 8, 8, 8);
    auto* source = new DocumentSource(session, this);
    for (SectionSpec& spec : specs()) {
        auto* section = new TableSection(source, std::move(spec));
        if (section->spec().name.startsWith("Plates")) {
            auto* plates = m_plates = new PlatesTable(session);
            section->top()->insertWidget(0, plates, 1);
            connect(plates->plates(), &QAbstractItemModel::modelReset, section,
                    [section, plates] { section->setNote(QString::number(plates->plates()->rowCount())); });
        }
        connect(section, &TableSection::formChosen, this, [this](const QString& form) {
            Selection s;
            s.form = form;
            m_session->select(s);
        });
        // What a row of these tables stands for is shown in every view.
        connect(section->tree()->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
                [this, section](const QModelIndex& now) {
                    const Node* node = now.isValid() && section->tree()->hasFocus()
                                           ? section->model()->nodeOf(now)
                                           : nullptr;
                    if (node && !node->absent) showPart(node->pointer());
                });
        // One row is chosen in all tables together.
        connect(section->tree()->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
                [this, section](const QModelIndex& now) {
                    if (!now.isValid()) return;
                    for (TableSection* other : m_sections)
                        if (other != section) other->tree()->clearSelection();
                });
        m_parts->add(section->spec().shortName, section);
        m_sections.push_back(section);
    }
    body()->addWidget(m_parts, 1);
    connect(m_parts, &SideColumn::foldedChanged, this, [this](bool folded) {
        for (TableSection* section : m_sections) section->setAlone(folded);
        // Alone the list of plates scrolls itself; the rules under it are few and stay as high as they are.
        m_plates->setFitting(!folded);
        for (TableSection* section : m_sections)
            if (section->isAncestorOf(m_plates)) section->tree()->setFitting(true);
    });
    const auto named = [this](const char* name) {
        return *std::find_if(m_sections.begin(), m_sections.end(),
                             [&](const TableSection* one) { return one->spec().name == name; });
    };
    TableSection *forms = named("Forms"), *openings = named("Openings"), *moving = named("Mechanisms");
    const auto counts = [this, forms, openings] {
        const Project& p = m_session->project();
        forms->setNote(QString::number(p.forms.size()));
        openings->setNote(QString::number(p.openings.size()));
    };
    connect(session, &Session::projectChanged, this, counts);
    connect(session, &Session::selectionChanged, this, [this, forms, moving] {
        const Selection& s = m_session->selection();
        if (!s.part.isEmpty()) {
            const bool typing = std::any_of(m_sections.begin(), m_sections.end(),
                                            [](const TableSection* one) { return one->tree()->hasFocus(); });
            return typing ? void() : reveal("document:" + s.part);
        }
        if (const std::string own = chosenMechanism(*m_session); !own.empty()) return moving->mark(own);
        if (s.plate.isEmpty() && s.form.isEmpty()) return;
        std::string form = s.form.toStdString();
        for (const char* side : {" port", " starboard"})
            if (form.ends_with(side)) form.resize(form.size() - std::string(side).size());
        const auto& all = m_session->project().forms;
        for (std::size_t i = 0; i < all.size(); ++i)
            if (all[i].name == form || all[i].name == s.form.toStdString())
                forms->mark("/forms/" + std::to_string(i));
    });
    counts();
}

/// An opening, a frame, a seam, a part of the route or a mechanism that is chosen in its table is chosen
/// everywhere.
void LeftColumn::showPart(const std::string& pointer) {
    if (const std::string entry = mechanismOrWheel(m_session->project(), pointer); !entry.empty())
        return m_session->select(mechanismSelection(*m_session, entry));
    for (const char* list : {"/openings/", "/frames/", "/seams/", "/route/"}) {
        if (!pointer.starts_with(list)) continue;
        const std::string head(list);
        const std::string entry = pointer.substr(0, pointer.find('/', head.size()));
        Selection selection;
        selection.part = QString::fromStdString(entry);
        const auto index = static_cast<std::size_t>(std::atoi(entry.c_str() + head.size()));
        const Project& p = m_session->project();
        if (head == "/openings/" && index < p.openings.size())
            selection.plate = QString::fromStdString(p.openings[index].plate);
        if (head == "/seams/" && index < p.seams.size())
            selection.plate = QString::fromStdString(p.seams[index].plate);
        m_session->select(selection);
    }
}

void LeftColumn::setFolded(bool folded) {
    m_parts->setFolded(folded);
}

void LeftColumn::focusTable() {
    for (TableSection* section : m_sections)
        if (section->tree()->isVisible()) {
            section->tree()->setFocus(Qt::ShortcutFocusReason);
            if (!section->tree()->currentIndex().isValid())
                section->tree()->setCurrentIndex(section->model()->index(0, DocumentModel::typed));
            return;
        }
}

void LeftColumn::offer(const std::string& pointer) {
    for (TableSection* section : m_sections) {
        const auto& roots = section->spec().roots;
        if (std::find(roots.begin(), roots.end(), pointer) == roots.end()) continue;
        section->setOpen(true);
        m_parts->reveal(section);
        section->tree()->setCurrentIndex(section->model()->find(pointer));
        section->offerAdd();
        return;
    }
}

void LeftColumn::reveal(const QString& about) {
    const std::string name = about.section(':', 1).toStdString();
    std::string pointer;
    const auto find = [&](const auto& all, const char* list) {
        for (std::size_t i = 0; i < all.size(); ++i)
            if (all[i].name == name) pointer = list + std::to_string(i);
    };
    const Project& p = m_session->project();
    if (about.startsWith("document:")) pointer = name;
    if (about.startsWith("dimension:")) find(p.dimensions, "/dimensions/");
    if (about.startsWith("form:")) find(p.forms, "/forms/");
    if (about.startsWith("opening:")) find(p.openings, "/openings/");
    if (about.startsWith("frame:")) find(p.frames, "/frames/");
    if (about.startsWith("module:")) find(p.modules, "/modules/");
    if (about.startsWith("picture:")) find(p.pictures, "/pictures/");
    if (about.startsWith("line:")) find(p.lines, "/dimension_lines/");
    if (about.startsWith("mechanism:")) {
        find(p.mechanisms.turntables, "/mechanisms/turntables/");
        find(p.mechanisms.trunnions, "/mechanisms/trunnions/");
        find(p.mechanisms.linkages, "/mechanisms/linkages/");
        find(p.mechanisms.belts, "/mechanisms/belts/");
    }
    if (about.startsWith("stock:")) find(p.stock.sheets, "/stock/sheets/");
    if (pointer.empty()) return;
    for (TableSection* section : m_sections) {
        bool here = false;
        for (const std::string& root : section->spec().roots)
            here = here || pointer == root || pointer.starts_with(root + "/");
        if (!here || !section->reveal(pointer)) continue;
        m_parts->reveal(section);
        m_awaited = isVisible() ? QString() : about;
        // Rows have their places a moment after their table is shown.
        QTimer::singleShot(0, section, [this, section] {
            TableTree* tree = section->tree();
            if (!tree->currentIndex().isValid()) return;
            tree->scrollTo(tree->currentIndex());
            m_parts->bringIntoSight(tree->viewport(), tree->visualRect(tree->currentIndex()));
        });
        return;
    }
}

/// What was made while the tables were out of sight is there when they come back.
void LeftColumn::showEvent(QShowEvent* event) {
    Card::showEvent(event);
    if (!m_awaited.isEmpty()) QTimer::singleShot(0, this, [this] { reveal(m_awaited); });
}

} // namespace slab::ui
