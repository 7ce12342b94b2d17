#include "core/document/json.h"
#include "core/units/number.h"
#include <cmath>

namespace slab::detail {
namespace {

bool isFormula(Role role) {
    return role == Role::length || role == Role::angle || role == Role::number || role == Role::any ||
           role == Role::ratio;
}

std::string listOf(Words words) {
    std::string out;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (words[i].empty()) continue;
        if (!out.empty()) out += i + 1 == words.size() ? " or " : ", ";
        out += words[i];
    }
    return out;
}

void add(std::vector<Error>& errors, Error error) {
    if (errors.size() < kMostErrors) errors.push_back(std::move(error));
}

template <std::size_t I = 0>
void makeShape(std::size_t index, Shape& to) {
    if constexpr (I < std::variant_size_v<Shape>) {
        if (index == I)
            to.emplace<I>();
        else
            makeShape<I + 1>(index, to);
    }
}

} // namespace

std::string Path::text() const {
    std::string before = up != nullptr ? up->text() : std::string(root);
    if (up == nullptr) return before;
    return before + "/" + (key.data() == nullptr ? std::to_string(index) : escaped(key));
}

std::string escaped(std::string_view token) {
    std::string out;
    for (char c : token) {
        if (c == '~')
            out += "~0";
        else if (c == '/')
            out += "~1";
        else
            out += c;
    }
    return out;
}

Expected<std::vector<std::string>> tokensOf(std::string_view pointer) {
    std::vector<std::string> tokens;
    if (pointer.empty()) return tokens;
    if (pointer[0] != '/')
        return fail("bad-pointer", "A place in the document begins with /.", std::string(pointer));
    for (std::size_t i = 0; i < pointer.size(); ++i) {
        if (pointer[i] == '/') {
            tokens.emplace_back();
        } else if (pointer[i] == '~') {
            ++i;
            if (i >= pointer.size() || (pointer[i] != '0' && pointer[i] != '1'))
                return fail("bad-pointer", "In a place, ~ is written ~0 and / within a name ~1.",
                            std::string(pointer));
            tokens.back() += pointer[i] == '0' ? '~' : '/';
        } else {
            tokens.back() += pointer[i];
        }
    }
    return tokens;
}

std::string typeName(const Json& value) {
    switch (value.type()) {
    case Json::value_t::string:
        return "text";
    case Json::value_t::boolean:
        return "true or false";
    case Json::value_t::array:
        return "a list [ … ]";
    case Json::value_t::object:
        return "a group of fields { … }";
    case Json::value_t::null:
        return "null";
    default:
        return "a number";
    }
}

void Reader::wrongType(const Path& path, const std::string& wanted, const Json& found,
                       std::vector<Error>& errors) {
    const std::string here = path.text();
    if (here.empty()) {
        add(errors, {"wrong-type", "The file holds " + typeName(found) + ", not a Slabside document.",
                     "line 1 column 1", "open a *.slabside.json file, or the backup beside it"});
        return;
    }
    add(errors, {"wrong-type", "Here stands " + typeName(found) + ", but " + wanted + " is needed.", here,
                 "write " + wanted + " here, or remove the field"});
}

const Json* Reader::find(const char* key, Need need) {
    m_known.emplace_back(key);
    const auto at = m_object.find(key);
    if (at != m_object.end()) return &*at;
    if (need == Need::required)
        add(m_errors, {"missing", std::string("The field \"") + key + "\" is missing.",
                       Path{&m_path, key}.text(), std::string("add \"") + key + "\""});
    return nullptr;
}

bool Reader::isList(const Json& value, const char* key) {
    if (value.is_array()) return true;
    wrongType(Path{&m_path, key}, "a list [ … ]", value, m_errors);
    return false;
}

bool Reader::readText(const Json& value, const Path& path, std::string& to, const Spec& spec) {
    const bool number = value.is_number() && isFormula(spec.role);
    if (number && value.is_number_float() && !std::isfinite(value.get<double>())) {
        add(m_errors, {"not-finite", "This number is too large.", path.text(), "write a smaller number"});
        return false;
    }
    if (!value.is_string() && !number) {
        wrongType(path, isFormula(spec.role) ? "text or a number" : "text", value, m_errors);
        return false;
    }
    std::string text = number ? value.dump() : value.get<std::string>();
    if (spec.role == Role::word && !spec.open) {
        bool known = false;
        for (const auto word : spec.words) known = known || word == text;
        if (!known) {
            add(m_errors, {"unknown-value", "\"" + shortened(text) + "\" is not known here.", path.text(),
                           "use " + listOf(spec.words)});
            return false;
        }
    }
    to = std::move(text);
    return true;
}

