#pragma once
// JSON inside the room: reading one object after its description, writing it, and the place of a value. Only
// .cpp files of this room include it.
#include "core/base/error.h"
#include "core/document/describe.h"
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace slab::detail {

using Json = nlohmann::ordered_json;

inline constexpr std::size_t kMostErrors = 1000; ///< that are listed; nobody reads more

/// Place of a value: keys and indices up to the root, written out only when an error needs it.
struct Path {
    const Path* up = nullptr;
    std::string_view key = {};
    std::size_t index = 0;      ///< used when there is no key
    std::string_view root = {}; ///< of the first one: pointer of the place where reading began
    [[nodiscard]] std::string text() const;
};

/// One token of a JSON pointer, escaped (RFC 6901).
[[nodiscard]] std::string escaped(std::string_view token);
/// @error "bad-pointer"
[[nodiscard]] Expected<std::vector<std::string>> tokensOf(std::string_view pointer);

/// "text", "a number", "a list", … of a JSON value.
[[nodiscard]] std::string typeName(const Json& value);

/// Reads the fields of one object; what is wrong goes to `errors`, the member keeps its default.
class Reader {
public:
    Reader(const Json& object, const Path& path, std::vector<Error>& errors)
        : m_object(object), m_path(path), m_errors(errors) {}

    void text(const char* key, std::string& to, const Spec& spec);
    void flag(const char* key, bool& to);
    void real(const char* key, double& to);
    void version(const char* key, int& to);
    void choice(const char* key, bool& to, Words words);
    void names(const char* key, std::vector<std::string>& to, const Spec& spec);
    void pair(const char* key, std::string& a, std::string& b, const Spec& spec);
    void map(const char* key, std::vector<NamedText>& to, const Spec& spec);
    void map(const char* key, std::vector<PlateMaterial>& to, const Spec& spec);
    void shape(const char* key, Shape& to);
    void rest(Extra& to);

    template <class E>
    void pick(const char* key, E& to, Words words, const Spec& spec) {
        std::string word(words[static_cast<std::size_t>(to)]);
        text(key, word, Spec{Role::word, spec.need, words});
        for (std::size_t i = 0; i < words.size(); ++i)
            if (words[i] == word) to = static_cast<E>(i);
    }
    template <class T>
    void object(const char* key, T& to) {
        if (const Json* value = find(key, Need::optional))
            readObject(*value, Path{&m_path, key}, to, m_errors);
    }
    template <class T>
    void list(const char* key, std::vector<T>& to, const Spec& spec) {
        const Json* value = find(key, spec.need);
        if (value == nullptr || !isList(*value, key)) return;
        to.clear();
        to.reserve(value->size());
        const Path path{&m_path, key};
        for (std::size_t i = 0; i < value->size(); ++i) {
            to.emplace_back();
            readObject((*value)[i], Path{&path, {}, i}, to.back(), m_errors);
        }
    }
    template <class T>
    static void readObject(const Json& value, const Path& path, T& to, std::vector<Error>& errors) {
        if (!value.is_object()) {
            wrongType(path, "a group of fields { … }", value, errors);
            return;
        }
        Reader reader(value, path, errors);
        fields(reader, to);
    }
    static void wrongType(const Path& path, const std::string& wanted, const Json& found,
                          std::vector<Error>& errors);

private:
    const Json& m_object;
    const Path& m_path;
    std::vector<Error>& m_errors;
    std::vector<std::string_view> m_known;

    const Json* find(const char* key, Need need);
    bool isList(const Json& value, const char* key);
    bool readText(const Json& value, const Path& path, std::string& to, const Spec& spec);
};

/// JSON of one object. `full`: every field; otherwise what equals its default is left out.
template <class T>
[[nodiscard]] Json toJson(const T& object, bool full);

class Writer {
public:
    Writer(Json& out, bool full) : m_out(out), m_full(full) {}
    std::vector<std::string_view> keep; ///< fields that are always written

    void text(const char* key, const std::string& from, const Spec& spec);
    void flag(const char* key, bool from);
    void real(const char* key, double from);
    void version(const char* key, int from);
    void choice(const char* key, bool from, Words words);
    void names(const char* key, const std::vector<std::string>& from, const Spec& spec);
    void pair(const char* key, const std::string& a, const std::string& b, const Spec& spec);
    void map(const char* key, const std::vector<NamedText>& from, const Spec& spec);
    void map(const char* key, const std::vector<PlateMaterial>& from, const Spec& spec);
    void rest(const Extra& from);

    void shape(const char* key, const Shape& from) {
        keep.push_back(key);
        m_out[key] = kShapeWords[from.index()];
        std::visit([this](const auto& s) { fields(*this, s); }, from);
    }
    template <class E>
    void pick(const char* key, const E& from, Words words, const Spec& spec) {
        note(key, spec.need);
        m_out[key] = words[static_cast<std::size_t>(from)];
    }
    template <class T>
    void object(const char* key, const T& from) {
        m_out[key] = toJson(from, m_full);
    }
    template <class T>
    void list(const char* key, const std::vector<T>& from, const Spec& spec) {
        note(key, spec.need);
        Json& out = m_out[key] = Json::array();
        for (const T& one : from) out.push_back(toJson(one, m_full));
    }

private:
    Json& m_out;
    bool m_full;
    void note(const char* key, Need need) {
        if (need != Need::optional) keep.push_back(key);
    }
    static Json textValue(const std::string& text, Role role);
};

/// Removes what equals `blank` and need not be written.
void dropDefaults(Json& object, const Json& blank, const std::vector<std::string_view>& keep);

template <class T>
Json writeFields(const T& object, bool full, std::vector<std::string_view>& keep) {
    Json out = Json::object();
    Writer writer(out, full);
    fields(writer, object);
    keep = std::move(writer.keep);
    return out;
}

/// What an object looks like before anything is written in it.
template <class T>
const Json& blankOf(const T&) {
    static const Json blank = [] {
        std::vector<std::string_view> keep;
        return writeFields(T{}, false, keep);
    }();
    return blank;
}
const Json& blankOf(const Form& form); ///< of the same kind

template <class T>
Json toJson(const T& object, bool full) {
    std::vector<std::string_view> keep;
    Json out = writeFields(object, full, keep);
    if (!full) dropDefaults(out, blankOf(object), keep);
    return out;
}

/// Extra text as JSON and back.
[[nodiscard]] Json parsed(const std::string& compact);
[[nodiscard]] std::string compact(const Json& value);

/// Bytes to JSON: size, encoding, depth, doubled keys and syntax checked before anything is built.
[[nodiscard]] Expected<Json> parseDocument(std::string_view text);

/// What cannot be seen field by field: names used twice or badly formed, outlines without corners.
[[nodiscard]] std::vector<Error> checkProject(const Project& project);
/// Sheets that are named but not in the stock, "unknown-stock". A file with them is read, and the punch list
/// has a finding for each; an edit that would bring one in is refused.
[[nodiscard]] std::vector<Error> checkUses(const Project& project);
/// @error the first error of `after` that was not there before
[[nodiscard]] Expected<void> stillSound(const Project& before, const Project& after);

} // namespace slab::detail
