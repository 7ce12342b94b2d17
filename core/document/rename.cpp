#include "core/document/describe.h"
#include "core/document/edit.h"
#include "core/document/json.h"
#include "core/document/texts.h"
#include <algorithm>

namespace slab {
namespace {

using detail::Role;

bool isFormula(Role role) {
    return role == Role::length || role == Role::angle || role == Role::number || role == Role::any;
}

/// Refuses if the name is not there, or the new one is taken.
template <class T>
Expected<std::size_t> find(const std::vector<T>& all, const std::string& from, const std::string& to,
                           const char* what) {
    const auto named = [&](const std::string& name) {
        return std::find_if(all.begin(), all.end(), [&](const T& one) { return one.name == name; });
    };
    const auto at = named(from);
    if (at == all.end())
        return fail("unknown-name", std::string("There is no ") + what + " named " + from + ".");
    if (from != to && named(to) != all.end())
        return fail("duplicate-name", std::string("There is already a ") + what + " named " + to + ".", {},
                    "choose another name");
    return static_cast<std::size_t>(at - all.begin());
}

/// Refuses what the document would not accept in a file.
Expected<Project> sound(Project next, const std::string& where) {
    for (Error& e : detail::checkProject(next))
        if (e.where == where) return tl::make_unexpected(std::move(e));
    return next;
}

/// "hull/port" and "hull port/deck" belong to the form "hull" (a mirrored one has two sides); a panel may
/// join names.
std::string renamedPlate(const std::string& plate, const std::string& from, const std::string& to) {
    if (!plate.starts_with(from)) return plate;
    const std::string_view rest = std::string_view(plate).substr(from.size());
    const bool whole = rest.empty() || rest[0] == '/' || rest[0] == '#';
    const bool side = rest.starts_with(" port/") || rest.starts_with(" starboard/") ||
                      rest.starts_with(" port#") || rest.starts_with(" starboard#") || rest == " port" ||
                      rest == " starboard";
    return whole || side ? to + std::string(rest) : plate;
}

} // namespace

Edit renameDimension(std::string from, std::string to) {
    Edit edit{"Rename " + from + " to " + to, {}, {}};
    edit.apply = [from, to](const Project& p) -> Expected<Project> {
        const auto at = find(p.dimensions, from, to, "dimension");
        if (!at) return tl::make_unexpected(at.error());
        Project next = p;
        next.dimensions[*at].name = to;
        detail::eachText(next, [&](Role role, std::string& text) {
            if (isFormula(role) && text.find(from) != std::string::npos) text = renamed(text, from, to);
        });
        return sound(std::move(next), "/dimensions/" + std::to_string(*at) + "/name");
    };
    return edit;
}

Edit renameForm(std::string from, std::string to) {
    Edit edit{"Rename " + from + " to " + to, {}, {}};
    edit.apply = [from, to](const Project& p) -> Expected<Project> {
        const auto at = find(p.forms, from, to, "form");
        if (!at) return tl::make_unexpected(at.error());
        Project next = p;
        next.forms[*at].name = to;
        detail::eachText(next, [&](Role role, std::string& text) {
            if (role == Role::plate || role == Role::panel) text = renamedPlate(text, from, to);
        });
        return sound(std::move(next), "/forms/" + std::to_string(*at) + "/name");
    };
    return edit;
}

Edit renameStock(std::string from, std::string to) {
    Edit edit{"Rename " + from + " to " + to, {}, {}};
    edit.apply = [from, to](const Project& p) -> Expected<Project> {
        const auto at = find(p.stock.sheets, from, to, "sheet");
        if (!at) return tl::make_unexpected(at.error());
        Project next = p;
        next.stock.sheets[*at].name = to;
        detail::eachText(next, [&](Role role, std::string& text) {
            if (role == Role::stock && text == from) text = to;
        });
        return sound(std::move(next), "/stock/sheets/" + std::to_string(*at) + "/name");
    };
    return edit;
}

} // namespace slab
