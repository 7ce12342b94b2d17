#include "core/document/file.h"
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

namespace slab {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kLargestFile = std::uintmax_t{64} << 20;

Unexpected cannotWrite(const fs::path& path, const std::string& why) {
    return fail("cannot-write", "The document could not be saved: " + why + ".", path.string(),
                "save it under another name or in another folder; the file before is untouched");
}

std::string reason(int number) {
    return std::error_code(number, std::generic_category()).message();
}

/// A file that is being written; removed again unless it is kept.
class Temporary {
public:
    explicit Temporary(const fs::path& beside) {
        for (int i = 0; i < 100 && m_file < 0; ++i) {
            m_path = beside.parent_path() /
                     (".slabside-" + std::to_string(::getpid()) + "-" + std::to_string(i) + "~");
            m_file = ::open(m_path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
            if (m_file < 0 && errno != EEXIST) break;
        }
        if (m_file < 0) m_error = errno;
    }
    ~Temporary() {
        close();
        if (!m_kept && m_error == 0) ::unlink(m_path.c_str());
    }
    Temporary(const Temporary&) = delete;
    Temporary& operator=(const Temporary&) = delete;

    /// @return errno of the step that failed, 0 when all is on the disk
    int write(std::string_view text, const struct stat* old) {
        if (m_error != 0) return m_error;
        if (old != nullptr && ::fchmod(m_file, old->st_mode & 07777U) != 0) return errno;
        while (!text.empty()) {
            const ssize_t done = ::write(m_file, text.data(), text.size());
            if (done < 0 && errno == EINTR) continue;
            if (done <= 0) return done < 0 ? errno : EIO;
            text.remove_prefix(static_cast<std::size_t>(done));
        }
        if (::fsync(m_file) != 0) return errno;
        return close();
    }
    int moveTo(const fs::path& path) {
        if (::rename(m_path.c_str(), path.c_str()) != 0) return errno;
        m_kept = true;
        return 0;
    }

private:
    fs::path m_path;
    int m_file = -1, m_error = 0;
    bool m_kept = false;
    int close() {
        if (m_file < 0) return 0;
        const int result = ::close(m_file);
        m_file = -1;
        return result == 0 ? 0 : errno;
    }
};

/// name~ becomes name~2, name~2 becomes name~3; the file as it is becomes name~ too, without ever being away.
std::string backUp(const fs::path& path) {
    const fs::path first = path.string() + "~";
    const fs::path second = path.string() + "~2";
    const fs::path third = path.string() + "~3";
    std::error_code error;
    if (fs::exists(second, error)) fs::rename(second, third, error);
    if (!error && fs::exists(first, error)) fs::rename(first, second, error);
    if (error) return error.message();
    if (::link(path.c_str(), first.c_str()) == 0) return {};
    fs::copy_file(path, first, fs::copy_options::overwrite_existing, error); // a disk without links
    return error ? error.message() : std::string{};
}

void syncFolder(const fs::path& folder) {
    const int file = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file < 0) return;
    ::fsync(file);
    ::close(file);
}

} // namespace

std::string shownTitle(const Project& project, const fs::path& file) {
    const std::size_t from = project.title.find_first_not_of(" \t\r\n"),
                      to = project.title.find_last_not_of(" \t\r\n");
    const std::string title =
        from == std::string::npos ? std::string() : project.title.substr(from, to - from + 1);
    if (!title.empty() && title != noTitle) return title;
    std::string name = file.filename().string();
    for (const std::string_view end : {".json", ".slabside"})
        if (name.ends_with(end)) name.erase(name.size() - end.size());
    return name.empty() ? noTitle : name;
}

Expected<Project> loadProject(const fs::path& path) {
    std::error_code error;
    if (!fs::is_regular_file(path, error))
        return fail("cannot-read", fs::exists(path, error) ? "This is not a file." : "There is no such file.",
                    path.string(), "check the name");
    if (fs::file_size(path, error) > kLargestFile)
        return fail("too-large", "The file is larger than 64 MiB.", path.string(),
                    "this is not a Slabside document");
    std::ifstream in(path, std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(in), {}};
    if (!in && !in.eof())
        return fail("cannot-read", "The file could not be read.", path.string(), "check its permissions");
    return readProject(text);
}

Expected<void> saveProject(const Project& project, const fs::path& path) {
    std::error_code error;
    // A link keeps pointing where it did.
    fs::path target =
        fs::absolute(fs::is_symlink(path, error) ? fs::weakly_canonical(path, error) : path, error);
    if (target.filename().empty()) return cannotWrite(path, "it has no name");
    struct stat old {};
    const bool exists = ::stat(target.c_str(), &old) == 0;
    if (exists && !S_ISREG(old.st_mode)) return cannotWrite(path, "this is not a file");
    if (exists && ::access(target.c_str(), W_OK) != 0) return cannotWrite(path, "the file is read-only");
    Temporary temporary(target);
    if (const int failed = temporary.write(writeProject(project), exists ? &old : nullptr); failed != 0)
        return cannotWrite(path, reason(failed));
    if (exists)
        if (const std::string why = backUp(target); !why.empty())
            return cannotWrite(path, "no backup: " + why);
    if (const int failed = temporary.moveTo(target); failed != 0) return cannotWrite(path, reason(failed));
    syncFolder(target.parent_path());
    return {};
}

} // namespace slab
