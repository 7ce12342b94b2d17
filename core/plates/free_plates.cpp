#include "core/plates/free_plates.h"
#include "core/base/index.h"
#include "core/base/parallel.h"
#include "core/plates/contacts.h"
#include "core/plates/cuts.h"
#include "core/plates/feet.h"
#include "core/plates/outline.h"
#include "core/plates/prisms.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

bool usable(const FreePlate& form, std::vector<Finding>& findings) {
    if (form.outline.outer.size() >= 3 && signedArea(form.outline.outer) > 1e-6 &&
        isSimple(form.outline.outer))
        return true;
    findings.push_back({Severity::stop,
                        "plate-outline",
                        form.name + " has an outline that crosses itself or has no area",
                        {"form:" + form.form},
                        "Correct the outline's points.",
                        {}});
    return false;
}

} // namespace

/// A plate form on its way through the feet it is given.
struct MadePlate {
    bool there = false; ///< anything is left of it
    std::size_t form = 0;
    const FaceChoice* choice = nullptr;
    PlaneTable planes;
    Cells cells;
    std::vector<Foot> feet;
    Plate plate;
    std::vector<FootFace> footFaces;
    std::vector<int> hits;
    std::vector<Finding> findings;
};

namespace {

/// The foot that a side in its plane belongs to, by where a point of the side lies along the edge; -1 = none.
int footAt(const MadePlate& made, const FreePlate& form, const Half& half, const Vec3& point) {
    int best = -1;
    double least = 1;
    for (std::size_t i = 0; i < made.feet.size(); ++i) {
        if (!(made.feet[i].half == half)) continue;
        const EdgeLine e = edgeLine(form, made.choice->thickness, made.feet[i].ring, made.feet[i].edge);
        const double s = e.along.dot(point - e.a) / e.length;
        const double off = std::max({0.0, -s, s - 1}) * e.length;
        if (off >= least) continue;
        least = off;
        best = static_cast<int>(i);
    }
    return best;
}

SideLabel footLabel(const MadePlate& made, const FreePlate& form, int foot) {
    const Foot& f = made.feet[at(foot)];
    const EdgeLine e = edgeLine(form, made.choice->thickness, f.ring, f.edge);
    SideLabel label;
    label.neighbour = f.host;
    label.role = EdgeRole::rests;
    label.dihedral = std::acos(std::clamp(f.face.normal.dot(form.frame.axes.col(2)), -1.0, 1.0));
    label.mark = -1 - foot; // numbered by describeContacts()
    label.hasEdge = true;
    label.onEdge = e.a;
    label.inward = -e.out;
    return label;
}

void readFootFaces(MadePlate& made, const FreePlate& form, const Piece& piece) {
    made.footFaces.clear();
    for (std::size_t f = 0; f < piece.halves.size(); ++f) {
        const auto& loops = piece.solid.faces[f].loops;
        if (loops.empty()) continue;
        Vec3 middle = Vec3::Zero();
        for (const int v : loops.front()) middle += piece.solid.vertices[at(v)];
        const int foot =
            footAt(made, form, piece.halves[f], middle / static_cast<double>(loops.front().size()));
        if (foot < 0) continue;
        const auto same = [&](const FootFace& known) { return known.foot == foot + 1; };
        auto known = std::find_if(made.footFaces.begin(), made.footFaces.end(), same);
        if (known == made.footFaces.end())
            known = made.footFaces.insert(known, {0, foot + 1, made.feet[at(foot)].face, {}});
        for (const auto& loop : loops) {
            auto& points = known->loops.emplace_back();
            for (const int v : loop) points.push_back(piece.solid.vertices[at(v)]);
        }
    }
    std::sort(made.footFaces.begin(), made.footFaces.end(),
              [](const FootFace& l, const FootFace& r) { return l.foot < r.foot; });
}

/// @return false if nothing is left
bool make(MadePlate& made, const Body& body, const PlateRules& rules) {
    const FreePlate& form = body.plates[made.form];
    const double thickness = made.choice->thickness;
    made.planes = PlaneTable(form.frame.origin, slab::bounds(form.outline.outer).size().norm() + thickness);
    made.hits.clear();
    made.findings.clear();
    Half outer, inner;
    made.cells = prisms(made.planes, form.frame, form.outline, thickness, outer, inner);
    cutFeet(made.planes, made.cells, form, thickness, made.feet);
    Walls walls;
    cutPlate({made.planes, made.cells, walls, form.name, outer, thickness}, body, rules, made.hits,
             made.findings);
    const auto pieces = assemble(made.planes, made.cells);
    if (pieces.empty()) return false;
    Plate& plate = made.plate;
    plate = {};
    plate.name = form.name;
    plate.form = form.form;
    plate.stock = made.choice->stock;
    plate.thickness = thickness;
    plate.rank = made.choice->rank;
    plate.volume = pieces.front().volume;
    readOutlines(plate, pieces.front(), made.planes, outer, inner, [&](const Half& half, const Vec3& point) {
        SideLabel label;
        if (const std::string* opening = openingAt(walls, half.plane, point))
            label.opening = *opening;
        else if (const int foot = footAt(made, form, half, point); foot >= 0)
            label = footLabel(made, form, foot);
        return label;
    });
    readFootFaces(made, form, pieces.front());
    plate.solid = pieces.front().solid;
    for (const Cell& c : made.cells) plate.cells.push_back({ConvexSolid::Kind::hull, c.vertices, 0});
    return true;
}

/// Cuts the feet of one kind.
void stand(std::vector<MadePlate>& all, const Body& body, const PlateRules& rules, Stand kind,
           PlateSet& set) {
    if (all.empty()) return;
    std::vector<Standing> standing;
    for (const MadePlate& made : all)
        standing.push_back(
            {&body.plates[made.form], made.choice->thickness, made.choice->rank, &made.plate, made.feet});
    findFeet(standing, set.plates, kind, set.findings);
    shareOut(all.size(), [&](std::size_t i) {
        if (standing[i].feet.size() == all[i].feet.size()) return;
        MadePlate square = all[i];
        all[i].feet = std::move(standing[i].feet);
        if (!make(all[i], body, rules)) all[i] = std::move(square);
    });
}

} // namespace

