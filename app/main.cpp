#include "app/commands.h"
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#ifdef SLABSIDE_WITH_WINDOW
#include "ui/window/run.h"
#endif

namespace {

int openWindow(int argc, char** argv, const std::string& file) {
#ifdef SLABSIDE_WITH_WINDOW
    const auto set = [](const char* name) {
        const char* value = std::getenv(name);
        return value && *value;
    };
    if (!set("DISPLAY") && !set("WAYLAND_DISPLAY") && !set("QT_QPA_PLATFORM")) {
        std::cerr << "slabside: There is no display to open the window on.\n"
                     "  Use report, pack or nest here, or start it on a desktop.\n"
                     "  Try: slabside --help\n";
        return slab::app::refused;
    }
    return slab::ui::runWindow(argc, argv, file);
#else
    (void)argc, (void)argv, (void)file;
    std::cerr << "slabside: built without its window; try slabside --help\n";
    return slab::app::refused;
#endif
}

} // namespace

int main(int argc, char** argv) {
    const std::vector<std::string> words(argv + 1, argv + argc);
    const std::vector<std::string> rest(words.empty() ? words.end() : words.begin() + 1, words.end());
    const std::string first = words.empty() ? "" : words.front();
    const auto asksHelp = [](const std::string& word) { return word == "--help" || word == "-h"; };
    if (std::any_of(words.begin(), words.end(), asksHelp)) {
        std::cout << slab::app::helpText();
        return slab::app::done;
    }
    if (first == "--version") {
        std::cout << "slabside " << SLABSIDE_VERSION << "\n";
        return slab::app::done;
    }
    if (first == "report") return slab::app::reportCommand(rest);
    if (first == "pack") return slab::app::packCommand(rest);
    if (first == "nest") return slab::app::nestCommand(rest);
    if (first.starts_with("-") || words.size() > 1) {
        std::cerr << "slabside: cannot make sense of \"" << first << "\"\n\n" << slab::app::helpText();
        return slab::app::refused;
    }
    return openWindow(argc, argv, first);
}
