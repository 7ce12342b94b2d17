// Random sequences of adding, dragging, deleting, undoing, redoing, saving and reopening: nothing crashes,
// every finding is true as far as it can be checked, and what is remembered equals what is worked out from
// scratch. SLABSIDE_SEQUENCES=500 asks for so many; without it as many as fit in a third of a minute.
#include "core/document/file.h"
#include "core/picture/files.h"
#include "tests/evaluate/finding_truth.h"
#include "tests/evaluate/random_edits.h"
#include "tests/evaluate/samples.h"
#include <chrono>
#include <filesystem>
#include <map>

using namespace slab;
using namespace slab::test;

namespace {

constexpr int fewest = 6;
constexpr double longest = 17; ///< seconds after which no new sequence begins, unless a number is asked for
constexpr int steps = 14;

/// What the sequences have come through.
struct Tally {
    int sequences = 0, steps = 0, refused = 0, evaluations = 0, reopened = 0;
    std::map<std::string, int> findings;
    std::map<std::string, int> parts; ///< looks at documents with such a part

    void see(const Project& p) {
        const auto has = [&](const char* what, bool any) { parts[what] += any ? 1 : 0; };
        const Mechanisms& m = p.mechanisms;
        has("frames", !p.frames.empty());
        has("cleats", !p.cleats.empty());
        has("seams", !p.seams.empty());
        has("modules", !p.modules.empty());
        has("openings", !p.openings.empty());
        has("turntables", !m.turntables.empty());
        has("trunnions", !m.trunnions.empty());
        has("linkages", !m.linkages.empty());
        has("belts", !m.belts.empty());
        has("pictures", !p.pictures.empty());
        has("dimension lines", !p.lines.empty());
        has("curves", std::any_of(p.forms.begin(), p.forms.end(), [](const Form& form) {
                return std::visit(
                    [](const auto& shape) {
                        if constexpr (requires { shape.curves; })
                            return !shape.curves.empty();
                        else
                            return false;
                    },
                    form.shape);
            }));
    }
};

class Sequence {
public:
    Sequence(std::uint64_t seed, std::filesystem::path file, Tally& tally)
        : m_seed(seed), m_file(std::move(file)), m_edits(seed), m_history(m_edits.start()), m_tally(tally) {}

    /// @return false if something was wrong
    bool run() {
        look(Effort::fitOnly);
        for (int i = 0; i < steps && !failed(); ++i) {
            step();
            ++m_tally.steps;
            // Live as the window does, then once more without sheets: those may be carried over from before.
            (void)m_kept.evaluate(m_history.current(), Effort::live);
            look(Effort::fitOnly);
        }
        if (m_seed % 5 == 0) look(Effort::full);
        undoAll();
        ++m_tally.sequences;
        return !failed();
    }

private:
    std::uint64_t m_seed;
    std::filesystem::path m_file;
    RandomEdits m_edits;
    History m_history;
    Evaluator m_kept;
    Tally& m_tally;
    std::vector<std::string> m_story;
    int m_before = failures();

    [[nodiscard]] static int failures() {
        return testing::UnitTest::GetInstance()->current_test_info()->result()->total_part_count();
    }
    [[nodiscard]] bool failed() const { return failures() > m_before; }

    [[nodiscard]] std::string story() const {
        std::string text = "sequence " + std::to_string(m_seed) + ":";
        for (const std::string& line : m_story) text += "\n  " + line;
        return text + "\n" + writeProject(m_history.current());
    }

