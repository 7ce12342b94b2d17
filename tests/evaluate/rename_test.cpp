// Renaming everything in a document changes names and nothing else.
#include "tests/evaluate/samples.h"
#include <algorithm>
#include <nlohmann/json.hpp>

using namespace slab;
using namespace slab::test;
using nlohmann::json;

namespace {

/// Places of everything that has a name of its own, in the document as it is.
std::vector<std::string> namedPlaces(const Project& project) {
    std::vector<std::string> places;
    const json document = json::parse(writeProject(project));
    const auto add = [&](const std::string& list) {
        const json::json_pointer at(list);
        if (!document.contains(at)) return;
        for (std::size_t i = 0; i < document[at].size(); ++i)
            places.push_back(list + "/" + std::to_string(i));
    };
    add("/dimensions");
    add("/stock/sheets");
    add("/openings");
    add("/donor/solids");
    add("/mechanisms/turntables");
    for (std::size_t b = 0; b < project.mechanisms.belts.size(); ++b)
        add("/mechanisms/belts/" + std::to_string(b) + "/wheels");
    for (std::size_t f = 0; f < project.forms.size(); ++f)
        for (const char* list : {"/outline", "/base", "/top", "/corners", "/faces"})
            add("/forms/" + std::to_string(f) + list);
    add("/forms");
    return places;
}

/// Boards and parts of trunnions and belts go on under their names, which stay.
bool keepsName(const Project& project, const Plate& plate) {
    const auto named = [&](const auto& list) {
        return std::any_of(list.begin(), list.end(), [&](const auto& m) { return m.name == plate.form; });
    };
    return plate.name.rfind("frames/", 0) == 0 || named(project.mechanisms.trunnions) ||
           named(project.mechanisms.belts);
}

void expectSameButForNames(const Project& project, const Evaluation& a, const Evaluation& b) {
    ASSERT_TRUE(a.plates && b.plates && a.panels && b.panels);
    EXPECT_EQ(a.body->volume, b.body->volume);
    ASSERT_EQ(a.plates->plates.size(), b.plates->plates.size());
    for (std::size_t i = 0; i < a.plates->plates.size(); ++i) {
        const Plate &p = a.plates->plates[i], &q = b.plates->plates[i];
        EXPECT_EQ(p.name == q.name, keepsName(project, p)) << p.name << " " << q.name;
        EXPECT_EQ(p.thickness, q.thickness) << p.name << " " << q.name;
        EXPECT_EQ(p.volume, q.volume) << p.name << " " << q.name;
        EXPECT_EQ(p.boundary.outer, q.boundary.outer) << p.name << " " << q.name;
        EXPECT_EQ(p.boundary.inner, q.boundary.inner) << p.name << " " << q.name;
        EXPECT_EQ(p.holes.size(), q.holes.size()) << p.name << " " << q.name;
    }
    ASSERT_EQ(a.plates->joints.size(), b.plates->joints.size());
    for (std::size_t i = 0; i < a.plates->joints.size(); ++i)
        EXPECT_EQ(a.plates->joints[i].kind, b.plates->joints[i].kind) << a.plates->joints[i].a;
    EXPECT_EQ(a.panels->size(), b.panels->size());
    EXPECT_EQ(a.fit->leastClearance, b.fit->leastClearance);
    EXPECT_EQ(a.totals.cost, b.totals.cost);
    ASSERT_EQ(a.findings.size(), b.findings.size());
    for (std::size_t i = 0; i < a.findings.size(); ++i) EXPECT_EQ(a.findings[i].code, b.findings[i].code);
}

} // namespace

TEST(RenameEverything, LeavesTheEvaluationAsItIs) {
    for (const char* name : {"harbour-fire-boat", "moon-crawler", "harbour-tram"}) {
        const Project before = sample(name);
        Project after = before;
        int number = 0;
        for (const std::string& place : namedPlaces(before))
            after = edited(after, renameAt(place, "renamed_" + std::to_string(++number)));
        EXPECT_GT(number, 20) << name;
        expectSameButForNames(before, evaluated(before), evaluated(after));
    }
}

TEST(RenameEverything, OneNameAtATimeEither) {
    const Project before = sample("harbour-fire-boat");
    Evaluator evaluator;
    const Evaluation a = evaluator.evaluate(before, Effort::live);
    for (const std::string& place : namedPlaces(before)) {
        const Evaluation b = evaluator.evaluate(edited(before, renameAt(place, "renamed")), Effort::live);
        ASSERT_EQ(a.plates->plates.size(), b.plates->plates.size()) << place;
        for (std::size_t i = 0; i < a.plates->plates.size(); ++i)
            EXPECT_EQ(a.plates->plates[i].boundary.outer, b.plates->plates[i].boundary.outer) << place;
        ASSERT_EQ(a.findings.size(), b.findings.size()) << place;
        for (std::size_t i = 0; i < a.findings.size(); ++i)
            EXPECT_EQ(a.findings[i].code, b.findings[i].code) << place;
    }
}
