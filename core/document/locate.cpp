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
    if (index < 0 || static_cast<std::size_t>(index) >= size)
        return outside(place, std::to_string(index), size);
    return {};
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
    if (change.action == Action::get) {
        change.value = *at;
        return {};
    }
    if (sets) {
        *at = change.value;
        return {};
    }
    if (change.action == Action::insert && at->is_object() && change.value.is_object()) {
        for (const auto& [key, value] : change.value.items()) {
            if (at->contains(key))
                return fail("duplicate-key", "\"" + key + "\" is there already.", placeOf(tokens.size()));
            (*at)[key] = value;
            const int end = static_cast<int>(at->size()) - 1;
            if (auto fits = checkIndex(change.at, at->size(), placeOf(tokens.size())); !fits) return fits;
            reorder(*at, end, change.at);
        }
        return {};
    }
    if (!at->is_array() && !(at->is_object() && change.action == Action::move))
        return noPlace(placeOf(tokens.size()));
    if (change.action == Action::insert) {
        if (auto fits = checkIndex(change.at, at->size() + 1, placeOf(tokens.size())); !fits) return fits;
        at->insert(at->begin() + change.at, change.value);
        return {};
    }
    if (auto fits = checkIndex(change.at, at->size(), placeOf(tokens.size())); !fits) return fits;
    if (auto fits = checkIndex(change.to, at->size(), placeOf(tokens.size())); !fits) return fits;
    reorder(*at, change.at, change.to);
    return {};
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
