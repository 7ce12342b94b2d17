#pragma once
#include <string>
#include <vector>

namespace slab::app {

/// Exit status of every command.
enum Status {
    done = 0,
    blocked = 1, ///< done, with findings that block the build
    refused = 2  ///< bad usage or unreadable input
};

/// Each takes the words after its own name, writes results to stdout and messages to stderr.
[[nodiscard]] int reportCommand(const std::vector<std::string>& given);
[[nodiscard]] int packCommand(const std::vector<std::string>& given);
[[nodiscard]] int nestCommand(const std::vector<std::string>& given);

[[nodiscard]] std::string helpText();

} // namespace slab::app
