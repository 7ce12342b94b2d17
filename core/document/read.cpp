#include "core/document/file.h"
#include "core/document/json.h"
#include <algorithm>
#include <unordered_set>

namespace slab {
namespace {

using detail::Json;

/// Places that could not be read: they are told once, without what follows from that.
class Told {
public:
    explicit Told(const std::vector<Error>& errors) {
        for (const Error& e : errors) {
            m_at.insert(e.where);
            for (std::size_t i = e.where.size(); i > 0; --i)
                if (e.where[i - 1] == '/') m_above.insert(e.where.substr(0, i - 1));
        }
    }
    [[nodiscard]] bool covers(const std::string& where) const {
        if (m_above.contains(where) || m_at.contains(where)) return true;
        for (std::size_t i = where.size(); i > 0; --i)
            if (where[i - 1] == '/' && m_at.contains(where.substr(0, i - 1))) return true;
        return false;
    }

private:
    std::unordered_set<std::string> m_at, m_above;
};

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
    const Told told(errors);
    for (Error& e : detail::checkProject(project)) {
        if (errors.size() >= detail::kMostErrors) break;
        if (!told.covers(e.where)) errors.push_back(std::move(e));
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
