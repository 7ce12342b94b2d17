// The whole way from a body to plates.
#include "core/plates/build.h"
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

/// One closed skin on its way to plates.
struct Work {
    Shell shell;
    std::vector<int> hits;                    ///< by opening and round form
    std::vector<int> marks;                   ///< match marks by skin edge
    std::vector<std::vector<Piece>> pieces{}; ///< by the shell's faces
    std::vector<Blank> blanks{};
    std::vector<Finding> findings{};
    explicit Work(const Body& body, const PlateRules& rules, int index) : shell(body, rules, index) {}
};

/// Plates of one face: as many as separate pieces came out. Further pieces take the next free "#n".
void emitFace(Work& work, int f, std::vector<Piece>& pieces, PlateSet& set, std::vector<Built>& built) {
    const Shell& shell = work.shell;
    const SkinFace& face = shell.face(f);
    if (pieces.empty() && shell.present(f) && !shell.openedAway.contains(f))
        work.findings.push_back({Severity::stop,
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
        work.blanks.push_back({set.plates.size(), f, &pieces[i]});
        built.push_back({set.plates.size(), shell.bodyIndex, &shell.planes, {}});
        set.plates.push_back(std::move(plate));
    }
}

void shapeBlank(const Work& work, const Blank& blank, Plate& plate, Built& built) {
    const Shell& shell = work.shell;
    Piece& piece = *blank.piece;
    plate.cells = convexPieces(piece.cells);
    readOutlines(
        plate, piece, shell.planes, shell.skin[at(blank.face)], shell.inner[at(blank.face)].other(),
        [&](const Half& h, const Vec3& p) { return sideLabel(shell, blank.face, work.marks, h, p); });
    plate.solid = std::move(piece.solid);
    built.cells = std::move(piece.cells);
}

/// Up to the cells of every plate before openings are cut; touches nothing but its own skin.
void shareSkin(Work& work, const Job& job) {
    if (job.stopped()) return;
    decideJoints(work.shell);
    makeZones(work.shell, job);
    contest(work.shell, job);
    findGaps(work.shell, job);
}

/// Calls visit(work, i) for every face of every skin, or whatever `count` says there is of it, on all cores.
template <class Count, class Visit>
void eachOf(const std::vector<std::unique_ptr<Work>>& all, Count count, Visit visit) {
    std::vector<std::pair<Work*, std::size_t>> list;
    for (const auto& work : all)
        for (std::size_t i = 0; i < count(*work); ++i) list.emplace_back(work.get(), i);
    shareOut(list.size(), [&](std::size_t k) { visit(*list[k].first, list[k].second); });
}

/// Plates of all skins, in their order, whoever is ready first.
void emitAll(const std::vector<std::unique_ptr<Work>>& all, const Job& job, FreeCount& count, PlateSet& set,
             std::vector<Built>& built) {
    for (const auto& work : all) {
        count.hits.resize(std::max(count.hits.size(), work->hits.size()), 0);
        for (std::size_t i = 0; i < work->hits.size(); ++i) count.hits[i] += work->hits[i];
        work->marks = numberMarks(work->shell, count.mark);
        describeJoints(work->shell, work->marks, set.joints);
        work->pieces.resize(work->shell.faces.size());
    }
    eachOf(
        all, [](const Work& work) { return work.pieces.size(); },
        [&](Work& work, std::size_t i) {
            const Shell& shell = work.shell;
            if (!job.stopped()) work.pieces[i] = assemble(shell.planes, shell.plates[at(shell.faces[i])]);
        });
    for (const auto& work : all)
        for (std::size_t i = 0; i < work->pieces.size() && !job.stopped(); ++i)
            emitFace(*work, work->shell.faces[i], work->pieces[i], set, built);
    eachOf(
        all, [](const Work& work) { return work.blanks.size(); },
        [&](Work& work, std::size_t i) {
            const Blank& blank = work.blanks[i];
            shapeBlank(work, blank, set.plates.own(blank.plate), built[blank.plate]);
        });
    for (const auto& work : all) {
        const Shell& shell = work->shell;
        set.findings.insert(set.findings.end(), work->findings.begin(), work->findings.end());
        checkChoices(shell, set.findings);
        set.findings.insert(set.findings.end(), shell.findings.begin(), shell.findings.end());
        set.gaps.insert(set.gaps.end(), shell.gaps.begin(), shell.gaps.end());
    }
}

} // namespace

} // namespace plates

struct PlateBuild::State {
    const Body& body;
    const PlateRules& rules;
    std::vector<std::unique_ptr<plates::Work>> skins{};
};

PlateBuild::PlateBuild(const Body& body, const PlateRules& rules)
    : m_state(std::make_unique<State>(State{body, rules})) {}
PlateBuild::~PlateBuild() = default;

void PlateBuild::share(const Job& job) {
    const Body& body = m_state->body;
    if (m_state->rules.faces.size() != body.skin.faces.size()) return; // finish() tells it
    auto& skins = m_state->skins;
    for (int b = 0; b < body.skin.bodies; ++b)
        skins.push_back(std::make_unique<plates::Work>(body, m_state->rules, b));
    shareOut(skins.size(), [&](std::size_t i) { plates::shareSkin(*skins[i], job); });
}

PlateSet PlateBuild::finish(const Job& job) {
    using namespace plates;
    const auto& [body, rules, skins] = *m_state;
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
    FreePlates free(body, rules);
    shareOut(skins.size() + free.size(), [&, &all = skins](std::size_t i) {
        if (job.stopped()) return;
        if (i < all.size())
            cutOpenings(all[i]->shell, all[i]->hits);
        else
            free.cutOut(i - all.size());
    });
    FreeCount count{hits, mark};
    emitAll(skins, job, count, set, built);
    free.standOn(set, count, built);
    checkOverlaps(built, set, job);
    if (!job.stopped()) {
        checkOpenings(body, rules, hits, set);
        checkPlates(set);
        joinFolds(set);
    }
    return set;
}

PlateSet buildPlates(const Body& body, const PlateRules& rules, const Job& job) {
    PlateBuild build(body, rules);
    build.share(job);
    return build.finish(job);
}

} // namespace slab
