#pragma once
#include <filesystem>

namespace slab::ui {

/// Opens the window on a document, or on the first-steps sample when `fileOrEmpty` is empty.
///
/// Call it first in the program: it makes the QApplication. @return the program's exit status
int runWindow(int argc, char** argv, const std::filesystem::path& fileOrEmpty);

/// What Qt3D must know of OpenGL before there is an application.
void prepareGraphics();

} // namespace slab::ui
