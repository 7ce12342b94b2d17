#include "core/document/locate.h"
#include <charconv>

namespace slab::detail {
namespace {

Unexpected outside(const std::string& place, const std::string& index, std::size_t size) {
    return fail("no-such-place",
                "There is no entry " + index + " here; the list has " + std::to_string(size) + ".", place);
}

/// Takes the entry at `from` out and puts it in at `to`, in lists and in groups.
void reorder(Json& all, int from, int to) {
    if (all.is_array()) {
        Json moved = std::move(all[static_cast<std::size_t>(from)]);
        all.erase(static_cast<std::size_t>(from));
        all.insert(all.begin() + to, std::move(moved));
        return;
    }
    std::vector<std::pair<std::string, Json>> entries;
    for (auto& [key, value] : all.items()) entries.emplace_back(key, value);
    auto moved = std::move(entries[static_cast<std::size_t>(from)]);
    entries.erase(entries.begin() + from);
    entries.insert(entries.begin() + to, std::move(moved));
    all = Json::object();
    for (auto& [key, value] : entries) all[key] = std::move(value);
}

Expected<void> fits(int index, std::size_t size, const std::string& place) {
    if (index < 0 || static_cast<std::size_t>(index) >= size)
        return outside(place, std::to_string(index), size);
    return {};
}

/// New entries of a group, at a place of their own in its order.
Expected<void> insertEntries(Json& group, const std::string& place, const Change& change) {
    for (const auto& [key, value] : change.value.items()) {
        if (group.contains(key)) return fail("duplicate-key", "\"" + key + "\" is there already.", place);
        group[key] = value;
        if (auto fit = fits(change.at, group.size(), place); !fit) return fit;
        reorder(group, static_cast<int>(group.size()) - 1, change.at);
    }
    return {};
}

/// Everything but removing, which needs the value around it.
Expected<void> actOn(Json& at, const std::string& place, Change& change) {
    const bool moves = change.action == Action::move, inserts = change.action == Action::insert;
    if (change.action == Action::get) {
        change.value = at;
    } else if (change.action == Action::set) {
        at = change.value;
    } else if (inserts && at.is_object() && change.value.is_object()) {
        return insertEntries(at, place, change);
    } else if (inserts && at.is_array()) {
        if (auto fit = fits(change.at, at.size() + 1, place); !fit) return fit;
        at.insert(at.begin() + change.at, change.value);
    } else if (moves && at.is_structured()) {
        if (auto fit = fits(change.at, at.size(), place); !fit) return fit;
        if (auto fit = fits(change.to, at.size(), place); !fit) return fit;
        reorder(at, change.at, change.to);
    } else {
        return fail("no-such-place", "There is no list here.", place);
    }
    return {};
}

} // namespace

Expected<void> Locator::noPlace(const std::string& place) {
    return fail("no-such-place", "There is no such place in the document.", place);
}

Expected<std::size_t> Locator::indexOf(const std::string& token, std::size_t size, const std::string& place) {
    std::size_t index = 0;
    const auto done = std::from_chars(token.data(), token.data() + token.size(), index);
    if (done.ec != std::errc{} || done.ptr != token.data() + token.size() || index >= size)
        return outside(place, token, size);
    return index;
}

Expected<void> Locator::checkIndex(int index, std::size_t size, const std::string& place) {
    return fits(index, size, place);
}

Expected<void> Locator::onJson(Json& root, std::span<const std::string> tokens, const Path& path,
                               Change& change) {
    Json* at = &root;
    const auto placeOf = [&](std::size_t count) {
        std::string place = path.text();
        for (const std::string& token : tokens.first(count)) place += "/" + escaped(token);
        return place;
    };
    const bool removes = change.action == Action::remove, sets = change.action == Action::set;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const bool last = i + 1 == tokens.size();
        if (at->is_object()) {
            if (!at->contains(tokens[i]) && !(last && sets)) return noPlace(placeOf(i + 1));
            if (last && removes) {
                at->erase(tokens[i]);
                return {};
            }
            at = &(*at)[tokens[i]];
        } else if (at->is_array()) {
            const auto index = indexOf(tokens[i], at->size(), placeOf(i));
            if (!index) return tl::make_unexpected(index.error());
            if (last && removes) {
                at->erase(*index);
                return {};
            }
            at = &(*at)[*index];
        } else {
            return noPlace(placeOf(i + 1));
        }
    }
    return actOn(*at, placeOf(tokens.size()), change);
}

void Locator::rest(Extra& extra) {
    if (m_found) return;
    for (std::size_t i = 0; i < extra.size() && !m_found; ++i) {
        if (extra[i].first != m_tokens[0]) continue;
        m_found = true;
        if (m_tokens.size() == 1 && m_change.action == Action::remove) {
            extra.erase(extra.begin() + static_cast<std::ptrdiff_t>(i));
            return;
        }
        Json alone = Json::object();
        alone[extra[i].first] = parsed(extra[i].second);
        if (auto done = onJson(alone, m_tokens, m_path, m_change); !done) return keep(std::move(done));
        if (m_change.action != Action::get) extra[i].second = compact(alone[extra[i].first]);
    }
}

} // namespace slab::detail
