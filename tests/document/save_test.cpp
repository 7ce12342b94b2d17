#include "core/document/file.h"
#include <csignal>
#include <fstream>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

namespace slab {
namespace {

namespace fs = std::filesystem;

class SaveProject : public ::testing::Test {
protected:
    void SetUp() override {
        std::string pattern = (fs::temp_directory_path() / "slabside-save-XXXXXX").string();
        ASSERT_NE(::mkdtemp(pattern.data()), nullptr);
        m_folder = pattern;
        m_file = m_folder / "boat.slabside.json";
    }
    void TearDown() override {
        fs::permissions(m_folder, fs::perms::owner_all);
        fs::remove_all(m_folder);
    }
    static Project titled(const std::string& title) {
        Project p;
        p.title = title;
        return p;
    }
    static std::string titleIn(const fs::path& file) {
        const auto p = loadProject(file);
        return p ? p->title : p.error().code;
    }
    [[nodiscard]] std::size_t entries() const {
        return static_cast<std::size_t>(std::distance(fs::directory_iterator(m_folder), {}));
    }
    fs::path m_folder, m_file;
};

TEST_F(SaveProject, WritesReadsBackAndRotatesThreeBackups) {
    for (int i = 1; i <= 6; ++i) ASSERT_TRUE(saveProject(titled(std::to_string(i)), m_file));
    EXPECT_EQ(titleIn(m_file), "6");
    EXPECT_EQ(titleIn(m_file.string() + "~"), "5");
    EXPECT_EQ(titleIn(m_file.string() + "~2"), "4");
    EXPECT_EQ(titleIn(m_file.string() + "~3"), "3");
    EXPECT_EQ(entries(), 4U); // nothing temporary stays
}

TEST_F(SaveProject, KeepsPermissionsAndLinks) {
    ASSERT_TRUE(saveProject(titled("a"), m_file));
    ASSERT_EQ(::chmod(m_file.c_str(), 0640), 0);
    const fs::path link = m_folder / "link.json";
    fs::create_symlink(m_file, link);
    ASSERT_TRUE(saveProject(titled("b"), link));
    EXPECT_TRUE(fs::is_symlink(link));
    EXPECT_EQ(titleIn(m_file), "b");
    EXPECT_EQ(fs::status(m_file).permissions(), static_cast<fs::perms>(0640));
}

TEST_F(SaveProject, RefusesPlacesThatCannotBeWritten) {
    ASSERT_TRUE(saveProject(titled("a"), m_file));
    const fs::path bad[] = {m_folder,          m_folder / "missing" / "x.json",
                            m_file / "x.json", m_folder / std::string(300, 'x'),
                            fs::path{},        fs::path("/proc/x.json")};
    for (const fs::path& path : bad) {
        const auto done = saveProject(titled("b"), path);
        ASSERT_FALSE(done) << path;
        EXPECT_EQ(done.error().code, "cannot-write") << path;
        EXPECT_FALSE(done.error().remedy.empty());
    }
    EXPECT_EQ(titleIn(m_file), "a");
    EXPECT_EQ(entries(), 1U);
}

TEST_F(SaveProject, ReadOnlyFolderLeavesTheFileUntouched) {
    ASSERT_TRUE(saveProject(titled("a"), m_file));
    fs::permissions(m_folder, fs::perms::owner_read | fs::perms::owner_exec | fs::perms::others_read |
                                  fs::perms::others_exec);
    // The superuser may write everywhere: be somebody else for a moment (65534 is "nobody" on Debian).
    const bool root = ::geteuid() == 0;
    if (root) {
        ASSERT_EQ(::seteuid(65534), 0);
    }
    const auto done = saveProject(titled("b"), m_file);
    if (root) {
        ASSERT_EQ(::seteuid(0), 0);
    }
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, "cannot-write");
    EXPECT_EQ(titleIn(m_file), "a");
}

/// A disk that is full half way through: the limit on file sizes stops the writing just the same.
TEST_F(SaveProject, FailureInTheMiddleLeavesTheFileAndNothingElse) {
    ASSERT_TRUE(saveProject(titled("a"), m_file));
    const auto before = fs::last_write_time(m_file);
    struct rlimit old {};
    ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &old), 0);
    const auto handler = std::signal(SIGXFSZ, SIG_IGN);
    const struct rlimit small { 4096, old.rlim_max };
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &small), 0);
    const auto done = saveProject(titled(std::string(100000, 'b')), m_file);
    ::setrlimit(RLIMIT_FSIZE, &old);
    std::signal(SIGXFSZ, handler);
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, "cannot-write");
    EXPECT_EQ(titleIn(m_file), "a");
    EXPECT_EQ(fs::last_write_time(m_file), before);
    EXPECT_EQ(entries(), 1U);
}

TEST_F(SaveProject, ADamagedFileIsRefusedAndNotTouched) {
    {
        std::ofstream out(m_file);
        out << "{\"slabside\": 1, \"title\": \"cut o";
    }
    const auto p = loadProject(m_file);
    ASSERT_FALSE(p);
    EXPECT_EQ(p.error().code, "truncated");
    EXPECT_EQ(p.error().where, "line 1 column 26");
    EXPECT_EQ(fs::file_size(m_file), 31U);
}

TEST(ShownTitle, IsTheTitleElseTheFilesName) {
    Project p;
    p.title = "  Harbour tug ";
    EXPECT_EQ(shownTitle(p, "boats/tug.slabside.json"), "Harbour tug");
    for (const char* unnamed : {"", "  ", noTitle}) {
        p.title = unnamed;
        EXPECT_EQ(shownTitle(p, "boats/little tug.slabside.json"), "little tug");
        EXPECT_EQ(shownTitle(p, "tug.json"), "tug");
        EXPECT_EQ(shownTitle(p, "tug"), "tug");
        EXPECT_EQ(shownTitle(p, {}), noTitle);
    }
}

} // namespace
} // namespace slab
