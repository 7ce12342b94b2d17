#include "core/picture/files.h"
#include "core/picture/sha256.h"
#include <algorithm>
#include <array>
#include <fstream>

namespace slab {

namespace fs = std::filesystem;

namespace {

constexpr std::uintmax_t largestPicture = std::uintmax_t{256} << 20U;

void refuse(PictureFile& file, Error why) {
    file.state = PictureFile::State::unreadable;
    file.trouble = std::move(why);
}

/// @return false when the disk fails; a stream tells that only when it is read in its own way
bool readAll(const fs::path& path, std::string& bytes) {
    std::ifstream in(path, std::ios::binary);
    std::array<char, 1U << 16U> part{};
    while (in.read(part.data(), part.size()) || in.gcount() > 0)
        bytes.append(part.data(), static_cast<std::size_t>(in.gcount()));
    return in.eof() && !in.bad();
}

} // namespace

const PictureFile* fileNamed(const PictureFiles& files, const std::string& name) {
    const auto it =
        std::find_if(files.begin(), files.end(), [&](const PictureFile& f) { return f.name == name; });
    return it == files.end() ? nullptr : &*it;
}

PictureFile readPictureFile(const std::string& name, const fs::path& folder, const PictureFiles& known) {
    PictureFile file;
    file.name = name;
    const fs::path path = folder / fs::path(name);
    std::error_code error;
    if (name.empty() || !fs::is_regular_file(path, error)) return file;
    file.bytes = fs::file_size(path, error);
    file.written = fs::last_write_time(path, error).time_since_epoch().count();
    if (const PictureFile* old = fileNamed(known, name); old && old->state != PictureFile::State::missing &&
                                                         old->bytes == file.bytes &&
                                                         old->written == file.written)
        return *old;
    if (file.bytes > largestPicture) {
        refuse(file,
               {"picture-large", "The picture is larger than 256 MiB.", {}, "Save a smaller copy of it."});
        return file;
    }
    std::string bytes;
    if (!readAll(path, bytes)) {
        refuse(file,
               {"picture-unreadable", "The picture cannot be read.", {}, "Check the file's permissions."});
        return file;
    }
    file.hash = sha256(bytes);
    auto header = readPictureHeader(bytes);
    if (!header) {
        refuse(file, header.error());
        return file;
    }
    file.state = PictureFile::State::present;
    file.header = *header;
    return file;
}

PictureFiles readPictureFiles(const Project& project, const fs::path& folder, const PictureFiles& known) {
    PictureFiles files;
    for (const Picture& p : project.pictures)
        if (!fileNamed(files, p.file)) files.push_back(readPictureFile(p.file, folder, known));
    return files;
}

std::string pictureName(const fs::path& file, const fs::path& folder) {
    std::error_code error;
    const fs::path from = fs::weakly_canonical(folder.empty() ? fs::path(".") : folder, error);
    const fs::path to = fs::weakly_canonical(file, error);
    const fs::path relative = to.lexically_relative(from);
    return (relative.empty() ? to : relative).generic_string();
}

Project movedTo(Project project, const fs::path& from, const fs::path& to) {
    std::error_code error;
    if (fs::weakly_canonical(from, error) == fs::weakly_canonical(to, error)) return project;
    for (Picture& p : project.pictures)
        if (!p.file.empty()) p.file = pictureName(from / fs::path(p.file), to);
    return project;
}

} // namespace slab
