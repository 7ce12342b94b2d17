// A skin that is moved equals the skin that is joined anew: on the samples and on random bodies, through
// drags that keep the structure and drags that change it.
#include "core/base/paths.h"
#include "core/body/moved_skin.h"
#include "core/document/file.h"
#include "tests/body/make.h"
#include <filesystem>
#include <set>

using namespace slab;

namespace {

struct Count {
    int steps = 0, followed = 0, toTheBit = 0;
};

/// Loops as sets of corners' places, so that numbering does not matter.
double greatestGap(const Skin& a, const SkinFace& fa, const Skin& b, const SkinFace& fb) {
    double worst = 0;
    for (std::size_t l = 0; l < fa.loops.size(); ++l)
        for (int v : fa.loops[l]) {
            double nearest = 1e9;
            for (const auto& loop : fb.loops)
                for (int w : loop)
                    nearest = std::min(nearest, (a.vertices[static_cast<std::size_t>(v)] -
                                                 b.vertices[static_cast<std::size_t>(w)])
                                                    .norm());
            worst = std::max(worst, nearest);
        }
    return worst;
}

::testing::AssertionResult alike(const Body& quick, const Body& joined) {
    const auto no = [](const std::string& why) { return ::testing::AssertionFailure() << why; };
    if (faceNames(quick.skin) != faceNames(joined.skin)) return no("names differ");
    if (quick.skin.edges.size() != joined.skin.edges.size()) return no("edges differ");
    if (quick.skin.bodies != joined.skin.bodies) return no("bodies differ");
    if (quick.skin.vertices.size() != joined.skin.vertices.size()) return no("corners differ");
    if (report(quick.findings) != report(joined.findings))
        return no("findings differ: " + report(quick.findings) + " not " + report(joined.findings));
    if (std::abs(quick.volume - joined.volume) > 1e-9 * joined.volume) return no("volume differs");
    const double near = 1e-9 * joined.bounds.size().norm();
    for (const SkinFace& f : quick.skin.faces) {
        const SkinFace& g = *face(joined.skin, f.name);
        if (f.form != g.form || f.aliases != g.aliases || f.loops.size() != g.loops.size())
            return no(f.name + ": owner, aliases or holes differ");
        std::size_t cf = 0, cg = 0;
        for (const auto& l : f.loops) cf += l.size();
        for (const auto& l : g.loops) cg += l.size();
        if (cf != cg) return no(f.name + ": corners differ");
        if ((f.plane.normal - g.plane.normal).norm() > 1e-12) return no(f.name + ": plane differs");
        if (const double gap = greatestGap(quick.skin, f, joined.skin, g); gap > near)
            return no(f.name + ": a corner is off by " + std::to_string(gap));
    }
    for (std::size_t i = 0; i < quick.pieces.size(); ++i)
        if (quick.pieces[i].name != joined.pieces[i].name ||
            quick.pieces[i].neighbours != joined.pieces[i].neighbours)
            return no("piece keys differ");
    return ::testing::AssertionSuccess();
}

void compare(const Project& p, JoinMemory& memory, Count& count) {
    const ResolvedForms forms = resolvedAt(p);
    memory.followed = false;
    const Body quick = joinForms(forms, {}, {}, {}, memory);
    ++count.steps;
    if (!memory.followed) return;
    ++count.followed;
    const Body joined = joinForms(forms, {});
    EXPECT_TRUE(alike(quick, joined));
    count.toTheBit += quick == joined ? 1 : 0;
}

/// All lengths that a drag may change.
std::vector<Text*> handles(Project& p) {
    std::vector<Text*> all;
    for (Form& f : p.forms) {
        const auto add = [&](std::vector<OutlinePoint>& points) {
            for (OutlinePoint& o : points)
                for (Text* t : {&o.x, &o.y, &o.z, &o.half_width})
                    if (!t->empty()) all.push_back(t);
        };
        if (auto* s = std::get_if<ProfileShape>(&f.shape)) add(s->outline);
        if (auto* s = std::get_if<FacetShape>(&f.shape)) add(s->corners);
        if (auto* s = std::get_if<TaperShape>(&f.shape)) {
            add(s->base);
            add(s->top);
            all.push_back(&s->base_z);
            all.push_back(&s->top_z);
        }
        if (!f.at.x.empty()) all.push_back(&f.at.x);
    }
    return all;
}

Form taperAt(std::mt19937_64& random, const std::string& name, const Vec3& middle, double size) {
    TaperShape s;
    const int corners = 3 + below(random, 4);
    for (int i = 0; i < corners; ++i) {
        const double a = 6.283185307 * (i + uniform(random, 0, 0.6)) / corners;
        s.base.push_back(planPoint("s" + std::to_string(i), middle.x() + size * std::cos(a),
                                   middle.y() + size * std::sin(a)));
        const double k = uniform(random, 0.6, 1.1);
        s.top.push_back(planPoint("s" + std::to_string(i), middle.x() + k * size * std::cos(a),
                                  middle.y() + k * size * std::sin(a)));
    }
    s.base_z = mm(middle.z() - uniform(random, 0.4, 1) * size);
    s.top_z = mm(middle.z() + uniform(random, 0.4, 1) * size);
    return named(name, s);
}

/// A hull and things on it, in it and beside it; some flush with its deck.
Project randomBody(std::mt19937_64& random) {
    const double w = uniform(random, 500, 900), deck = uniform(random, 1100, 1500);
    Project p = projectOf({profile(
        "hull",
        {sidePoint("keel", 0, 300, w), sidePoint("forefoot", 3000, 300, w),
         sidePoint("bow", uniform(random, 3600, 4200), 700, w / 2), sidePoint("deck", 4600, deck, w / 2),
         sidePoint("well", 2600, deck, w), sidePoint("pit", 2500, uniform(random, 600, 1000), w),
         sidePoint("lip", 1700, uniform(random, 600, 1000), w), sidePoint("transom", 0, deck, w)})});
    const int more = 1 + below(random, 4);
    for (int i = 0; i < more; ++i) {
        Form f = taperAt(random, "t" + std::to_string(i),
                         {uniform(random, 200, 4200), uniform(random, -300, 300), uniform(random, 600, 1600)},
                         uniform(random, 200, 800));
        auto& s = std::get<TaperShape>(f.shape);
        if (below(random, 4) == 0) s.base_z = mm(deck); // stands on the deck
        if (below(random, 4) == 0) s.top = s.base;      // upright
        p.forms.push_back(f);
    }
    if (below(random, 3) == 0)
        p.forms.push_back(boxForm("block", {500, -w, 500}, {1200, w, 1000})); // flush sides
    return p;
}

} // namespace

