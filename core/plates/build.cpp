// The whole way from a body to plates.
#include "core/plates/labels.h"
#include "core/plates/solid.h"
#include "core/plates/zones.h"
#include <algorithm>
#include <cmath>

namespace slab {

const char* roleName(EdgeRole role) {
    switch (role) {
    case EdgeRole::covers:
        return "covers";
    case EdgeRole::butts:
        return "butts";
    case EdgeRole::mitre:
        return "mitre";
    case EdgeRole::fold:
        return "fold";
    case EdgeRole::open:
        return "open";
    case EdgeRole::rests:
        return "rests";
    case EdgeRole::cut:
        return "cut";
    }
    return "cut";
}

namespace plates {

namespace {

std::vector<ConvexSolid> convexPieces(const Cells& cells) {
    std::vector<ConvexSolid> out;
    for (const Cell& c : cells) out.push_back({ConvexSolid::Kind::hull, c.vertices, 0});
    return out;
}

/// Plates of one face: as many as separate pieces came out.
void emitFace(Shell& shell, int f, const std::vector<int>& marks, PlateSet& set) {
    const auto pieces = assemble(shell.planes, shell.plates[at(f)]);
    const SkinFace& face = shell.face(f);
    if (pieces.empty() && shell.present(f))
        set.findings.push_back({Severity::stop,
                                "plate-vanishes",
                                face.name + " is used up by its neighbours: nothing of it is left",
                                {"plate:" + face.name},
                                "Use thinner stock, rank it higher, or make the form larger there.",
                                {}});
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        Plate plate;
        plate.name = i == 0 ? face.name : face.name + "#" + std::to_string(i + 1);
        plate.form = face.form;
        plate.face = f;
        plate.stock = shell.rules.faces[at(f)].stock;
        plate.thickness = shell.thickness(f);
        plate.rank = shell.rank(f);
        plate.volume = pieces[i].volume;
        plate.cells = convexPieces(pieces[i].cells);
        readOutlines(plate, pieces[i], shell.planes, shell.skin[at(f)], shell.inner[at(f)].other(),
                     [&](const Half& h, const Vec3& p) { return sideLabel(shell, f, marks, h, p); });
        plate.solid = pieces[i].solid;
        set.plates.push_back(std::move(plate));
    }
}

} // namespace

} // namespace plates

PlateSet buildPlates(const Body& body, const PlateRules& rules, const Job& job) {
    using namespace plates;
    PlateSet set;
    if (rules.faces.size() != body.skin.faces.size()) {
        set.findings.push_back(
            {Severity::stop, "rules-mismatch", "The plate rules are for another body", {}, "", {}});
        return set;
    }
    int mark = 1;
    for (int b = 0; b < body.skin.bodies && !job.stopped(); ++b) {
        Shell shell(body, rules, b);
        decideJoints(shell);
        makeZones(shell, job);
        contest(shell, job);
        findGaps(shell, job);
        const auto marks = numberMarks(shell, mark);
        describeJoints(shell, marks, set.joints);
        for (const int f : shell.faces) {
            if (job.stopped()) break;
            emitFace(shell, f, marks, set);
        }
        set.findings.insert(set.findings.end(), shell.findings.begin(), shell.findings.end());
        set.gaps.insert(set.gaps.end(), shell.gaps.begin(), shell.gaps.end());
    }
    return set;
}

} // namespace slab