void Reader::text(const char* key, std::string& to, const Spec& spec) {
    if (const Json* value = find(key, spec.need)) readText(*value, Path{&m_path, key}, to, spec);
}

void Reader::flag(const char* key, bool& to) {
    const Json* value = find(key, Need::optional);
    if (value == nullptr) return;
    if (value->is_boolean())
        to = value->get<bool>();
    else
        wrongType(Path{&m_path, key}, "true or false", *value, m_errors);
}

void Reader::real(const char* key, double& to) {
    const Json* value = find(key, Need::optional);
    if (value == nullptr) return;
    if (value->is_number() && std::isfinite(value->get<double>()))
        to = value->get<double>();
    else
        wrongType(Path{&m_path, key}, "a number", *value, m_errors);
}

void Reader::version(const char* key, int& to) {
    const Json* value = find(key, Need::optional);
    const Path path{&m_path, key};
    if (value == nullptr) {
        add(m_errors, {"missing", "This is not a Slabside document: the field \"slabside\" is missing.",
                       path.text(), "open a *.slabside.json file, or add \"slabside\": 1"});
    } else if (!value->is_number_integer()) {
        wrongType(path, "a whole number", *value, m_errors);
    } else if (*value > Project{}.version) {
        add(m_errors, {"newer-version",
                       "This document was written by a newer Slabside (version " + value->dump() + ").",
                       path.text(), "open it with a newer Slabside; this one reads version 1"});
    } else if (*value < 1) {
        add(m_errors,
            {"unknown-value", "There is no document version " + value->dump() + ".", path.text(), "write 1"});
    } else {
        to = value->get<int>();
    }
}

void Reader::choice(const char* key, bool& to, Words words) {
    std::string word(words[to ? 1 : 0]);
    text(key, word, oneOf(words));
    to = word == words[1];
}

void Reader::names(const char* key, std::vector<std::string>& to, const Spec& spec) {
    const Json* value = find(key, spec.need);
    if (value == nullptr || !isList(*value, key)) return;
    to.clear();
    const Path path{&m_path, key};
    for (std::size_t i = 0; i < value->size(); ++i) {
        to.emplace_back();
        readText((*value)[i], Path{&path, {}, i}, to.back(), spec);
    }
}

void Reader::pair(const char* key, std::string& a, std::string& b, const Spec& spec) {
    const Json* value = find(key, spec.need);
    if (value == nullptr || !isList(*value, key)) return;
    const Path path{&m_path, key};
    if (value->size() != 2) {
        add(m_errors,
            {"wrong-type", "This list needs two entries and has " + std::to_string(value->size()) + ".",
             path.text(), "write two entries"});
        return;
    }
    readText((*value)[0], Path{&path, {}, 0}, a, spec);
    readText((*value)[1], Path{&path, {}, 1}, b, spec);
}

void Reader::map(const char* key, std::vector<NamedText>& to, const Spec& spec) {
    const Json* value = find(key, spec.need);
    if (value == nullptr) return;
    const Path path{&m_path, key};
    if (!value->is_object()) return wrongType(path, "a group of names and values { … }", *value, m_errors);
    to.clear();
    for (const auto& [name, one] : value->items()) {
        to.push_back({name, {}});
        readText(one, Path{&path, name}, to.back().value, spec);
    }
}

void Reader::map(const char* key, std::vector<PlateMaterial>& to, const Spec& spec) {
    const Json* value = find(key, spec.need);
    if (value == nullptr) return;
    const Path path{&m_path, key};
    if (!value->is_object()) return wrongType(path, "a group of plates and sheets { … }", *value, m_errors);
    to.clear();
    for (const auto& [name, one] : value->items()) {
        to.push_back({name, {}});
        if (!one.is_null()) readText(one, Path{&path, name}, to.back().stock, spec);
    }
}

void Reader::shape(const char* key, Shape& to) {
    std::string word;
    text(key, word, oneOf(kShapeWords, Need::required));
    for (std::size_t i = 0; i < kShapeWords.size(); ++i) {
        if (kShapeWords[i] != word) continue;
        if (to.index() != i) makeShape(i, to);
        std::visit([this](auto& s) { fields(*this, s); }, to);
    }
}

void Reader::rest(Extra& to) {
    to.clear();
    for (const auto& [key, value] : m_object.items()) {
        bool known = false;
        for (const auto name : m_known) known = known || name == key;
        if (!known) to.emplace_back(key, compact(value));
    }
}

Json parsed(const std::string& text) {
    Json value = Json::parse(text, nullptr, false);
    return value.is_discarded() ? Json(text) : value;
}

std::string compact(const Json& value) {
    return value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace slab::detail