    void step() {
        const int what = m_edits.below(20);
        if (what < 3) {
            m_story.emplace_back("undo");
            m_history.undo();
        } else if (what < 5) {
            m_story.emplace_back("redo");
            m_history.redo();
        } else if (what == 5) {
            save(false);
        } else if (what == 6) {
            save(true);
        } else {
            const Project before = m_history.current();
            const Edit edit = m_edits.next(before);
            const int repeats = edit.merge.empty() ? 1 : 1 + m_edits.below(4);
            if (repeats == 1) m_history.settle();
            for (int i = 0; i < repeats; ++i) push(i == 0 ? edit : again(edit));
        }
    }
    /// One more step of the same drag.
    Edit again(const Edit& first) {
        if (first.merge == "scale") return setScale("0." + std::to_string(300 + m_edits.below(650)), "scale");
        return first;
    }
    void push(const Edit& edit) {
        const Project before = m_history.current();
        const auto done = m_history.push(edit);
        m_story.push_back(edit.label + (done ? "" : " (refused: " + done.error().message + ")"));
        if (done) return;
        ++m_tally.refused;
        EXPECT_EQ(m_history.current(), before) << "a refused edit changed the document\n" << story();
        EXPECT_FALSE(done.error().message.empty()) << story();
    }
    void save(bool reopen) {
        m_story.emplace_back(reopen ? "save, reopen" : "save");
        ASSERT_TRUE(saveProject(m_history.current(), m_file).has_value());
        const auto read = loadProject(m_file);
        ASSERT_TRUE(read.has_value()) << read.error().message << " at " << read.error().where << "\n"
                                      << story();
        EXPECT_EQ(*read, m_history.current()) << story();
        m_history.markSaved();
        if (reopen) {
            m_history = History(*read);
            ++m_tally.reopened;
        }
    }
    void look(Effort effort) {
        const Project& project = m_history.current();
        const PictureFiles pictures =
            readPictureFiles(project, SLABSIDE_SOURCE_DIR "/tests/evaluate/findings");
        const Evaluation kept = m_kept.evaluate(project, effort, 0, {}, pictures);
        Evaluator scratch;
        const Evaluation fresh = scratch.evaluate(project, effort, 0, {}, pictures);
        ++m_tally.evaluations;
        m_tally.see(project);
        const std::string a = reportJson(project, kept), b = reportJson(project, fresh);
        if (a != b) {
            const auto at = static_cast<std::size_t>(
                std::mismatch(a.begin(), a.end(), b.begin(), b.end()).first - a.begin());
            const std::size_t from = at > 300 ? at - 300 : 0;
            ADD_FAILURE() << "remembered: …" << a.substr(from, 600) << "…\nfrom scratch: …"
                          << b.substr(from, 600) << "…\n"
                          << story();
        }
        for (const Finding& f : kept.findings) {
            ++m_tally.findings[f.code];
            const std::string bad = untruth(f, project, kept);
            EXPECT_TRUE(bad.empty()) << f.code << " " << bad << ": " << f.message << " | " << f.remedy << "\n"
                                     << story();
        }
    }
    void undoAll() {
        std::vector<Project> states;
        states.push_back(m_history.current());
        while (m_history.canUndo()) {
            m_history.undo();
            states.push_back(m_history.current());
        }
        for (std::size_t i = states.size(); i-- > 0;) {
            EXPECT_EQ(m_history.current(), states[i]) << story();
            if (i > 0) m_history.redo();
        }
    }
};

} // namespace

TEST(Sequences, RandomEditsLeaveNoCrashNoUntruthAndNothingStale) {
    const std::uint64_t first = seed(77000);
    const char* asked = std::getenv("SLABSIDE_SEQUENCES");
    const int most = asked ? std::atoi(asked) : 500;
    const auto file = std::filesystem::temp_directory_path() /
                      ("slabside-sequence-" + std::to_string(first) + ".slabside.json");
    const auto begun = std::chrono::steady_clock::now();
    const auto seconds = [&] {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
    };
    Tally tally;
    constexpr int mostFailures = 10; // sequences; the rest would be more of the same
    int failed = 0;
    for (int i = 0; i < most && failed < mostFailures; ++i) {
        if (!asked && i >= fewest && seconds() > longest) break;
        if (!Sequence(first + static_cast<std::uint64_t>(i), file, tally).run()) ++failed;
    }
    for (const auto& entry : std::filesystem::directory_iterator(file.parent_path()))
        if (entry.path().filename().string().starts_with(file.filename().string()))
            std::filesystem::remove(entry.path());
    std::printf(
        "%d sequences of %d steps, %d refused, %d reopened, %d evaluations against a fresh one, %.0f s\n",
        tally.sequences, tally.steps, tally.refused, tally.reopened, tally.evaluations, seconds());
    for (const auto& [code, count] : tally.findings) std::printf("  %s %d\n", code.c_str(), count);
    EXPECT_GT(tally.findings.size(), 5u);
    for (const auto& [what, looks] : tally.parts) {
        std::printf("  %s in %d\n", what.c_str(), looks);
        EXPECT_TRUE(looks > 0 || tally.sequences < 100) << "never looked at a document with " << what;
    }
}
