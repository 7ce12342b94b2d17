#include "core/document/edit.h"
#include "core/document/locate.h"

namespace slab {
namespace {

using detail::Action;
using detail::Change;
using detail::Json;

Expected<Json> valueOf(const std::string& json) {
    auto value = detail::parseDocument(json);
    if (!value) value.error().message = "The new value cannot be read. " + value.error().message;
    return value;
}

Expected<Project> changed(const Project& project, const std::string& pointer, Change change) {
    const auto tokens = detail::tokensOf(pointer);
    if (!tokens) return tl::make_unexpected(tokens.error());
    Project next = project;
    if (auto done = detail::Locator::act(next, *tokens, detail::Path{}, change); !done)
        return tl::make_unexpected(std::move(done.error()));
    if (auto sound = detail::stillSound(project, next); !sound)
        return tl::make_unexpected(std::move(sound.error()));
    return next;
}

std::string labelOr(std::string label, const char* verb, const std::string& pointer) {
    if (!label.empty()) return label;
    const auto tokens = detail::tokensOf(pointer);
    std::string last = tokens && !tokens->empty() ? tokens->back() : "document";
    if (last.find_first_not_of("0123456789") == std::string::npos && tokens && tokens->size() > 1)
        last = (*tokens)[tokens->size() - 2];
    for (char& c : last)
        if (c == '_') c = ' ';
    return std::string(verb) + " " + last;
}

} // namespace

Edit setValue(std::string pointer, std::string json, std::string label, std::string merge) {
    Edit edit{labelOr(std::move(label), "Change", pointer), std::move(merge), {}};
    edit.apply = [pointer = std::move(pointer),
                  json = std::move(json)](const Project& p) -> Expected<Project> {
        auto value = valueOf(json);
        if (!value) return tl::make_unexpected(std::move(value.error()));
        return changed(p, pointer, Change{Action::set, std::move(*value), 0, 0});
    };
    return edit;
}

Edit insertValue(std::string arrayPointer, int index, std::string json, std::string label) {
    Edit edit{labelOr(std::move(label), "Add to", arrayPointer), {}, {}};
    edit.apply = [arrayPointer = std::move(arrayPointer), index,
                  json = std::move(json)](const Project& p) -> Expected<Project> {
        auto value = valueOf(json);
        if (!value) return tl::make_unexpected(std::move(value.error()));
        return changed(p, arrayPointer, Change{Action::insert, std::move(*value), index, 0});
    };
    return edit;
}

Edit removeValue(std::string pointer, std::string label) {
    Edit edit{labelOr(std::move(label), "Remove from", pointer), {}, {}};
    edit.apply = [pointer = std::move(pointer)](const Project& p) {
        return changed(p, pointer, Change{Action::remove, {}, 0, 0});
    };
    return edit;
}

Edit moveValue(std::string arrayPointer, int from, int to, std::string label) {
    Edit edit{labelOr(std::move(label), "Reorder", arrayPointer), {}, {}};
    edit.apply = [arrayPointer = std::move(arrayPointer), from, to](const Project& p) {
        return changed(p, arrayPointer, Change{Action::move, {}, from, to});
    };
    return edit;
}

Expected<std::string> valueAt(const Project& project, const std::string& pointer) {
    const auto tokens = detail::tokensOf(pointer);
    if (!tokens) return tl::make_unexpected(tokens.error());
    Change change;
    // Getting changes nothing; one visitor serves both, so that a place is found in the same way.
    auto& same = const_cast<Project&>(project);
    if (auto done = detail::Locator::act(same, *tokens, detail::Path{}, change); !done)
        return tl::make_unexpected(std::move(done.error()));
    return detail::compact(change.value);
}

Edit setScale(Text scale, std::string gesture) {
    Edit edit{"Change scale", std::move(gesture), {}};
    edit.apply = [scale = std::move(scale)](const Project& p) -> Expected<Project> {
        Project next = p;
        next.scale = scale;
        return next;
    };
    return edit;
}

} // namespace slab
