#include "ui/panels/edge_story.h"
#include "ui/panels/joint_edits.h"
#include "ui/theme/theme.h"
#include <QCoreApplication>
#include <algorithm>

namespace slab::ui {

namespace {

QString inQt(const std::string& s) {
    return QString::fromStdString(s);
}
QString tr(const char* words) {
    return QCoreApplication::translate("JointBar", words);
}

bool concerns(const Finding& finding, const std::string& a, const std::string& b) {
    return std::any_of(finding.about.begin(), finding.about.end(), [&](const std::string& about) {
        return about == "edge:" + a + "|" + b || about == "edge:" + b + "|" + a;
    });
}

JointSide sideOf(const Evaluation& evaluation, const Plate& p, const PanelEdge& edge) {
    const Sheet* sheet = evaluation.stock ? evaluation.stock->find(p.stock) : nullptr;
    return {inQt(p.name), p.thickness, edge.offsetOuter, edge.offsetInner,
            Theme::tint(sheet ? inQt(sheet->kind) : QString())};
}

/// The edge of `other` that meets `mine` nearest to a point in body axes.
std::optional<PanelEdge> otherEdge(const Plate& other, const std::string& mine, const Vec3& middle) {
    std::optional<PanelEdge> best;
    double least = 1e300;
    const auto& boundary = other.boundary;
    for (std::size_t i = 0; i < boundary.edges.size() && i < boundary.outer.size(); ++i) {
        if (boundary.edges[i].neighbour != mine) continue;
        const Vec2 at = (boundary.outer[i] + boundary.outer[(i + 1) % boundary.outer.size()]) / 2;
        const double away = (other.frame.toBody(at) - middle).norm();
        if (away < least) least = away, best = boundary.edges[i];
    }
    return best;
}

QString noChoice(const PanelEdge& edge) {
    return edge.role == EdgeRole::rests
               ? tr("This plate stands on the other one's outside; there is nothing to choose.")
               : tr("These two plates share no edge of the skin, so there is nothing to choose.");
}

} // namespace

const Plate* findPlate(const Evaluation& evaluation, const std::string& name) {
    if (!evaluation.plates) return nullptr;
    const auto& all = evaluation.plates->plates;
    const auto it = std::find_if(all.begin(), all.end(), [&](const Plate& p) { return p.name == name; });
    return it == all.end() ? nullptr : &*it;
}

std::optional<EdgeStory> edgeStory(const Evaluation& evaluation, const Project& project,
                                   const std::string& plate, const std::vector<PanelEdge>& edges, int edge) {
    const Plate* mine = findPlate(evaluation, plate);
    const auto i = static_cast<std::size_t>(edge);
    if (!mine || edge < 0 || i >= edges.size() || i >= mine->boundary.outer.size()) return std::nullopt;
    EdgeStory out;
    out.plate = inQt(plate);
    out.edge = edges[i];
    out.neighbour = inQt(out.edge.neighbour);
    out.units = evaluation.units;
    out.mine = sideOf(evaluation, *mine, out.edge);
    if (out.edge.neighbour.empty()) {
        out.why = tr("Nothing meets this plate here.");
        return out;
    }
    const Ring& ring = mine->boundary.outer;
    const Vec3 middle = mine->frame.toBody(Vec2((ring[i] + ring[(i + 1) % ring.size()]) / 2));
    const JointInfo* joint = jointAt(*evaluation.plates, plate, out.edge.neighbour, middle);
    out.joint = joint != nullptr;
    out.forced = hasOverride(project, plate, out.edge.neighbour);
    out.why = joint ? inQt(joint->why) : noChoice(out.edge);
    if (const Plate* other = findPlate(evaluation, out.edge.neighbour)) {
        if (const auto theirs = otherEdge(*other, plate, middle))
            out.other = sideOf(evaluation, *other, *theirs);
    }
    for (const auto& finding : evaluation.findings) {
        if (!concerns(finding, plate, out.edge.neighbour)) continue;
        out.trouble = inQt(finding.message);
        out.remedy = inQt(finding.remedy);
        break;
    }
    return out;
}

} // namespace slab::ui
