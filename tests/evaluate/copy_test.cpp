// Forms that are pasted into an empty document make the same plates as where they come from.
#include "core/document/copy.h"
#include "tests/evaluate/random_edits.h"
#include "tests/evaluate/samples.h"
#include "tests/geometry/seed.h"

using namespace slab;
using namespace slab::test;

namespace {

/// An empty document at the same scale, in other units.
Project emptyLike(const Project& project) {
    Project into;
    into.scale = project.scale;
    into.units = project.units == "mm" ? "in" : "mm";
    return into;
}

std::vector<std::string> allForms(const Project& project) {
    std::vector<std::string> names;
    for (const Form& form : project.forms) names.push_back(form.name);
    return names;
}

double farthest(const Ring& a, const Ring& b) {
    if (a.size() != b.size()) return 1e9;
    double most = 0;
    for (std::size_t i = 0; i < a.size(); ++i) most = std::max(most, (a[i] - b[i]).norm());
    return most;
}

void expectSamePlates(const PlateSet& a, const PlateSet& b, const std::string& what) {
    ASSERT_EQ(a.plates.size(), b.plates.size()) << what;
    for (std::size_t i = 0; i < a.plates.size(); ++i) {
        const Plate &p = a.plates[i], &q = b.plates[i];
        EXPECT_EQ(p.name, q.name) << what;
        EXPECT_EQ(p.stock, q.stock) << what << " " << p.name;
        EXPECT_NEAR(p.thickness, q.thickness, 1e-9) << what << " " << p.name;
        EXPECT_LT(farthest(p.boundary.outer, q.boundary.outer), 1e-6) << what << " " << p.name;
        EXPECT_LT(farthest(p.boundary.inner, q.boundary.inner), 1e-6) << what << " " << p.name;
        ASSERT_EQ(p.holes.size(), q.holes.size()) << what << " " << p.name;
        for (std::size_t h = 0; h < p.holes.size(); ++h)
            EXPECT_LT(farthest(p.holes[h].outer, q.holes[h].outer), 1e-6) << what << " " << p.name;
    }
}

/// The shell alone: parts of mechanisms and frames are no forms, and an opening that is limited to no plate
/// belongs to none.
Project bare(Project project) {
    std::erase_if(project.openings, [](const Opening& o) { return o.plate.empty() && o.plates.empty(); });
    project.mechanisms = {};
    project.frames.clear();
    project.cleats.clear();
    return project;
}

} // namespace

TEST(CopiedForms, OfTheSamplesMakeTheSamePlates) {
    for (const char* name : {"harbour-fire-boat", "moon-crawler", "harbour-tram"}) {
        Project from = bare(sample(name));
        const auto text = copyForms(from, allForms(from));
        ASSERT_TRUE(text.has_value());
        const Project to = edited(emptyLike(from), pasteForms(*text));
        expectSamePlates(*evaluated(from).plates, *evaluated(to).plates, name);
    }
}

TEST(CopiedForms, OneFormMakesThePlatesThatItMakesAlone) {
    Project from = bare(sample("harbour-fire-boat"));
    for (const Form& form : from.forms) {
        const auto text = copyForms(from, {form.name});
        ASSERT_TRUE(text.has_value());
        Project alone = from;
        std::erase_if(alone.forms, [&](const Form& f) { return f.name != form.name; });
        const auto own = [&](const std::string& plate) {
            return plate.starts_with(form.name + "/") || plate.starts_with(form.name + " ");
        };
        std::erase_if(alone.openings, [&](const Opening& o) {
            if (!o.plate.empty()) return !own(o.plate);
            return o.plates.empty() || !std::all_of(o.plates.begin(), o.plates.end(), own);
        });
        const Project to = edited(emptyLike(from), pasteForms(*text));
        expectSamePlates(*evaluated(alone).plates, *evaluated(to).plates, form.name);
    }
}

TEST(CopiedForms, OfRandomBodiesMakeTheSamePlates) {
    const std::uint64_t first = seed(79000);
    int compared = 0;
    for (int round = 0; round < 24 / slowdown; ++round) {
        RandomEdits hand(first + static_cast<std::uint64_t>(round));
        History history(hand.start());
        for (int i = 0; i < 8; ++i) (void)history.push(hand.next(history.current()));
        Project from = bare(history.current());
        // A sheet that is missing or cannot be read is not brought along: the plates are drawn in another
        // then.
        bool sound = !from.forms.empty() && parseRatio(from.scale).has_value();
        for (const Finding& f : evaluated(from).findings)
            sound = sound && f.code != "unknown-stock" && !f.code.starts_with("stock-t") &&
                    f.code != "no-material";
        if (!sound) continue;
        const auto text = copyForms(from, allForms(from));
        ASSERT_TRUE(text.has_value());
        const Project to = edited(emptyLike(from), pasteForms(*text));
        expectSamePlates(*evaluated(from).plates, *evaluated(to).plates, "round " + std::to_string(round));
        ++compared;
    }
    EXPECT_GT(compared, 8 / slowdown);
}