FreePlates::FreePlates(const Body& body, const PlateRules& rules) : m_body(body), m_rules(rules) {
    for (std::size_t i = 0; i < body.plates.size() && i < rules.freePlates.size(); ++i) {
        const FaceChoice& choice = rules.freePlates[i];
        if (choice.stock.empty() || !(choice.thickness > 0) || !usable(body.plates[i], m_findings)) continue;
        MadePlate& made = m_all.emplace_back();
        made.form = i;
        made.choice = &choice;
    }
}

FreePlates::~FreePlates() = default;

std::size_t FreePlates::size() const {
    return m_all.size();
}

void FreePlates::cutOut(std::size_t index) {
    m_all[index].there = make(m_all[index], m_body, m_rules);
}

void FreePlates::standOn(PlateSet& set, FreeCount& count, std::vector<Built>& built) {
    const std::size_t first = set.plates.size();
    const auto take = [&](const MadePlate& made) {
        count.hits.resize(std::max(count.hits.size(), made.hits.size()), 0);
        for (std::size_t k = 0; k < made.hits.size(); ++k) count.hits[k] += made.hits[k];
        set.findings.insert(set.findings.end(), made.findings.begin(), made.findings.end());
    };
    set.findings.insert(set.findings.end(), m_findings.begin(), m_findings.end());
    for (const MadePlate& made : m_all)
        if (!made.there) take(made);
    std::erase_if(m_all, [](const MadePlate& made) { return !made.there; });
    stand(m_all, m_body, m_rules, Stand::on, set);
    stand(m_all, m_body, m_rules, Stand::through, set);
    std::vector<FootFace> feet;
    for (MadePlate& made : m_all) {
        take(made);
        for (FootFace& foot : made.footFaces) {
            foot.plate = set.plates.size();
            feet.push_back(std::move(foot));
        }
        built.push_back(
            {set.plates.size(), -1 - static_cast<int>(made.form), &made.planes, std::move(made.cells)});
        set.plates.push_back(std::move(made.plate));
    }
    describeContacts(set, first, feet, count.mark);
}

} // namespace slab::plates
