// Drags the scale of the fire boat through 200 steps and times each: from the edit to new outlines, live
// clearances, a checked layout and totals. Then drags points of its hull, 200 steps each, and times each from
// the edit to new outlines and clearances, and to the layout and totals. Prints p50 and p95, and the same of
// OpenCASCADE's verdict at rest; --json for one JSON line.
#include "core/base/paths.h"
#include "core/document/edit.h"
#include "core/document/file.h"
#include "core/evaluate/evaluate.h"
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <vector>

namespace {

using Clock = std::chrono::steady_clock;

/// Time that this program has used the processor, ms: what a drag takes on a machine that does nothing else.
double processorTime() {
    return 1000.0 * static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

double percentile(std::vector<double> values, double fraction) {
    std::sort(values.begin(), values.end());
    const double at = fraction * static_cast<double>(values.size() - 1);
    const auto low = static_cast<std::size_t>(at);
    const std::size_t high = std::min(low + 1, values.size() - 1);
    return values[low] + (values[high] - values[low]) * (at - static_cast<double>(low));
}

/// From the hand letting go at a scale that is new to the confirmed fit there, ms.
std::vector<double> verdictTimes(slab::Evaluator& evaluator, slab::History& history, double middle) {
    constexpr int rests = 20;
    std::vector<double> times;
    for (int i = 0; i < rests; ++i) {
        const double scale = middle * (0.9 + 0.2 * (i + 0.5) / rests);
        (void)history.push(slab::setScale(slab::printExact(scale, slab::Unit::none), "bench"));
        (void)evaluator.evaluate(history.current(), slab::Effort::live, history.revision());
        const auto start = Clock::now();
        const slab::Evaluation e =
            evaluator.evaluate(history.current(), slab::Effort::verdict, history.revision());
        if (e.fit && e.fit->confirmed)
            times.push_back(std::chrono::duration<double, std::milli>(Clock::now() - start).count());
    }
    if (times.empty()) times.push_back(-1); // never confirmed
    return times;
}

struct PointDrag {
    std::vector<double> fit, all; ///< ms to outlines and clearances; to layout and totals too
    std::vector<double> busy;     ///< of the first, processor time
    int sound = 0;
};

/// Drags one coordinate there and back by `way` mm of the subject.
void dragPoint(const slab::Project& project, const std::string& pointer, double way, PointDrag& times) {
    constexpr int steps = 100;
    slab::History history(project);
    slab::Evaluator evaluator, whole;
    (void)evaluator.evaluate(project, slab::Effort::full);
    (void)whole.evaluate(project, slab::Effort::full);
    std::string formula = *slab::valueAt(project, pointer);
    formula.pop_back(); // the closing quote
    for (int i = 0; i < steps; ++i) {
        const double at = way * (1 - std::abs(1 - 2.0 * (i + 1) / steps));
        auto start = Clock::now();
        const double used = processorTime();
        (void)history.push(slab::setValue(
            pointer, formula + " + " + slab::printExact(at, slab::Unit::mm) + "\"", "", "bench"));
        const slab::Evaluation e =
            evaluator.evaluate(history.current(), slab::Effort::fitOnly, history.revision());
        times.fit.push_back(std::chrono::duration<double, std::milli>(Clock::now() - start).count());
        times.busy.push_back(processorTime() - used);
        start = Clock::now();
        const slab::Evaluation l = whole.evaluate(history.current(), slab::Effort::live, history.revision());
        times.all.push_back(std::chrono::duration<double, std::milli>(Clock::now() - start).count());
        times.sound += e.panels && e.fit && l.sheets && l.sheets->unplaced.empty() ? 1 : 0;
    }
}

PointDrag pointDrags(const slab::Project& project) {
    PointDrag times;
    dragPoint(project, "/forms/0/outline/6/x", 300, times);  // stem head
    dragPoint(project, "/forms/0/outline/5/z", -150, times); // upper bow
    dragPoint(project, "/forms/0/outline/1/x", -300, times); // bilge
    dragPoint(project, "/forms/1/top/1/x", 120, times);      // the wheelhouse's front
    return times;
}

} // namespace

int main(int argc, char** argv) {
    bool json = false;
    std::filesystem::path file = slab::sampleFolder() / "harbour-fire-boat.slabside.json";
    for (int i = 1; i < argc; ++i)
        if (std::strcmp(argv[i], "--json") == 0)
            json = true;
        else
            file = argv[i];
    const auto project = slab::loadProject(file);
    if (!project) {
        std::fprintf(stderr, "%s\n", project.error().message.c_str());
        return 2;
    }
    slab::History history(*project);
    slab::Evaluator evaluator;
    const slab::Evaluation rest = evaluator.evaluate(history.current(), slab::Effort::full);
    const double middle = rest.scale;

    constexpr int steps = 200;
    std::vector<double> times;
    int sound = 0;
    for (int i = 0; i < steps; ++i) {
        // Up, down past the start, and back, as a hand does: ±10 %.
        const double turn = static_cast<double>(i) / steps;
        const double swing = turn < 0.25 ? turn * 4 : turn < 0.75 ? 2 - turn * 4 : turn * 4 - 4;
        const double scale = middle * (1 + 0.1 * swing);
        const auto start = Clock::now();
        (void)history.push(slab::setScale(slab::printExact(scale, slab::Unit::none), "bench"));
        const slab::Evaluation e =
            evaluator.evaluate(history.current(), slab::Effort::live, history.revision());
        times.push_back(std::chrono::duration<double, std::milli>(Clock::now() - start).count());
        sound += e.panels && e.fit && e.sheets && e.sheets->unplaced.empty() ? 1 : 0;
    }
    const std::vector<double> verdicts = verdictTimes(evaluator, history, middle);
    const PointDrag points = pointDrags(*project);
    const double d50 = percentile(points.fit, 0.5), d95 = percentile(points.fit, 0.95);
    const double a50 = percentile(points.all, 0.5), a95 = percentile(points.all, 0.95);
    const double p50 = percentile(times, 0.5), p95 = percentile(times, 0.95);
    const double v50 = percentile(verdicts, 0.5), v95 = percentile(verdicts, 0.95);
    if (json)
        std::printf(
            "{\"steps\":%d,\"plates\":%d,\"sound\":%d,\"p50_ms\":%.3f,\"p95_ms\":%.3f,"
            "\"verdict_p50_ms\":%.1f,\"verdict_p95_ms\":%.1f,\"point_p50_ms\":%.3f,\"point_p95_ms\":%.3f,"
            "\"point_all_p50_ms\":%.3f,\"point_all_p95_ms\":%.3f}\n",
            steps, rest.totals.plates, sound, p50, p95, v50, v95, d50, d95, a50, a95);
    else
        std::printf("%d steps, %d plates, %d sound\np50 %.2f ms\np95 %.2f ms\n"
                    "OpenCASCADE's verdict at rest, %zu times: p50 %.0f ms, p95 %.0f ms\n"
                    "%zu steps of points, %d sound\nto outlines and fit p50 %.2f ms, p95 %.2f ms (processor "
                    "%.2f, %.2f)\n"
                    "to layout and totals p50 %.2f ms, p95 %.2f ms\n",
                    steps, rest.totals.plates, sound, p50, p95, verdicts.size(), v50, v95, points.fit.size(),
                    points.sound, d50, d95, percentile(points.busy, 0.5), percentile(points.busy, 0.95), a50,
                    a95);
    return sound == steps ? 0 : 1;
}