TEST(MovedSkin, equalsJoinedAgainOnRandomBodies) {
    auto random = seeded(417);
    Count count;
    for (int body = 0; body < 20 / slowdown; ++body) {
        Project p = randomBody(random);
        JoinMemory memory;
        compare(p, memory, count);
        for (int drag = 0; drag < 3; ++drag) {
            const auto all = handles(p);
            Text& handle = *all[static_cast<std::size_t>(below(random, static_cast<int>(all.size())))];
            const double from = *parseLength(handle, Unit::mm), way = uniform(random, -250, 250);
            for (int step = 1; step <= 10; ++step) {
                handle = mm(from + way * step / 10);
                compare(p, memory, count);
                if (HasFailure()) FAIL() << "body " << body << " drag " << drag << " step " << step;
            }
        }
    }
    std::printf("%d steps, %d moved, %d of them equal to the bit\n", count.steps, count.followed,
                count.toTheBit);
    EXPECT_GT(count.followed, count.steps / 2);
}

TEST(MovedSkin, equalsJoinedAgainOnTheSamples) {
    auto random = seeded(5);
    for (const auto& file : std::filesystem::directory_iterator(sampleFolder())) {
        if (file.path().extension() != ".json") continue;
        const auto project = loadProject(file.path());
        ASSERT_TRUE(project) << project.error().message;
        Project p = *project;
        Count count;
        JoinMemory memory;
        compare(p, memory, count);
        for (int drag = 0; drag < 12 / slowdown + 1; ++drag) {
            const auto all = handles(p);
            Text& handle = *all[static_cast<std::size_t>(below(random, static_cast<int>(all.size())))];
            const Text before = handle;
            const double way = uniform(random, -120, 120);
            for (int step = 1; step <= 10; ++step) {
                handle = before + " + " + mm(way * step / 10).replace(0, 0, "");
                compare(p, memory, count);
                if (HasFailure()) FAIL() << file.path().filename() << " " << before << " " << handle;
            }
            handle = before;
        }
        std::printf("%s: %d steps, %d moved, %d of them equal to the bit\n", file.path().filename().c_str(),
                    count.steps, count.followed, count.toTheBit);
        EXPECT_GT(count.followed, count.steps / 2);
    }
}

// A box inside another that grows through its side: new faces, which no moved skin could show.
TEST(MovedSkin, newFacesAreJoined) {
    Project p = projectOf({boxForm("a", {0, 0, 0}, {1000, 1000, 1000}),
                           boxForm("b", {900, 300, 300}, {1200, 600, 600}),
                           boxForm("c", {300, 300, 300}, {600, 600, 600})});
    JoinMemory memory;
    (void)joinForms(resolvedAt(p), {}, {}, {}, memory);
    auto& c = std::get<TaperShape>(p.forms[2].shape);
    c.top_z = mm(900);
    memory.followed = false;
    (void)joinForms(resolvedAt(p), {}, {}, {}, memory);
    EXPECT_TRUE(memory.followed) << "still inside";
    c.top_z = mm(1100);
    memory.followed = false;
    const Body out = joinForms(resolvedAt(p), {}, {}, {}, memory);
    EXPECT_FALSE(memory.followed);
    EXPECT_NEAR(out.volume, 1e9 + 200 * 300 * 300 + 300 * 300 * 100, 1);
    c.top_z = mm(900);
    const Body in = joinForms(resolvedAt(p), {}, {}, {}, memory);
    EXPECT_TRUE(memory.followed) << "the union before is still remembered";
    EXPECT_NEAR(in.volume, 1e9 + 200 * 300 * 300, 1);
}

// Within a micrometre of flush it cannot be told for certain what touches what, so it is joined.
TEST(MovedSkin, nearlyTouchingIsJoined) {
    Project p = projectOf(
        {boxForm("a", {0, 0, 0}, {1000, 1000, 1000}), boxForm("b", {500, 300, 900}, {800, 600, 1200})});
    JoinMemory memory;
    (void)joinForms(resolvedAt(p), {}, {}, {}, memory);
    auto& b = std::get<TaperShape>(p.forms[1].shape);
    for (OutlinePoint* o : {&b.base[1], &b.base[2], &b.top[1], &b.top[2]}) o->x = mm(1000 - 5e-4);
    memory.followed = false;
    (void)joinForms(resolvedAt(p), {}, {}, {}, memory);
    EXPECT_FALSE(memory.followed);
}
