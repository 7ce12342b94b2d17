// The whole way from a body to plates.
#include "core/base/parallel.h"
#include "core/plates/checks.h"
#include "core/plates/cuts.h"
#include "core/plates/folds.h"
#include "core/plates/free_plates.h"
#include "core/plates/labels.h"
#include "core/plates/solid.h"
#include "core/plates/zones.h"
#include <algorithm>
#include <cmath>
#include <memory>

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
    case EdgeRole::seam:
        return "seam";
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

/// A plate that has its name, still without outlines.
struct Blank {
    std::size_t plate; ///< index in the set
    int face;
    Piece* piece;
};

/// Plates of one face: as many as separate pieces came out. Further pieces take the next free "#n".
void emitFace(Shell& shell, int f, std::vector<Piece>& pieces, PlateSet& set, std::vector<Built>& built,
              std::vector<Blank>& blanks) {
    const SkinFace& face = shell.face(f);
    if (pieces.empty() && shell.present(f) && !shell.openedAway.contains(f))
        set.findings.push_back({Severity::stop,
                                "plate-vanishes",
                                face.name + " is used up by its neighbours: nothing of it is left",
                                {"plate:" + face.name},
                                "Use thinner stock, rank it higher, or make the form larger there.",
                                {}});
    const auto taken = [&](const std::string& name) {
        return std::any_of(shell.body.skin.faces.begin(), shell.body.skin.faces.end(),
                           [&](const SkinFace& other) { return other.name == name; });
    };
    const std::string stem = face.name.substr(0, face.name.find('#'));
    int next = 2;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        Plate plate;
        plate.name = face.name;
        while (i > 0 && (plate.name == face.name || taken(plate.name) ||
                         std::any_of(set.plates.begin(), set.plates.end(),
                                     [&](const Plate& p) { return p.name == plate.name; })))
            plate.name = stem + "#" + std::to_string(next++);
        plate.form = face.form;
        plate.face = f;
        plate.stock = shell.rules.faces[at(f)].stock;
        plate.thickness = shell.thickness(f);
        plate.rank = shell.rank(f);
        plate.volume = pieces[i].volume;
        blanks.push_back({set.plates.size(), f, &pieces[i]});
        built.push_back({set.plates.size(), shell.bodyIndex, &shell.planes, pieces[i].cells});
        set.plates.push_back(std::move(plate));
    }
}

void shapeBlank(const Shell& shell, const Blank& blank, const std::vector<int>& marks, Plate& plate) {
    Piece& piece = *blank.piece;
    plate.cells = convexPieces(piece.cells);
    readOutlines(plate, piece, shell.planes, shell.skin[at(blank.face)], shell.inner[at(blank.face)].other(),
                 [&](const Half& h, const Vec3& p) { return sideLabel(shell, blank.face, marks, h, p); });
    plate.solid = std::move(piece.solid);
}

void buildShell(Shell& shell, const Job& job, int& mark, std::vector<int>& hits, PlateSet& set,
                std::vector<Built>& built) {
    decideJoints(shell);
    makeZones(shell, job);
    contest(shell, job);
    findGaps(shell, job);
    std::vector<int> cut;
    cutOpenings(shell, cut);
    hits.resize(cut.size(), 0);
    for (std::size_t i = 0; i < cut.size(); ++i) hits[i] += cut[i];
    const auto marks = numberMarks(shell, mark);
    describeJoints(shell, marks, set.joints);
    std::vector<std::vector<Piece>> pieces(shell.faces.size());
    shareOut(shell.faces.size(), [&](std::size_t i) {
        if (!job.stopped()) pieces[i] = assemble(shell.planes, shell.plates[at(shell.faces[i])]);
    });
    std::vector<Blank> blanks;
    for (std::size_t i = 0; i < pieces.size() && !job.stopped(); ++i)
        emitFace(shell, shell.faces[i], pieces[i], set, built, blanks);
    shareOut(blanks.size(),
             [&](std::size_t i) { shapeBlank(shell, blanks[i], marks, set.plates[blanks[i].plate]); });
    checkChoices(shell, set.findings);
    set.findings.insert(set.findings.end(), shell.findings.begin(), shell.findings.end());
    set.gaps.insert(set.gaps.end(), shell.gaps.begin(), shell.gaps.end());
}

} // namespace

} // namespace plates

PlateSet buildPlates(const Body& body, const PlateRules& rules, const Job& job) {
    using namespace plates;
    PlateSet set;
    if (rules.faces.size() != body.skin.faces.size() || rules.freePlates.size() != body.plates.size()) {
        set.findings.push_back({Severity::stop,
                                "rules-mismatch",
                                "The plate rules are for another body",
                                {},
                                "Resolve the rules again.",
                                {}});
        return set;
    }
    int mark = 1;
    std::vector<int> hits;
    std::vector<Built> built;
    std::vector<std::unique_ptr<Shell>> shells;
    for (int b = 0; b < body.skin.bodies && !job.stopped(); ++b) {
        shells.push_back(std::make_unique<Shell>(body, rules, b));
        buildShell(*shells.back(), job, mark, hits, set, built);
    }
    std::vector<PlaneTable> tables;
    FreeCount count{hits, mark};
    buildFreePlates(body, rules, tables, count, set, built);
    checkOverlaps(built, set, job);
    if (!job.stopped()) {
        checkOpenings(body, rules, hits, set);
        checkPlates(set);
        joinFolds(set);
    }
    return set;
}

} // namespace slab
