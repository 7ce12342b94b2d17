// The commands as a shell sees them: exit status, stdout, stderr, and files left alone.
#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <sys/wait.h>
#include <unistd.h>

namespace fs = std::filesystem;

namespace {

struct Outcome {
    int status = -1;
    std::string out, err;
};

std::string textOf(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

class Commands : public testing::Test {
protected:
    void SetUp() override {
        const auto* info = testing::UnitTest::GetInstance()->current_test_info();
        m_folder =
            fs::temp_directory_path() / ("slabside-" + std::string(info->name()) + std::to_string(getpid()));
        fs::create_directories(m_folder);
    }
    void TearDown() override { fs::remove_all(m_folder); }

    Outcome run(const std::string& arguments) const {
        const std::string command = std::string("'") + SLABSIDE_PROGRAM + "' " + arguments + " >'" +
                                    (m_folder / "out").string() + "' 2>'" + (m_folder / "err").string() +
                                    "' </dev/null";
        const int raw = std::system(command.c_str());
        return {WIFEXITED(raw) ? WEXITSTATUS(raw) : 128, textOf(m_folder / "out"), textOf(m_folder / "err")};
    }
    fs::path write(const std::string& name, const std::string& text) const {
        std::ofstream(m_folder / name, std::ios::binary) << text;
        return m_folder / name;
    }
    static std::string sample(const std::string& name) {
        return "'" + std::string(SLABSIDE_SOURCE_DIR) + "/samples/" + name + ".slabside.json'";
    }
    fs::path m_folder;
};

} // namespace

TEST_F(Commands, HelpAndVersion) {
    const Outcome help = run("--help");
    EXPECT_EQ(help.status, 0);
    for (const char* word : {"report", "pack", "nest", "--to", "Exit status"})
        EXPECT_NE(help.out.find(word), std::string::npos) << word;
    for (const char* line : {"nest --help", "report -h", "pack --to x --help"}) {
        EXPECT_EQ(run(line).status, 0) << line;
        EXPECT_EQ(run(line).out, help.out) << line;
    }
    const Outcome version = run("--version");
    EXPECT_EQ(version.status, 0);
    EXPECT_EQ(version.out.rfind("slabside ", 0), 0u);
}

TEST_F(Commands, BadUsageIsTwoAndSaysWhatToTry) {
    for (const char* line : {"report", "report a b", "report --wrong x", "pack", "nest", "nest x --seconds",
                             "nest x --seconds abc", "--nonsense", "one two", "report /no/such/file",
                             "pack /no/such/file --to /tmp/x"}) {
        const Outcome o = run(line);
        EXPECT_EQ(o.status, 2) << line;
        EXPECT_FALSE(o.err.empty()) << line;
        EXPECT_TRUE(o.out.empty()) << line;
    }
}

TEST_F(Commands, ReportTellsTheSurveyOfScales) {
    const std::string asked = "report " + sample("moon-crawler") + " --survey --from 0.44 --to 0.5";
    const Outcome o = run(asked + " --json");
    EXPECT_EQ(o.status, 0) << o.err;
    const auto survey = nlohmann::json::parse(o.out, nullptr, false);
    ASSERT_FALSE(survey.is_discarded());
    EXPECT_EQ(survey["from"], 0.44);
    EXPECT_EQ(survey["bands"].back()["state"], "fits");
    EXPECT_FALSE(survey["matches"].empty());
    EXPECT_TRUE(survey["pick"]["scale"].is_number());
    for (const auto& c : survey["constraints"]) // wind takes long, and is looked at at both ends and between
        EXPECT_GE(c["points"].size(), c["key"] == "wind" ? 3U : 25U) << c["key"];
    const Outcome words = run(asked);
    EXPECT_NE(words.out.find("All holds from"), std::string::npos) << words.out;
    EXPECT_NE(words.out.find("Pick "), std::string::npos);
    // The same range, written otherwise.
    EXPECT_EQ(run("report " + sample("moon-crawler") + " --survey --json --from 1:2 --to 44%").out, o.out);
    EXPECT_EQ(run("report " + sample("moon-crawler") + " --survey --from 1 --to 1").status, 2);
    EXPECT_EQ(run("report " + sample("moon-crawler") + " --survey --from 0 --to 1").status, 2);
}

TEST_F(Commands, ReportIsJson) {
    const Outcome o = run("report " + sample("moon-crawler") + " --json");
    EXPECT_EQ(o.status, 0) << o.err;
    const auto report = nlohmann::json::parse(o.out, nullptr, false);
    ASSERT_FALSE(report.is_discarded());
    EXPECT_EQ(report["title"], "Moon crawler");
    const Outcome words = run("report " + sample("moon-crawler"));
    EXPECT_EQ(words.status, 0);
    EXPECT_NE(words.out.find("Moon crawler"), std::string::npos);
}

TEST_F(Commands, DamagedDocumentsAreRefusedAndLeftAlone) {
    const std::string good = textOf(std::string(SLABSIDE_SOURCE_DIR) + "/samples/moon-crawler.slabside.json");
    std::map<std::string, std::string> bad = {
        {"empty", ""},
        {"truncated", good.substr(0, good.size() / 2)},
        {"not json", "hello"},
        {"wrong root", "[1, 2, 3]"},
        {"newer", R"({"slabside": 99})"},
        {"deep", std::string(200000, '[')},
        {"wrong type", R"({"slabside": 1, "forms": "none"})"},
        {"nan", R"({"slabside": 1, "scale": NaN})"},
        {"bytes", std::string("{\"slabside\": 1, \"title\": \"\xff\xfe\"}")},
    };
    for (const auto& [name, text] : bad) {
        const fs::path file = write("bad.slabside.json", text);
        const Outcome o = run("report '" + file.string() + "' --json");
        EXPECT_EQ(o.status, 2) << name;
        EXPECT_FALSE(o.err.empty()) << name;
        EXPECT_EQ(textOf(file), text) << name;
    }
}

TEST_F(Commands, PackWritesFilesThatOpen) {
    const fs::path to = m_folder / "pack";
    const Outcome o = run("pack " + sample("moon-crawler") + " --to '" + to.string() + "'");
    EXPECT_EQ(o.status, 0) << o.err;
    int pdf = 0, svg = 0, csv = 0;
    for (const auto& entry : fs::recursive_directory_iterator(to)) {
        if (!entry.is_regular_file()) continue;
        const std::string text = textOf(entry.path());
        if (entry.path().extension() == ".pdf") {
            EXPECT_EQ(text.rfind("%PDF-", 0), 0u) << entry.path();
            EXPECT_NE(text.find("%%EOF"), std::string::npos) << entry.path();
            ++pdf;
        } else if (entry.path().extension() == ".svg") {
            EXPECT_NE(text.find("</svg>"), std::string::npos) << entry.path();
            ++svg;
        } else if (entry.path().extension() == ".csv") {
            EXPECT_NE(text.find("card_6"), std::string::npos);
            ++csv;
        }
    }
    EXPECT_GE(pdf, 3);
    EXPECT_GE(svg, 1);
    EXPECT_EQ(csv, 1);
}

TEST_F(Commands, NestReadsAnInstance) {
    const fs::path file = write("strip.json", R"({"name": "two squares", "strip_height": 2, "items": [
        {"id": 0, "demand": 4, "allowed_rotations_deg": [0], "points": [[0,0],[1,0],[1,1],[0,1]]}]})");
    const Outcome o = run("nest '" + file.string() + "' --seconds 0 --seed 1 --threads 1 --json");
    EXPECT_EQ(o.status, 0) << o.err;
    const auto result = nlohmann::json::parse(o.out, nullptr, false);
    ASSERT_FALSE(result.is_discarded());
    EXPECT_NEAR(result["density_percent"].get<double>(), 100, 1e-6);
    EXPECT_EQ(result["placements"].size(), 4u);
    EXPECT_EQ(run("nest '" + write("bad.json", "{").string() + "'").status, 2);
}

TEST_F(Commands, NestByRoundsRepeatsOnAnyNumberOfThreads) {
    const fs::path file = write("strip.json", R"({"strip_height": 10, "items": [
        {"id": 0, "demand": 3, "points": [[0,0],[5,0],[5,3],[2,4]]},
        {"id": 1, "demand": 4, "points": [[0,0],[3,0],[1,4]]}]})");
    const auto places = [&](const std::string& more) {
        const Outcome o = run("nest '" + file.string() + "' --rounds 40 --seed 5 --json " + more);
        EXPECT_EQ(o.status, 0) << o.err;
        return nlohmann::json::parse(o.out, nullptr, false)["placements"];
    };
    const auto first = places("--threads 1");
    ASSERT_EQ(first.size(), 7u);
    EXPECT_EQ(places("--threads 1"), first);
    EXPECT_EQ(places("--threads 2"), first);
}
