// Every file in corpus/ is named CODE--what.json: the code of its first error, or "sound".
#include "core/document/file.h"
#include "tests/geometry/seed.h"
#include <fstream>
#include <gmock/gmock.h>

namespace slab {
namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;

std::string textOf(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<fs::path> corpus() {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(fs::path(SLABSIDE_SOURCE_DIR) / "tests/document/corpus"))
        files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

TEST(Corpus, EachFileGivesItsCodeAndIsNotTouched) {
    const auto files = corpus();
    ASSERT_GE(files.size(), 60U);
    for (const fs::path& file : files) {
        const std::string name = file.stem().string();
        const std::string code = name.substr(0, name.find("--"));
        const std::string before = textOf(file);
        const auto project = loadProject(file);
        EXPECT_EQ(textOf(file), before) << name;
        const auto errors = validateProject(before);
        if (code == "sound") {
            EXPECT_TRUE(project) << name << ": " << (project ? "" : project.error().message);
            EXPECT_TRUE(errors.empty()) << name;
            continue;
        }
        ASSERT_FALSE(project) << name;
        ASSERT_FALSE(errors.empty()) << name;
        EXPECT_EQ(project.error().code, code) << name << ": " << project.error().message;
        EXPECT_EQ(errors.front(), project.error()) << name;
        for (const Error& e : errors) {
            EXPECT_FALSE(e.message.empty()) << name;
            EXPECT_FALSE(e.remedy.empty()) << name << ": " << e.message;
            // A place in the text, or in the document ("" is the whole of it).
            EXPECT_TRUE(e.where.empty() || e.where.starts_with("line ") || e.where.starts_with("/"))
                << name << ": " << e.where;
        }
    }
}

void expectError(const std::string& text, const char* code, const char* where) {
    const auto p = readProject(text);
    ASSERT_FALSE(p) << text;
    EXPECT_EQ(p.error().code, code) << text << p.error().message;
    EXPECT_EQ(p.error().where, where) << text << p.error().message;
}

TEST(ReadProject, PlacesOfErrors) {
    expectError("{\"slabside\": 1,\n  \"title\": \"é\" \"x\"}", "not-json", "line 2 column 16");
    expectError("{\"slabside\": 1,\n\"a\": NaN}", "not-finite", "line 2 column 6");
    expectError("{\"slabside\": 1,\n\"a\": \"9e999\", \"b\": [2, -1e999]}", "not-finite", "line 2 column 24");
    for (const char* root : {"[]", "7", "null", "\"text\""}) expectError(root, "wrong-type", "line 1 column 1");
    expectError("{\"slabside\": 1, \"forms\": [{\"name\": \"a\", \"kind\": \"round\"}, {\"name\": \"b\", "
                "\"kind\": 3}]}",
                "wrong-type", "/forms/1/kind");
    expectError("{\"slabside\": 1, \"forms\": [{\"name\": \"a\", \"kind\": \"plate\", \"outline\": "
                "[{}, {\"x\": true}, {}]}]}",
                "wrong-type", "/forms/0/outline/1/x");
    expectError("{\"slabside\": 1, \"materials\": {\"plates\": {\"a/~b\": 3}}}", "wrong-type",
                "/materials/plates/a~1~0b");
    expectError("{\"slabside\": 1, \"stock\": {\"sheets\": [{\"name\": \"a\", \"thickness\": \"1\"}]}}",
                "missing", "/stock/sheets/0/size");
}

TEST(ValidateProject, ReportsAllErrorsAtOnce) {
    const auto errors = validateProject(R"({"slabside": 1, "title": 3, "units": "cubit",
        "dimensions": [{"name": "in", "value": "1"}, {"value": true}],
        "forms": [{"name": "a", "kind": "round"}, {"name": "a", "kind": "round"},
                  {"name": "b", "kind": "plate", "outline": []}],
        "materials": {"default": "gold"}})");
    std::vector<std::string> found;
    for (const Error& e : errors) found.push_back(e.code + " " + e.where);
    EXPECT_THAT(found, ::testing::UnorderedElementsAre(
                           "wrong-type /title", "unknown-value /units", "bad-name /dimensions/0/name",
                           "missing /dimensions/1/name", "wrong-type /dimensions/1/value",
                           "duplicate-name /forms/1/name", "empty-outline /forms/2/outline"));
    for (const Error& e : errors)
        if (e.code == "unknown-value") {
            EXPECT_THAT(e.remedy, HasSubstr("mm, cm, m, in or ft"));
        }
}

TEST(ValidateProject, NumberOfErrorsIsBounded) {
    std::string text = R"({"slabside": 1, "forms": [0)";
    for (int i = 0; i < 20000; ++i) text += ",0";
    const auto errors = validateProject(text + "]}");
    EXPECT_GT(errors.size(), 100U);
    EXPECT_LE(errors.size(), 1001U);
}

TEST(ReadProject, HugeFilesAreRefused) {
    const std::string large(std::size_t{65} << 20, ' ');
    EXPECT_EQ(readProject(large).error().code, "too-large");
    std::string many = "[0";
    many.resize(2 + 2 * 4'000'010, ',');
    for (std::size_t i = 2; i < many.size(); i += 2) many[i + 1] = '0';
    EXPECT_EQ(readProject(many).error().code, "too-large");
}

TEST(LoadProject, MissingFileAndFolder) {
    EXPECT_EQ(loadProject("/nowhere/at/all.json").error().code, "cannot-read");
    EXPECT_EQ(loadProject(fs::temp_directory_path()).error().code, "cannot-read");
}

/// Changes a few bytes or tokens of a sample; the result is seldom JSON, and often JSON of the wrong kind.
std::string mutated(std::string text, std::mt19937_64& random, int times) {
    const std::string tokens[] = {"\"",
                                  "{",
                                  "}",
                                  "[",
                                  "]",
                                  ":",
                                  ",",
                                  "null",
                                  "true",
                                  "1e308",
                                  "-0",
                                  "\\u0000",
                                  "NaN",
                                  "\xC3",
                                  "[[[[",
                                  "\"name\"",
                                  "\"kind\":\"facet\"",
                                  "{}",
                                  "0.1",
                                  "\n"};
    for (int i = times; i > 0 && !text.empty(); --i) {
        const auto at = static_cast<std::size_t>(below(random, static_cast<int>(text.size())));
        const auto run = static_cast<std::size_t>(1 + below(random, 12));
        switch (below(random, 5)) {
        case 0:
            text[at] = static_cast<char>(below(random, 256));
            break;
        case 1:
            text.erase(at, run);
            break;
        case 2:
            text.insert(at, tokens[static_cast<std::size_t>(below(random, 20))]);
            break;
        case 3:
            text.insert(at, text.substr(at / 2, run));
            break;
        default:
            text.resize(at);
            break;
        }
    }
    return text;
}

TEST(Fuzz, MutatedDocumentsAreReadOrRefused) {
    auto random = seeded(41);
    std::vector<std::string> seeds, sound;
    for (const fs::path& file : corpus()) {
        if (fs::file_size(file) < 10000) seeds.push_back(textOf(file));
        if (file.filename().string().starts_with("sound")) sound.push_back(textOf(file));
    }
    int read = 0, refused = 0;
    for (int i = 0; i < 40000 / slowdown; ++i) {
        const auto& from = i % 2 == 0 ? sound : seeds; // one change to a sound one often leaves it sound
        const auto which = static_cast<std::size_t>(below(random, static_cast<int>(from.size())));
        const std::string text = mutated(from[which], random, i % 2 == 0 ? 1 : 1 + below(random, 4));
        const auto errors = validateProject(text);
        const auto project = readProject(text);
        ASSERT_EQ(project.has_value(), errors.empty()) << text;
        if (!project) {
            ++refused;
            continue;
        }
        ++read;
        const auto back = readProject(writeProject(*project));
        ASSERT_TRUE(back) << text << back.error().where << back.error().message;
        ASSERT_EQ(*back, *project) << text;
    }
    std::printf("%d read, %d refused\n", read, refused);
    EXPECT_GT(read, 1000 / slowdown);
    EXPECT_GT(refused, 1000 / slowdown);
}

/// Swaps whole values of a sound document for values of other types, so that the reader, not the parser, has
/// the work.
TEST(Fuzz, WrongValuesAtEveryPlace) {
    const std::string text =
        textOf(fs::path(SLABSIDE_SOURCE_DIR) / "tests/document/corpus/sound--all-kinds.json");
    for (const std::string value :
         {"null", "true", "7", "\"x\"", "[]", "{}", "[1,2]", "{\"a\":1}", "1e300"}) {
        for (std::size_t at = text.find(": "); at != std::string::npos; at = text.find(": ", at + 1)) {
            const std::size_t begin = at + 2;
            std::size_t end = begin;
            int depth = 0;
            bool quoted = false;
            for (; end < text.size(); ++end) {
                const char c = text[end];
                if (c == '"' && text[end - 1] != '\\') quoted = !quoted;
                if (quoted) continue;
                if (depth == 0 && (c == ',' || c == '}' || c == ']' || c == '\n')) break;
                depth += c == '{' || c == '[' ? 1 : c == '}' || c == ']' ? -1 : 0;
                if (depth == 0 && (c == '}' || c == ']')) {
                    ++end;
                    break;
                }
            }
            const std::string changed = text.substr(0, begin) + value + text.substr(end);
            const auto project = readProject(changed);
            ASSERT_EQ(project.has_value(), validateProject(changed).empty());
            if (project) {
                ASSERT_EQ(readProject(writeProject(*project)), *project) << changed;
            }
        }
    }
}

} // namespace
} // namespace slab
