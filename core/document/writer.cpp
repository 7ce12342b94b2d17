#include "core/document/file.h"
#include "core/document/json.h"
#include <algorithm>

namespace slab {
namespace detail {

/// Plain numbers stand as numbers where a number is meant, so that prices and counts read naturally.
Json Writer::textValue(const std::string& text, Role role) {
    const bool begins = !text.empty() && (text[0] == '-' || (text[0] >= '0' && text[0] <= '9'));
    if (role == Role::number && begins && text.size() < 32) {
        Json number = Json::parse(text, nullptr, false);
        if (number.is_number() && number.dump() == text) return number;
    }
    return text;
}

void Writer::text(const char* key, const std::string& from, const Spec& spec) {
    note(key, spec.need);
    m_out[key] = textValue(from, spec.role);
}
void Writer::flag(const char* key, bool from) {
    m_out[key] = from;
}
void Writer::real(const char* key, double from) {
    m_out[key] = from;
}
void Writer::version(const char* key, int from) {
    keep.push_back(key);
    m_out[key] = from;
}
void Writer::choice(const char* key, bool from, Words words) {
    m_out[key] = words[from ? 1 : 0];
}

void Writer::names(const char* key, const std::vector<std::string>& from, const Spec& spec) {
    note(key, spec.need);
    m_out[key] = from;
}

void Writer::pair(const char* key, const std::string& a, const std::string& b, const Spec& spec) {
    note(key, spec.need);
    m_out[key] = Json::array({a, b});
}

void Writer::map(const char* key, const std::vector<NamedText>& from, const Spec& spec) {
    note(key, spec.need);
    Json& out = m_out[key] = Json::object();
    for (const NamedText& one : from) out[one.name] = one.value;
}

void Writer::map(const char* key, const std::vector<PlateMaterial>& from, const Spec& spec) {
    note(key, spec.need);
    Json& out = m_out[key] = Json::object();
    for (const PlateMaterial& one : from)
        out[one.plates] = one.stock.empty() ? Json(nullptr) : Json(one.stock);
}

void Writer::rest(const Extra& from) {
    for (const auto& [key, text] : from) {
        if (m_out.contains(key)) continue;
        m_out[key] = parsed(text);
        keep.push_back(key);
    }
}

void dropDefaults(Json& object, const Json& blank, const std::vector<std::string_view>& keep) {
    Json out = Json::object();
    for (auto& [key, value] : object.items()) {
        const bool always = std::find(keep.begin(), keep.end(), key) != keep.end();
        const auto same = blank.find(key);
        if (always || same == blank.end() || *same != value) out[key] = std::move(value);
    }
    object = std::move(out);
}

const Json& blankOf(const Form& form) {
    static const auto blanks = [] {
        std::vector<Json> all;
        std::vector<std::string_view> keep;
        all.push_back(writeFields(Form{{}, ProfileShape{}, {}, {}, {}, {}, {}, {}}, false, keep));
        all.push_back(writeFields(Form{{}, TaperShape{}, {}, {}, {}, {}, {}, {}}, false, keep));
        all.push_back(writeFields(Form{{}, PlateShape{}, {}, {}, {}, {}, {}, {}}, false, keep));
        all.push_back(writeFields(Form{{}, RoundShape{}, {}, {}, {}, {}, {}, {}}, false, keep));
        all.push_back(writeFields(Form{{}, FacetShape{}, {}, {}, {}, {}, {}, {}}, false, keep));
        return all;
    }();
    return blanks[form.shape.index()];
}

} // namespace detail

std::string writeProject(const Project& project) {
    using detail::Json;
    return detail::toJson(project, false).dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace slab
