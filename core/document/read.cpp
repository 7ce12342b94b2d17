#include "core/document/file.h"
#include "core/document/json.h"
#include <algorithm>

namespace slab {
namespace {

using detail::Json;

/// Fills `project` as far as it goes; every error.
std::vector<Error> readAll(std::string_view json, Project& project) {
    const auto document = detail::parseDocument(json);
    if (!document) return {document.error()};
    std::vector<Error> errors;
    detail::Reader::readObject(*document, detail::Path{}, project, errors);
    const auto has = [&](auto test) { return std::any_of(errors.begin(), errors.end(), test); };
    // What a newer version means is not ours to judge.
    if (has([](const Error& e) { return e.code == "newer-version"; })) {
        std::erase_if(errors, [](const Error& e) { return e.code != "newer-version"; });
        return errors;
    }
    const bool stockBroken = has([](const Error& e) { return e.where.starts_with("/stock"); });
    for (Error& e : detail::checkProject(project)) {
        if (stockBroken && e.code == "unknown-stock") continue;
        // A field that could not be read is told once.
        if (has([&](const Error& first) {
                return e.where == first.where || e.where.starts_with(first.where + "/") ||
                       first.where.starts_with(e.where + "/");
            }))
            continue;
        errors.push_back(std::move(e));
    }
    return errors;
}

} // namespace

Expected<Project> readProject(std::string_view json) {
    Project project;
    auto errors = readAll(json, project);
    if (!errors.empty()) return tl::make_unexpected(std::move(errors.front()));
    return project;
}

std::vector<Error> validateProject(std::string_view json) {
    Project project;
    return readAll(json, project);
}

} // namespace slab
