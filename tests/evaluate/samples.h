#pragma once
#include "core/base/paths.h"
#include "core/document/edit.h"
#include "core/document/file.h"
#include "core/evaluate/evaluate.h"
#include <cstdlib>
#include <gtest/gtest.h>

namespace slab::test {

inline Project sample(const std::string& name) {
    auto project = loadProject(sampleFolder() / (name + ".slabside.json"));
    if (!project) {
        ADD_FAILURE() << name << ": " << project.error().message << " at " << project.error().where;
        return {};
    }
    return *project;
}

inline Evaluation evaluated(const Project& project, Effort effort = Effort::live) {
    Evaluator evaluator;
    return evaluator.evaluate(project, effort);
}

/// The document with one edit applied; a refused edit fails the test.
inline Project edited(const Project& project, const Edit& edit) {
    auto result = edit.apply(project);
    if (!result) {
        ADD_FAILURE() << edit.label << ": " << result.error().message << " at " << result.error().where;
        return project;
    }
    return *result;
}

/// SLABSIDE_SEED, or a fixed one; always printed, so that a failing run can be repeated.
inline std::uint64_t seed(std::uint64_t fixed) {
    const char* given = std::getenv("SLABSIDE_SEED");
    const std::uint64_t value = given ? std::strtoull(given, nullptr, 10) : fixed;
    std::printf("seed %llu\n", static_cast<unsigned long long>(value));
    return value;
}

} // namespace slab::test
