#include "ui/panels/panel_rows.h"
#include "core/drawing/panel_facts.h"
#include "core/pack/drawings.h"
#include "ui/panels/joint_edits.h"
#include <QCoreApplication>
#include <algorithm>

namespace slab::ui {

namespace {

QString asText(const std::string& s) {
    return QString::fromStdString(s);
}
QString inView(const char* words) {
    return QCoreApplication::translate("PanelView", words);
}

QString sizeWords(const Panel& panel, const UnitStyle& units) {
    if (panel.boundary.outer.empty()) return {};
    const Vec2 size = bounds(panel.boundary.outer).size();
    return asText(printLength(size.x(), units) + " × " + printLength(size.y(), units));
}

std::vector<std::string> arrowsIn(const Session& session, const Panel& panel) {
    const Evaluation& e = session.evaluation();
    return e.panels ? arrowsOf(e, *e.panels, panel) : std::vector<std::string>{};
}

} // namespace

PanelRow PanelRows::rowFor(const Session& session, const Panel& panel) {
    auto& kept = m_kept[panel.name];
    const std::string source = panel.fingerprint + panel.stock;
    if (kept.first != source || kept.second.shape.outer.empty()) {
        kept.second = {};
        kept.second.shape.outer = panel.boundary.outer;
        for (const auto& hole : panel.holes) kept.second.shape.holes.push_back(hole.outer);
        kept.first = source;
    }
    PanelRow row = kept.second;
    row.name = asText(panel.name);
    for (const auto& p : panel.plates) row.plates << asText(p);
    for (const auto& p : panel.cutFrom) row.wholes << asText(p);
    row.copies = static_cast<qsizetype>(panel.copyCount());
    row.size = sizeWords(panel, session.unitStyle());
    row.stock = asText(panel.stock);
    row.hand = panel.mirrorOf.empty() ? QString() : inView("handed");
    if (const auto& stock = session.evaluation().stock) {
        if (const Sheet* sheet = stock->find(panel.stock)) row.kind = asText(sheet->kind);
    }
    if (const auto was = cutFingerprint(session.project(), panel.plates.front())) {
        row.cut = true;
        row.changed = *was != panel.fingerprint;
    }
    return row;
}

std::vector<PanelRow> PanelRows::make(const Session& session) {
    std::vector<PanelRow> out;
    const Evaluation& evaluation = session.evaluation();
    if (evaluation.panels)
        for (const auto& panel : *evaluation.panels) out.push_back(rowFor(session, panel));
    if (!evaluation.body || !evaluation.plates) return out;
    for (const auto& name : leftOutPlates(*evaluation.body, *evaluation.plates)) {
        PanelRow row;
        row.name = asText(name);
        row.plates << row.name;
        const NoPanel why = whyNoPanel(session.project(), name);
        row.leftOut = why == NoPanel::leftOut;
        row.missing = shortly(why);
        out.push_back(std::move(row));
    }
    return out;
}

NoPanel whyNoPanel(const Project& project, const std::string& plate) {
    const auto& rules = project.materials.plates;
    const auto rule = std::find_if(rules.begin(), rules.end(),
                                   [&](const PlateMaterial& r) { return matches(r.plates, plate); });
    if (rule != rules.end() && rule->stock.empty()) return NoPanel::leftOut;
    const std::string& stock = rule == rules.end() ? project.materials.fallback : rule->stock;
    if (stock.empty()) return NoPanel::noSheet;
    const auto& sheets = project.stock.sheets;
    const bool known = std::any_of(sheets.begin(), sheets.end(),
                                   [&](const SheetStock& sheet) { return sheet.name == stock; });
    return known ? NoPanel::notMade : NoPanel::unknownSheet;
}

QString shortly(NoPanel why) {
    switch (why) {
    case NoPanel::leftOut:
        return inView("left out");
    case NoPanel::noSheet:
    case NoPanel::unknownSheet:
        return inView("no sheet yet");
    case NoPanel::notMade:
        break;
    }
    return inView("no panel");
}

QString sentence(NoPanel why, const QString& plate) {
    switch (why) {
    case NoPanel::leftOut:
        return inView("%1 is left out: no panel is cut for it.").arg(plate);
    case NoPanel::noSheet:
        return inView("No sheet is chosen for %1 yet.").arg(plate);
    case NoPanel::unknownSheet:
        return inView("The sheet that %1 is to be cut from is not in the stock.").arg(plate);
    case NoPanel::notMade:
        break;
    }
    return inView("No panel could be made for %1: the punch list says why.").arg(plate);
}

MissingDeed deedFor(NoPanel why, const std::vector<SheetStock>& sheets) {
    if (why == NoPanel::leftOut)
        return {inView("Bring back"),
                inView("Make this plate again, from its material or the default stock")};
    if (why == NoPanel::noSheet && !sheets.empty())
        return {inView("Cut from %1").arg(asText(sheets.front().name)),
                inView("Cut every plate that has no sheet of its own from this one")};
    return {inView("Add a sheet"), inView("Say which sheets you can get: plates are cut from them")};
}

Edit cutAllFrom(const std::string& sheet) {
    return {"Cut from " + sheet, {}, [sheet](const Project& before) -> Expected<Project> {
                Project project = before;
                project.materials.fallback = sheet;
                return project;
            }};
}

std::string arrowFor(const Session& session, const Panel& panel, const std::string& copy) {
    const std::vector<std::string> arrows = arrowsIn(session, panel);
    for (const auto* names : {&panel.cutFrom, &panel.plates})
        for (std::size_t i = 0; i < names->size() && i < arrows.size(); ++i)
            if ((*names)[i] == copy) return arrows[i];
    return {};
}

QString factsOf(const Session& session, const Panel& panel, bool changed) {
    const UnitStyle units = session.unitStyle();
    const Ring& ring = panel.boundary.outer;
    QStringList diagonals;
    for (const auto& [a, b] : checkDiagonals(ring)) {
        const Vec2 across = ring[static_cast<std::size_t>(a)] - ring[static_cast<std::size_t>(b)];
        // A size is not torn apart where the line is folded.
        diagonals << asText(printLength(across.norm(), units)).replace(' ', QChar::Nbsp);
    }
    QStringList facts;
    if (changed) facts << inView("⚠ changed since it was cut");
    if (!diagonals.isEmpty()) facts << inView("diagonals %1").arg(diagonals.join(inView(" and ")));
    facts << asText(printArea(area({ring, {}}), units)).replace(' ', QChar::Nbsp) << asText(panel.stock);
    // Of copies that lie differently each has its own, as on paper.
    if (const auto arrows = arrowsIn(session, panel); !arrows.empty())
        facts << asText(arrowWords(panel, arrows));
    return facts.join(QStringLiteral(" · "));
}

} // namespace slab::ui
