// Each finding code has a document that causes it and one where its remedy removes it. Cases set values by
// JSON pointer in one small sound document; a scan of the sources fails for a code without a case.
#include "core/route/accessibility.h"
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include <filesystem>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

using namespace slab;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

const fs::path folder = fs::path(SLABSIDE_SOURCE_DIR) / "tests" / "evaluate" / "findings";

const json& cases() {
    static const json all = json::parse(textOf(folder / "cases.json"));
    return all;
}

std::vector<Finding> findingsOf(const json& document, const std::string& what) {
    const auto project = readProject(document.dump());
    if (!project) {
        ADD_FAILURE() << what << ": " << project.error().message << " at " << project.error().where;
        return {};
    }
    Evaluator evaluator;
    return evaluator.evaluate(*project, Effort::full, 0, {}, readPictureFiles(*project, folder)).findings;
}

/// {"/pointer": value, …}; "-" appends.
void change(json& document, const json& values) {
    for (const auto& [pointer, value] : values.items()) document[json::json_pointer(pointer)] = value;
}

const Finding* find(const std::vector<Finding>& all, const std::string& code) {
    for (const Finding& f : all)
        if (f.code == code) return &f;
    return nullptr;
}

std::string list(const std::vector<Finding>& all) {
    std::string text;
    for (const Finding& f : all) text += "\n  " + f.code + ": " + f.message;
    return text;
}

class FindingCase : public testing::TestWithParam<std::size_t> {};

} // namespace

TEST(Findings, TheBaseDocumentIsSound) {
    const auto found = findingsOf(json::parse(textOf(folder / "base.json")), "base");
    EXPECT_TRUE(found.empty()) << list(found);
}

TEST_P(FindingCase, IsCausedAndRemedied) {
    const json& one = cases()[GetParam()];
    const std::string code = one["code"];
    json document = json::parse(textOf(folder / "base.json"));
    change(document, one["cause"]);
    const auto caused = findingsOf(document, code);
    const Finding* finding = find(caused, code);
    ASSERT_NE(finding, nullptr) << code << " is not among" << list(caused);
    EXPECT_FALSE(finding->message.empty());
    EXPECT_FALSE(finding->about.empty()) << code << " does not say what it is about";
    if (finding->severity != Severity::note) {
        EXPECT_FALSE(finding->remedy.empty()) << code << " gives no remedy";
    }
    change(document, one["remedy"]);
    const auto after = findingsOf(document, code);
    EXPECT_EQ(find(after, code), nullptr) << code << " stays after its remedy:" << list(after);
}

INSTANTIATE_TEST_SUITE_P(All, FindingCase, testing::Range<std::size_t>(0, cases().size()),
                         [](const testing::TestParamInfo<std::size_t>& each) {
                             std::string name = cases()[each.param]["code"].get<std::string>();
                             std::replace(name.begin(), name.end(), '-', '_');
                             return name + "_" + std::to_string(each.param);
                         });

TEST(Findings, EveryCodeInTheSourcesHasACase) {
    // Codes that no document reaches, because reading refuses it before or they guard a promise of our own:
    // each is tested where it is made.
    const json guards = json::parse(textOf(folder / "guards.json"));
    std::set<std::string> covered;
    for (const json& one : cases()) covered.insert(one["code"].get<std::string>());
    const std::regex code("\"([a-z0-9]+(-[a-z0-9]+)+)\""), comment("//[^\n]*");
    std::set<std::string> seen;
    for (const char* room : {"formula", "geometry", "stock", "donor", "picture", "body", "plates",
                             "mechanisms", "frames", "fit", "modules", "takeoff", "trial", "evaluate"})
        for (const auto& entry : fs::directory_iterator(fs::path(SLABSIDE_SOURCE_DIR) / "core" / room)) {
            if (entry.path().extension() != ".cpp") continue;
            const std::string text = std::regex_replace(textOf(entry.path()), comment, "");
            for (std::sregex_iterator at(text.begin(), text.end(), code), end; at != end; ++at) {
                const std::string name = (*at)[1];
                if (route::accessFigure(name)) continue; // a published figure's key
                if (!seen.insert(name).second) continue;
                EXPECT_TRUE(covered.contains(name) || guards.contains(name))
                    << name << " in " << entry.path();
            }
        }
    EXPECT_GT(seen.size(), 40u);
    for (const auto& [name, file] : guards.items()) {
        EXPECT_TRUE(seen.contains(name)) << name << " is in no source";
        EXPECT_FALSE(covered.contains(name)) << name << " has a document";
        const std::string test = textOf(fs::path(SLABSIDE_SOURCE_DIR) / file.get<std::string>());
        EXPECT_NE(test.find('"' + name + '"'), std::string::npos) << name << " is not in " << file;
    }
}
