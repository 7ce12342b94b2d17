#include "app/commands.h"
#include "app/arguments.h"
#include "core/document/file.h"
#include "core/evaluate/evaluate.h"
#include "core/evaluate/stages.h"
#include "core/nesting/nest.h"
#include "core/pack/pack.h"
#include "core/picture/files.h"
#include "core/survey/survey_report.h"
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <sstream>
#include <thread>

namespace slab::app {

namespace {

int complain(const Error& error) {
    std::cerr << "slabside: " << error.message;
    if (!error.where.empty()) std::cerr << " (at " << error.where << ")";
    std::cerr << "\n";
    if (!error.remedy.empty()) std::cerr << "  " << error.remedy << "\n";
    if (error.code == "usage") std::cerr << "  Try: slabside --help\n";
    return refused;
}

int statusOf(const Evaluation& e) {
    const bool stops = std::any_of(e.findings.begin(), e.findings.end(),
                                   [](const Finding& f) { return f.severity == Severity::stop; });
    return stops ? blocked : done;
}

/// A file of at most `limit` bytes. @error "cannot-read", "too-large"
Expected<std::string> readFile(const std::string& path, std::size_t limit) {
    std::ifstream in(path, std::ios::binary);
    if (!in)
        return fail("cannot-read", "Cannot read " + path + ".", {}, "Check the name and its permissions.");
    std::string text;
    char buffer[1 << 16];
    while (in.read(buffer, sizeof buffer) || in.gcount() > 0) {
        text.append(buffer, static_cast<std::size_t>(in.gcount()));
        if (text.size() > limit) return fail("too-large", path + " is too large to be read.");
    }
    if (in.bad()) return fail("cannot-read", "Cannot read " + path + ".", {}, "Is it a file?");
    return text;
}

/// One file name, after the options were read. @error "usage"
Expected<std::string> onlyWord(const Arguments& arguments, const std::string& what) {
    if (arguments.words.size() != 1)
        return fail("usage",
                    arguments.words.empty() ? "Which " + what + "?" : "Only one " + what + " at a time.");
    return arguments.words.front();
}

PictureFiles picturesBeside(const Project& project, const std::string& file) {
    return readPictureFiles(project, std::filesystem::path(file).parent_path());
}

/// The scale survey alone, from half to twice the document's scale unless told otherwise.
int survey(const Project& project, const Arguments& arguments) {
    constexpr double least = 0.001, most = 1000;
    const double now = std::clamp(readScale(project.scale).value_or(1), 2 * least, most / 2);
    const auto from = scaleOption(arguments, "from", now / 2, least, most);
    if (!from) return complain(from.error());
    const auto to = scaleOption(arguments, "to", now * 2, least, most);
    if (!to) return complain(to.error());
    if (*from == *to) return complain(Error{"usage", "--from and --to are the same scale.", {}, {}});
    const ScaleSurvey found = surveyScale(project, std::min(*from, *to), std::max(*from, *to));
    std::cout << (arguments.has("json") ? surveyJson(found) : surveyText(found, unitStyleOf(project.units)))
              << std::flush;
    return done;
}

} // namespace

int reportCommand(const std::vector<std::string>& given) {
    const auto arguments = readArguments(given, {"json", "survey"}, {"from", "to"});
    if (!arguments) return complain(arguments.error());
    const auto file = onlyWord(*arguments, "document");
    if (!file) return complain(file.error());
    const auto project = loadProject(*file);
    if (!project) return complain(project.error());
    if (arguments->has("survey")) return survey(*project, *arguments);
    Evaluator evaluator;
    const Evaluation e = evaluator.evaluate(*project, Effort::full, 0, {}, picturesBeside(*project, *file));
    std::cout << (arguments->has("json") ? reportJson(*project, e) : reportText(*project, e)) << std::flush;
    return statusOf(e);
}

int packCommand(const std::vector<std::string>& given) {
    const auto arguments = readArguments(given, {}, {"to"});
    if (!arguments) return complain(arguments.error());
    const auto file = onlyWord(*arguments, "document");
    if (!file) return complain(file.error());
    if (arguments->get("to").empty()) return complain(Error{"usage", "Where to? Give --to DIR.", {}, {}});
    auto project = loadProject(*file);
    if (!project) return complain(project.error());
    project->title = shownTitle(*project, *file); // as the window calls it
    Evaluator evaluator;
    const Evaluation e = evaluator.evaluate(*project, Effort::full, 0, {}, picturesBeside(*project, *file));
    const auto written = writePack(*project, e, arguments->get("to"));
    if (!written) return complain(written.error());
    for (const auto& path : *written) std::cout << path.string() << "\n";
    for (const Finding& f : e.findings)
        if (f.severity == Severity::stop) std::cerr << "stop: " << f.message << "\n";
    return statusOf(e);
}

int nestCommand(const std::vector<std::string>& given) {
    const auto arguments = readArguments(given, {"json"}, {"seconds", "rounds", "seed", "threads"});
    if (!arguments) return complain(arguments.error());
    const auto file = onlyWord(*arguments, "instance file");
    if (!file) return complain(file.error());
    const auto seconds = numberOption(*arguments, "seconds", 10, 0, 86400);
    const auto rounds = numberOption(*arguments, "rounds", 0, 0, 1e9);
    const auto seed = numberOption(*arguments, "seed", 1, 0, 4294967295.0);
    const auto threads =
        numberOption(*arguments, "threads", std::max(1U, std::thread::hardware_concurrency()), 1, 256);
    for (const auto* option : {&seconds, &rounds, &seed, &threads})
        if (!*option) return complain(option->error());
    const auto text = readFile(*file, std::size_t{64} << 20);
    if (!text) return complain(text.error());
    const auto problem = readInstance(*text);
    if (!problem) return complain(problem.error());

    NestOptions options;
    options.seconds = *seconds;
    options.rounds = static_cast<int>(*rounds);
    options.seed = static_cast<std::uint64_t>(*seed);
    options.threads = static_cast<int>(*threads);
    const auto start = std::chrono::steady_clock::now();
    const NestResult result = nest(*problem, options);
    const double spent = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    if (arguments->has("json")) {
        std::cout << nestJson(*problem, result, spent) << "\n";
    } else if (problem->strip > 0) {
        std::printf("length %.4f, density %.2f %%, %.1f s\n", result.stripLength, result.density * 100,
                    spent);
    } else {
        std::printf("%zu sheets, %.2f %% used, %.1f s\n", result.layouts.size(), result.density * 100, spent);
    }
    if (!result.unplaced.empty()) std::cerr << result.unplaced.size() << " parts find no place\n";
    return result.unplaced.empty() ? done : blocked;
}

std::string helpText() {
    return "Slabside designs rideable bodies of flat plates around a donor chassis.\n"
           "\n"
           "  slabside [FILE]                      open the window, on FILE if given\n"
           "  slabside report FILE [--json]        everything that follows from the document\n"
           "  slabside report FILE --survey [--from SCALE] [--to SCALE] [--json]\n"
           "                                       what holds at which scale\n"
           "  slabside pack FILE --to DIR          write the build pack: templates, drawings, sheets, "
           "shopping list\n"
           "  slabside nest INSTANCE.json [--seconds S | --rounds R] [--seed N] [--threads N] [--json]\n"
           "                                       lay the parts of an instance file on its sheets or "
           "strip;\n"
           "                                       so many rounds repeat exactly, so many seconds end by the "
           "clock\n"
           "  slabside --help, slabside --version\n"
           "\n"
           "Results go to stdout, messages to stderr.\n"
           "Exit status: 0 done; 1 done, but something on the punch list stops the build; 2 bad usage or "
           "input.\n";
}

} // namespace slab::app
