// Densities and sheet counts on the open instances, one JSON line each:
//   bench_nest [--seconds S] [--rounds N] [--threads N] [--seed N] [name...]
// Data: $SLABSIDE_BENCH_DATA, or ../shared/data/nesting beside the project.
#include "core/nesting/nest.h"
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace {

std::filesystem::path dataFolder() {
    if (const char* set = std::getenv("SLABSIDE_BENCH_DATA")) return set;
    return std::filesystem::path(SLABSIDE_SOURCE_DIR) / "../shared/data/nesting";
}

void runOne(const std::filesystem::path& file, const slab::NestOptions& options) {
    std::ifstream in(file);
    const std::string text((std::istreambuf_iterator<char>(in)), {});
    const auto problem = slab::readInstance(text);
    if (!problem) {
        std::printf("{\"instance\": \"%s\", \"error\": \"%s\"}\n", file.stem().c_str(),
                    problem.error().code.c_str());
        return;
    }
    const auto start = std::chrono::steady_clock::now();
    const slab::NestResult result = slab::nest(*problem, options);
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    const std::size_t faults = slab::checkNest(*problem, result).size();
    std::printf("{\"instance\": \"%s\", ", file.stem().c_str());
    if (problem->strip > 0)
        std::printf("\"density_percent\": %.3f, ", result.density * 100);
    else
        std::printf("\"sheets\": %zu, ", result.layouts.size());
    std::printf("\"unplaced\": %zu, \"faults\": %zu, \"seconds\": %.4f}\n", result.unplaced.size(), faults,
                seconds);
    std::fflush(stdout);
}

} // namespace

int main(int argc, char** argv) {
    slab::NestOptions options;
    std::vector<std::string> names;
    for (int i = 1; i < argc; ++i) {
        const std::string arg = argv[i];
        const char* value = i + 1 < argc ? argv[i + 1] : "0";
        if (arg == "--seconds")
            options.seconds = std::atof(value);
        else if (arg == "--rounds")
            options.rounds = std::atoi(value);
        else if (arg == "--threads")
            options.threads = std::atoi(value);
        else if (arg == "--seed")
            options.seed = std::strtoull(value, nullptr, 10);
        else {
            names.push_back(arg);
            continue;
        }
        ++i;
    }
    std::vector<std::filesystem::path> files;
    for (const char* kind : {"strip", "sheets"}) {
        const auto folder = dataFolder() / kind;
        if (!std::filesystem::exists(folder)) continue;
        for (const auto& entry : std::filesystem::directory_iterator(folder))
            if (entry.path().extension() == ".json") files.push_back(entry.path());
    }
    if (files.empty()) std::printf("{\"skipped\": \"no data in %s\"}\n", dataFolder().c_str());
    std::sort(files.begin(), files.end());
    for (const auto& file : files)
        if (names.empty() || std::find(names.begin(), names.end(), file.stem().string()) != names.end())
            runOne(file, options);
    return 0;
}
