#pragma once
// Works on one value of a project by JSON pointer, without turning the rest into JSON.
#include "core/document/json.h"

namespace slab::detail {

enum class Action { get, set, insert, remove, move };

struct Change {
    Action action = Action::get;
    Json value; ///< set, insert: what comes in; get: what was found
    int at = 0; ///< insert, move: index
    int to = 0; ///< move
};

/// Goes down the description of an object along the tokens of a pointer and acts at the end.
///
/// Lists move whole elements; small fields go through JSON by themselves; only what changes the set of fields
/// (the kind of a form, removing a single field) rewrites the object around it.
class Locator {
public:
    Locator(std::span<const std::string> tokens, const Path& path, Change& change)
        : m_tokens(tokens), m_path(path), m_change(change) {}

    /// @error "no-such-place", or why the new value does not fit
    template <class T>
    static Expected<void> act(T& object, std::span<const std::string> tokens, const Path& path,
                              Change& change) {
        if (tokens.empty()) return whole(object, path, change);
        Locator locator(tokens, path, change);
        fields(locator, object);
        if (locator.m_rewrite) return rewrite(object, tokens, path, change);
        if (!locator.m_found) return noPlace(Path{&path, tokens[0]}.text());
        if (!locator.m_errors.empty()) return tl::make_unexpected(locator.m_errors.front());
        return {};
    }

    void text(const char* key, std::string& to, const Spec& spec) {
        small(key, [&](auto& v) { v.text(key, to, spec); });
    }
    void flag(const char* key, bool& to) {
        small(key, [&](auto& v) { v.flag(key, to); });
    }
    void real(const char* key, double& to) {
        small(key, [&](auto& v) { v.real(key, to); });
    }
    void version(const char* key, int& to) {
        small(key, [&](auto& v) { v.version(key, to); });
    }
    void choice(const char* key, bool& to, Words words) {
        small(key, [&](auto& v) { v.choice(key, to, words); });
    }
    template <class E>
    void pick(const char* key, E& to, Words words, const Spec& spec) {
        small(key, [&](auto& v) { v.pick(key, to, words, spec); });
    }
    void names(const char* key, std::vector<std::string>& to, const Spec& spec) {
        small(key, [&](auto& v) { v.names(key, to, spec); });
    }
    void pair(const char* key, std::string& a, std::string& b, const Spec& spec) {
        small(key, [&](auto& v) { v.pair(key, a, b, spec); });
    }
    template <class T>
    void map(const char* key, std::vector<T>& to, const Spec& spec) {
        small(key, [&](auto& v) { v.map(key, to, spec); });
    }
    template <class T>
    void object(const char* key, T& to) {
        if (!mine(key)) return;
        if (m_tokens.size() == 1 && m_change.action == Action::remove)
            to = T{};
        else
            keep(act(to, m_tokens.subspan(1), Path{&m_path, key}, m_change));
    }
    template <class T>
    void list(const char* key, std::vector<T>& to, const Spec& spec) {
        if (mine(key)) keep(actOnList(key, to, spec));
    }
    void shape(const char* key, Shape& to) {
        if (!m_tokens.empty() && m_tokens[0] == key) {
            m_found = m_rewrite = true;
            return;
        }
        std::visit([this](auto& s) { fields(*this, s); }, to);
    }
    void rest(Extra& extra);

private:
    std::span<const std::string> m_tokens;
    const Path& m_path;
    Change& m_change;
    std::vector<Error> m_errors;
    bool m_found = false, m_rewrite = false;

    bool mine(const char* key) {
        const bool is = !m_found && m_tokens[0] == key;
        m_found = m_found || is;
        return is;
    }
    void keep(Expected<void> result) {
        if (!result) m_errors.push_back(std::move(result.error()));
    }
    static Expected<void> noPlace(const std::string& place);
    static Expected<void> onJson(Json& root, std::span<const std::string> tokens, const Path& path,
                                 Change& change);

    /// A field without fields of its own: through JSON, alone.
    template <class Visit>
    void small(const char* key, Visit visit) {
        if (!mine(key)) return;
        if (m_tokens.size() == 1 && m_change.action == Action::remove) {
            m_rewrite = true;
            return;
        }
        Json alone = Json::object();
        Writer writer(alone, true);
        visit(writer);
        if (auto done = onJson(alone, m_tokens, m_path, m_change); !done) return keep(std::move(done));
        if (m_change.action == Action::get) return;
        Reader reader(alone, m_path, m_errors);
        visit(reader);
    }

    template <class T>
    static Expected<void> whole(T& object, const Path& path, Change& change) {
        if (change.action == Action::get) {
            change.value = toJson(object, true);
            return {};
        }
        if (change.action != Action::set) return noPlace(path.text());
        std::vector<Error> errors;
        T fresh{};
        Reader::readObject(change.value, path, fresh, errors);
        if (!errors.empty()) return tl::make_unexpected(errors.front());
        object = std::move(fresh);
        return {};
    }

    template <class T>
    static Expected<void> rewrite(T& object, std::span<const std::string> tokens, const Path& path,
                                  Change& change) {
        Json json = toJson(object, change.action == Action::get);
        if (auto done = onJson(json, tokens, path, change); !done) return done;
        if (change.action == Action::get) return {};
        Change all{Action::set, std::move(json), 0, 0};
        return whole(object, path, all);
    }

    static Expected<std::size_t> indexOf(const std::string& token, std::size_t size,
                                         const std::string& place);
    static Expected<void> checkIndex(int index, std::size_t size, const std::string& place);

    template <class T>
    Expected<void> actOnList(const char* key, std::vector<T>& to, const Spec& spec) {
        const Path here{&m_path, key};
        if (m_tokens.size() == 1) return actOnWholeList(key, to, spec, here);
        const auto index = indexOf(m_tokens[1], to.size(), here.text());
        if (!index) return tl::make_unexpected(index.error());
        if (m_tokens.size() == 2 && m_change.action == Action::remove) {
            to.erase(to.begin() + static_cast<std::ptrdiff_t>(*index));
            return {};
        }
        return act(to[*index], m_tokens.subspan(2), Path{&here, {}, *index}, m_change);
    }

    template <class T>
    Expected<void> actOnWholeList(const char* key, std::vector<T>& to, const Spec& spec, const Path& here) {
        if (m_change.action == Action::insert) {
            if (auto fits = checkIndex(m_change.at, to.size() + 1, here.text()); !fits) return fits;
            T fresh{};
            if (auto read = whole(fresh, Path{&here, {}, static_cast<std::size_t>(m_change.at)}, setting());
                !read)
                return read;
            to.insert(to.begin() + m_change.at, std::move(fresh));
        } else if (m_change.action == Action::move) {
            if (auto fits = checkIndex(m_change.at, to.size(), here.text()); !fits) return fits;
            if (auto fits = checkIndex(m_change.to, to.size(), here.text()); !fits) return fits;
            T moved = std::move(to[static_cast<std::size_t>(m_change.at)]);
            to.erase(to.begin() + m_change.at);
            to.insert(to.begin() + m_change.to, std::move(moved));
        } else if (m_change.action == Action::remove) {
            to.clear();
        } else if (m_change.action == Action::get) {
            m_change.value = Json::array();
            for (const T& one : to) m_change.value.push_back(toJson(one, true));
        } else {
            const Json alone{{key, m_change.value}};
            Reader(alone, m_path, m_errors).list(key, to, spec);
        }
        return {};
    }
    /// The same value, to be set.
    Change& setting() {
        m_change.action = Action::set;
        return m_change;
    }
};

} // namespace slab::detail
