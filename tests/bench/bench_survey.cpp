// How long the scale survey of a sample takes, in all and of the processor, and what it found. One line of
// JSON.
#include "core/base/paths.h"
#include "core/document/file.h"
#include "core/survey/survey.h"
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <vector>

using namespace slab;

/// bench_survey [sample] [from] [to] [runs]; the middle of so many runs is told.
int main(int count, char** given) {
    const std::string sample = count > 1 ? given[1] : "harbour-fire-boat";
    const double from = count > 2 ? std::atof(given[2]) : 0.2, to = count > 3 ? std::atof(given[3]) : 0.8;
    const int runs = std::max(1, count > 4 ? std::atoi(given[4]) : 3);
    const auto project =
        loadProject(std::string(SLABSIDE_SOURCE_DIR) + "/samples/" + sample + ".slabside.json");
    if (!project) {
        std::fprintf(stderr, "%s\n", project.error().message.c_str());
        return 2;
    }
    std::vector<double> took, busy;
    ScaleSurvey found;
    for (int i = 0; i < runs; ++i) {
        const auto start = std::chrono::steady_clock::now();
        const std::clock_t ticks = std::clock();
        found = surveyScale(*project, from, to);
        busy.push_back(1000.0 * static_cast<double>(std::clock() - ticks) / CLOCKS_PER_SEC);
        took.push_back(
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
    }
    std::sort(took.begin(), took.end());
    std::sort(busy.begin(), busy.end());
    const std::size_t middle = took.size() / 2;
    std::printf(
        "{\"sample\": \"%s\", \"from\": %g, \"to\": %g, \"runs\": %d, \"ms\": %.0f, \"least_ms\": %.0f, "
        "\"processor_ms\": %.0f, \"evaluations\": %d, \"bands\": %zu, \"steps\": %zu, \"matches\": %zu, "
        "\"pick\": %g}\n",
        sample.c_str(), from, to, runs, took[middle], took.front(), busy[middle], found.evaluations,
        found.bands.size(), found.sheetSteps.size(), found.stock.matches.size(),
        found.pick.scale.value_or(0));
    return 0;
}
