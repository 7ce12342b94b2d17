#pragma once
#include "core/document/project.h"
#include "core/picture/header.h"
#include <cstdint>
#include <filesystem>
#include <vector>

namespace slab {

/// What was found where a document names a picture; read when the document is opened and when the window
/// comes back to the front, so that evaluation itself looks at no disk.
struct PictureFile {
    enum class State { present, missing, unreadable };
    std::string name; ///< as the document writes it
    State state = State::missing;
    std::string hash; ///< SHA-256, hexadecimal
    PictureHeader header;
    Error trouble; ///< of one that is unreadable
    std::uintmax_t bytes = 0;
    std::int64_t written = 0; ///< time of last change, ticks of the file clock
    bool operator==(const PictureFile&) const = default;
};
using PictureFiles = std::vector<PictureFile>;

/// The file of one name, or null where nobody has looked.
[[nodiscard]] const PictureFile* fileNamed(const PictureFiles& files, const std::string& name);

/// One picture file. Of an unreadable one `trouble` says why: "picture-format", "picture-damaged",
/// "picture-large" (over 256 MiB), "picture-unreadable".
/// @param known  what was found before: a file of the same length and time is not read again
[[nodiscard]] PictureFile readPictureFile(const std::string& name, const std::filesystem::path& folder,
                                          const PictureFiles& known = {});
/// All pictures that a document names, each once, in the order of their first use.
/// @param folder  of the document; relative names start there
[[nodiscard]] PictureFiles readPictureFiles(const Project& project, const std::filesystem::path& folder,
                                            const PictureFiles& known = {});

/// How a document in `folder` writes a picture file: relative with forward slashes where a relative path
/// exists.
[[nodiscard]] std::string pictureName(const std::filesystem::path& file, const std::filesystem::path& folder);
/// A document of the folder `from` as one in the folder `to` writes it: every picture is named by the way
/// from there to its file, whether or not the file is there.
[[nodiscard]] Project movedTo(Project project, const std::filesystem::path& from,
                              const std::filesystem::path& to);

} // namespace slab
