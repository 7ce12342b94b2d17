#include "core/document/fields.h"
#include "core/document/describe.h"
#include <algorithm>

namespace slab {
namespace {

using namespace detail;

std::string roleName(Role role) {
    constexpr std::array<const char*, 14> kRoles{"name",   "label", "word",  "length", "angle",
                                                 "number", "any",   "ratio", "plate",  "panel",
                                                 "stock",  "point", "solid", "print"};
    return kRoles[static_cast<std::size_t>(role)];
}

/// Fields of an outline point by use; empty = all.
Words fieldsOf(Points points) {
    static constexpr std::array<W, 5> kProfile{"name", "side", "x", "z", "half_width"};
    static constexpr std::array<W, 4> kPlan{"name", "side", "x", "y"};
    static constexpr std::array<W, 4> kCorner{"name", "x", "y", "z"};
    static constexpr std::array<W, 2> kHole{"x", "y"};
    switch (points) {
    case Points::profile:
        return kProfile;
    case Points::plan:
        return kPlan;
    case Points::corner:
        return kCorner;
    case Points::hole:
        return kHole;
    case Points::any:
        break;
    }
    return {};
}

class Lister {
public:
    Lister(std::vector<FieldInfo>& out, std::string at, std::string kind, Points points = Points::any)
        : m_out(out), m_at(std::move(at)), m_kind(std::move(kind)), m_only(fieldsOf(points)) {}

    void text(const char* key, const std::string&, const Spec& spec) { add(key, "text", spec); }
    void flag(const char* key, bool) { add(key, "flag", {}); }
    void real(const char* key, double) { add(key, "real", {}); }
    void version(const char* key, int) { add(key, "version", kPlain.required()); }
    void choice(const char* key, bool, Words words) { add(key, "text", oneOf(words)); }
    template <class E>
    void pick(const char* key, const E&, Words words, const Spec& spec) {
        add(key, "text", oneOf(words, spec.need));
    }
    void names(const char* key, const std::vector<std::string>&, const Spec& spec) {
        add(key, "names", spec);
    }
    void pair(const char* key, const std::string&, const std::string&, const Spec& spec) {
        add(key, "pair", spec);
    }
    template <class T>
    void map(const char* key, const std::vector<T>&, const Spec& spec) {
        add(key, "map", spec);
    }
    template <class T>
    void object(const char* key, const T& from) {
        add(key, "object", {});
        Lister inner(m_out, m_at + "/" + key, m_kind);
        fields(inner, from);
    }
    template <class T>
    void list(const char* key, const std::vector<T>&, const Spec& spec) {
        add(key, "list", spec);
        Lister inner(m_out, m_at + "/" + key + "/*", m_kind, spec.points);
        const T blank{};
        fields(inner, blank);
    }
    void shape(const char* key, const Shape&) {
        add(key, "text", oneOf(kShapeWords, Need::required));
        each<ProfileShape>(0);
        each<TaperShape>(1);
        each<PlateShape>(2);
        each<RoundShape>(3);
        each<FacetShape>(4);
    }
    void rest(const Extra&) {}

private:
    std::vector<FieldInfo>& m_out;
    std::string m_at, m_kind;
    Words m_only;

    template <class T>
    void each(std::size_t kind) {
        static_assert(std::variant_size_v<Shape> == kShapeWords.size());
        Lister inner(m_out, m_at, std::string(kShapeWords[kind]));
        const T blank{};
        fields(inner, blank);
    }
    void add(const char* key, const char* type, const Spec& spec) {
        if (!m_only.empty() && std::find(m_only.begin(), m_only.end(), key) == m_only.end()) return;
        const bool object = std::string_view(type) == "object" || std::string_view(type) == "list";
        const bool texts = !object && std::string_view(type) != "flag" && std::string_view(type) != "real" &&
                           std::string_view(type) != "version";
        FieldInfo info{m_at + "/" + key,
                       type,
                       texts ? roleName(spec.role) : "",
                       {},
                       spec.need == Need::required,
                       m_kind};
        for (const auto word : spec.words) info.words.emplace_back(word);
        m_out.push_back(std::move(info));
    }
};

} // namespace

std::vector<FieldInfo> documentFields() {
    std::vector<FieldInfo> out;
    Lister lister(out, "", "");
    const Project blank{};
    fields(lister, blank);
    return out;
}

} // namespace slab
