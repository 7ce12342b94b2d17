#include "core/board/module_edits.h"
#include <algorithm>

namespace slab {

namespace {

using Names = std::vector<std::string>;

bool has(const Names& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

bool takes(const Module& module, const std::string& plate) {
    return std::any_of(module.plates.begin(), module.plates.end(),
                       [&](const std::string& pattern) { return matches(pattern, plate); });
}

/// "house" of "house/p4".
std::string formOf(const std::string& plate) {
    return plate.substr(0, plate.find('/'));
}

/// What a plate is fastened to: "port" of "port/strip"; empty = nothing of that name is there.
std::string hostOf(const std::string& plate, const Names& all) {
    for (auto slash = plate.rfind('/'); slash != std::string::npos && slash > 0;
         slash = plate.rfind('/', slash - 1))
        if (const std::string host = plate.substr(0, slash); has(all, host)) return host;
    return {};
}

Names namesOf(const Evaluation& evaluation) {
    Names all;
    if (evaluation.plates)
        for (const Plate& plate : evaluation.plates->plates) all.push_back(plate.name);
    return all;
}

/// Entries for these plates: a form that they are all of is one entry.
Names entriesFor(const Names& plates, const Names& all) {
    Names out;
    const auto add = [&](const std::string& entry) {
        if (!has(out, entry)) out.push_back(entry);
    };
    for (const std::string& plate : plates) {
        const std::string form = formOf(plate) + "/";
        int of = 0, chosen = 0;
        for (const std::string& other : all) {
            if (!other.starts_with(form) || !hostOf(other, all).empty()) continue;
            ++of;
            chosen += has(plates, other);
        }
        add(of > 1 && of == chosen ? form + "*" : plate);
    }
    return out;
}

/// A module's entries without some plates, and whether anything changed.
std::pair<Names, bool> entriesWithout(const Module& module, const Names& gone, const Evaluation& evaluation,
                                      const Names& all) {
    Names out;
    bool any = false;
    const auto add = [&](const std::string& entry) {
        if (!has(out, entry)) out.push_back(entry);
    };
    for (const std::string& pattern : module.plates) {
        if (std::none_of(gone.begin(), gone.end(),
                         [&](const std::string& name) { return matches(pattern, name); })) {
            add(pattern);
            continue;
        }
        any = true;
        for (const std::string& name : all)
            if (matches(pattern, name) && !has(gone, name) && !has(gone, hostOf(name, all)) &&
                hostOf(name, all).empty())
                add(name);
        if (!evaluation.mechanisms || !evaluation.body) continue;
        for (const BoughtPart& part : boughtParts(*evaluation.mechanisms, *evaluation.body))
            if (matches(pattern, part.name) || matches(pattern, part.owner)) add(part.owner);
    }
    return {std::move(out), any};
}

/// The modules without some plates, those of nothing too; `keep` stays as it is.
/// @return whether any had one of them
bool takeOut(std::vector<Module>& modules, const Names& gone, const Evaluation& evaluation, int keep) {
    const Names all = namesOf(evaluation);
    bool any = false;
    for (std::size_t i = 0; i < modules.size(); ++i) {
        if (static_cast<int>(i) == keep) continue;
        auto [left, changed] = entriesWithout(modules[i], gone, evaluation, all);
        if (!changed) continue;
        modules[i].plates = std::move(left);
        any = true;
    }
    return any;
}

void dropEmpty(std::vector<Module>& modules, const std::vector<Module>& before) {
    std::erase_if(modules, [&](const Module& module) {
        const auto was = std::find_if(before.begin(), before.end(),
                                      [&](const Module& other) { return other.name == module.name; });
        return module.plates.empty() && was != before.end() && !was->plates.empty();
    });
}

std::optional<Error> wrongPlates(const Names& plates, const Evaluation& evaluation) {
    if (plates.empty())
        return Error{"nothing-chosen",
                     "No plate is chosen.",
                     {},
                     "Choose plates in Fit or in the list of "
                     "plates; with Shift one more."};
    const Names all = namesOf(evaluation);
    for (const std::string& plate : plates)
        if (!has(all, plate))
            return Error{"no-such-place", "There is no plate " + plate + " now.", plate, "Choose it again."};
    return {};
}

std::string several(const Names& plates) {
    return plates.size() == 1 ? plates.front() : std::to_string(plates.size()) + " plates";
}

Edit withModules(std::string label, std::vector<Module> modules) {
    return {std::move(label), {}, [modules = std::move(modules)](const Project& p) -> Expected<Project> {
                Project next = p;
                next.modules = modules;
                return next;
            }};
}

std::string freshName(const std::vector<Module>& modules, const Names& plates) {
    const std::string form = formOf(plates.front());
    const bool one = std::all_of(plates.begin(), plates.end(),
                                 [&](const std::string& plate) { return formOf(plate) == form; });
    const std::string stem = one ? form : "module";
    std::string name = stem;
    for (int n = 2; std::any_of(modules.begin(), modules.end(),
                                [&](const Module& module) { return module.name == name; });
         ++n)
        name = stem + " " + std::to_string(n);
    return name;
}

} // namespace

int moduleOf(const Project& project, const std::string& plate) {
    const auto& modules = project.modules;
    for (std::string name = plate;; name.resize(name.rfind('/'))) {
        const auto at = std::find_if(modules.begin(), modules.end(),
                                     [&](const Module& module) { return takes(module, name); });
        if (at != modules.end()) return static_cast<int>(at - modules.begin());
        if (name.find('/') == name.rfind('/')) return -1; // a form, or a side of one, is fastened to nothing
    }
}

Expected<Edit> makeModule(const Project& project, const Evaluation& evaluation, const Names& plates) {
    if (auto wrong = wrongPlates(plates, evaluation)) return Unexpected(std::move(*wrong));
    std::vector<Module> modules = project.modules;
    takeOut(modules, plates, evaluation, -1);
    Module made;
    made.name = freshName(project.modules, plates);
    made.plates = entriesFor(plates, namesOf(evaluation));
    dropEmpty(modules, project.modules);
    modules.push_back(made);
    return withModules("Make module " + made.name, std::move(modules));
}

Expected<Edit> addToModule(const Project& project, const Evaluation& evaluation, int module,
                           const Names& plates) {
    if (auto wrong = wrongPlates(plates, evaluation)) return Unexpected(std::move(*wrong));
    if (module < 0 || module >= static_cast<int>(project.modules.size()))
        return fail("no-such-place", "That module is not in the document any more.",
                    "/modules/" + std::to_string(module), "Choose it again.");
    std::vector<Module> modules = project.modules;
    const Module was = modules[static_cast<std::size_t>(module)];
    Names wanted;
    for (const std::string& plate : plates)
        if (moduleOf(project, plate) != module) wanted.push_back(plate);
    if (wanted.empty())
        return fail("already-there", several(plates) + " comes off with " + was.name + " already.", was.name,
                    "Choose other plates.");
    takeOut(modules, wanted, evaluation, module);
    for (const std::string& entry : entriesFor(wanted, namesOf(evaluation)))
        modules[static_cast<std::size_t>(module)].plates.push_back(entry);
    dropEmpty(modules, project.modules);
    return withModules("Add " + several(wanted) + " to module " + was.name, std::move(modules));
}

Expected<Edit> takeFromModules(const Project& project, const Evaluation& evaluation, const Names& plates) {
    if (auto wrong = wrongPlates(plates, evaluation)) return Unexpected(std::move(*wrong));
    std::vector<Module> modules = project.modules;
    if (!takeOut(modules, plates, evaluation, -1))
        return fail("no-module", several(plates) + (plates.size() == 1 ? " is" : " are") + " in no module.",
                    plates.front(), "Choose plates of a module.");
    dropEmpty(modules, project.modules);
    return withModules("Take " + several(plates) + " out of its module", std::move(modules));
}

} // namespace slab
