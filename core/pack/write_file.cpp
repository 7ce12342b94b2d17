#include "core/pack/write_file.h"
#include "core/drawing/drawing.h"
#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <system_error>
#include <unistd.h>

namespace slab {
namespace {

namespace fs = std::filesystem;

/// @return errno of the step that failed, 0 when the bytes are on the disk
int writeAll(int file, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t done = ::write(file, bytes.data(), bytes.size());
        if (done < 0 && errno == EINTR) continue;
        if (done <= 0) return done < 0 ? errno : EIO;
        bytes.remove_prefix(static_cast<std::size_t>(done));
    }
    return ::fsync(file) == 0 ? 0 : errno;
}

} // namespace

Expected<void> writeWhole(const fs::path& path, std::string_view bytes) {
    const auto refuse = [&](int number) {
        return fail("cannot-write",
                    "The file could not be written: " +
                        std::error_code(number, std::generic_category()).message() + ".",
                    path.string(), "choose another folder, or make room and try again");
    };
    fs::path temporary;
    int file = -1;
    for (int i = 0; i < 100 && file < 0; ++i) {
        temporary =
            path.parent_path() / (".slabside-" + std::to_string(::getpid()) + "-" + std::to_string(i) + "~");
        file = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file < 0 && errno != EEXIST) break;
    }
    if (file < 0) return refuse(errno);
    int trouble = writeAll(file, bytes);
    if (::close(file) != 0 && trouble == 0) trouble = errno;
    if (trouble == 0 && ::rename(temporary.c_str(), path.c_str()) != 0) trouble = errno;
    if (trouble == 0) return {};
    ::unlink(temporary.c_str());
    return refuse(trouble);
}

std::string FileNames::take(const std::string& name, const std::string& ending) {
    constexpr std::size_t longest = 60;
    std::string base = safeId(name).substr(0, longest);
    const auto lower = [](std::string text) {
        std::transform(text.begin(), text.end(), text.begin(),
                       [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
        return text;
    };
    std::string file = base + ending;
    for (int n = 2; !m_taken.insert(lower(file)).second; ++n) file = base + "-" + std::to_string(n) + ending;
    return file;
}

} // namespace slab
