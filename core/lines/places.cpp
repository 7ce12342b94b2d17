// Pointers to what they name.
#include "core/lines/handles.h"
#include <charconv>
#include <type_traits>

namespace slab::detail {

namespace {

std::vector<std::string> tokens(const std::string& pointer) {
    std::vector<std::string> out;
    for (std::size_t at = 0; at < pointer.size() && pointer[at] == '/';) {
        const std::size_t end = std::min(pointer.find('/', at + 1), pointer.size());
        out.push_back(pointer.substr(at + 1, end - at - 1));
        at = end;
    }
    return out;
}

int number(const std::string& text) {
    int value = -1;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc() && end == text.data() + text.size() ? value : -1;
}

Text* fieldOf(OutlinePoint& p, const std::string& name) {
    return name == "x"            ? &p.x
           : name == "y"          ? &p.y
           : name == "z"          ? &p.z
           : name == "half_width" ? &p.half_width
                                  : nullptr;
}

Text* fieldOf(Placement& at, const std::string& name) {
    return name == "x" ? &at.x : name == "y" ? &at.y : name == "z" ? &at.z : nullptr;
}

Text* fieldOf(Curve& c, const std::vector<std::string>& rest) {
    if (rest.size() == 1) {
        const std::string& n = rest[0];
        return n == "bulge" ? &c.bulge : n == "x" ? &c.x : n == "y" ? &c.y : n == "z" ? &c.z : nullptr;
    }
    if (rest.size() != 3 || rest[0] != "through") return nullptr;
    const int i = number(rest[1]);
    return i < 0 || i >= static_cast<int>(c.through.size())
               ? nullptr
               : fieldOf(c.through[static_cast<std::size_t>(i)], rest[2]);
}

Text* fieldOf(Form& form, const std::string& name) {
    if (auto* t = std::get_if<TaperShape>(&form.shape))
        return name == "base_z" ? &t->base_z : name == "top_z" ? &t->top_z : nullptr;
    if (auto* r = std::get_if<RoundShape>(&form.shape))
        return name == "diameter"       ? &r->diameter
               : name == "top_diameter" ? &r->top_diameter
               : name == "length"       ? &r->length
                                        : nullptr;
    return nullptr;
}

/// Of an object with named fields: the one of that name.
template <class T>
using Fields = std::vector<std::pair<const char*, Text T::*>>;
template <class T>
Text* fieldOf(T& object, const Fields<T>& fields, const std::string& name) {
    for (const auto& [word, field] : fields)
        if (name == word) return &(object.*field);
    return nullptr;
}

/// Below one entry of a list of mechanisms.
template <class T>
Text* fieldBelow(std::vector<T>& list, const Fields<T>& fields, const std::vector<std::string>& all) {
    const int i = number(all[2]);
    if (i < 0 || i >= static_cast<int>(list.size())) return nullptr;
    T& one = list[static_cast<std::size_t>(i)];
    if (all.size() == 4) return fieldOf(one, fields, all[3]);
    if (all.size() == 5 && all[3] == "at") return fieldOf(one.at, all[4]);
    if constexpr (std::is_same_v<T, Belt>) {
        const int k = all.size() == 6 && all[3] == "wheels" ? number(all[4]) : -1;
        if (k >= 0 && k < static_cast<int>(one.wheels.size()))
            return fieldOf(one.wheels[static_cast<std::size_t>(k)],
                           {{"x", &BeltWheel::x}, {"z", &BeltWheel::z}, {"diameter", &BeltWheel::diameter}},
                           all[5]);
    }
    return nullptr;
}

/// "mechanisms", list, index, field …
Text* mechanismText(Mechanisms& m, const std::vector<std::string>& all) {
    if (all[1] == "turntables")
        return fieldBelow(m.turntables,
                          {{"diameter", &Turntable::diameter},
                           {"depth", &Turntable::depth},
                           {"from", &Turntable::from},
                           {"to", &Turntable::to}},
                          all);
    if (all[1] == "trunnions")
        return fieldBelow(m.trunnions,
                          {{"diameter", &Trunnion::diameter},
                           {"front", &Trunnion::front},
                           {"rear", &Trunnion::rear},
                           {"lowest", &Trunnion::lowest},
                           {"highest", &Trunnion::highest}},
                          all);
    if (all[1] == "linkages")
        return fieldBelow(m.linkages,
                          {{"up", &Linkage::up},
                           {"down", &Linkage::down},
                           {"pitch_up", &Linkage::pitch_up},
                           {"pitch_down", &Linkage::pitch_down}},
                          all);
    if (all[1] == "belts") return fieldBelow(m.belts, {{"width", &Belt::width}}, all);
    return nullptr;
}

} // namespace

std::optional<Place> placeIn(const std::string& pointer) {
    const auto all = tokens(pointer);
    if (all.size() < 2 || all[0] != "forms") return {};
    Place place;
    place.form = number(all[1]);
    if (place.form < 0) return {};
    if (all.size() > 2) place.list = all[2];
    if (all.size() > 3) place.index = number(all[3]);
    const std::size_t used = place.index >= 0 ? 4 : 3;
    for (std::size_t i = used; i < all.size(); ++i) place.rest.push_back(all[i]);
    return place;
}

Text* textAt(Project& project, const std::string& pointer) {
    const auto all = tokens(pointer);
    if (all.size() == 3 && all[0] == "dimensions" && all[2] == "value") {
        const int i = number(all[1]);
        return i < 0 || i >= static_cast<int>(project.dimensions.size())
                   ? nullptr
                   : &project.dimensions[static_cast<std::size_t>(i)].value;
    }
    if (all.size() > 3 && all[0] == "mechanisms") return mechanismText(project.mechanisms, all);
    const auto place = placeIn(pointer);
    if (!place || place->form >= static_cast<int>(project.forms.size())) return nullptr;
    Form& form = project.forms[static_cast<std::size_t>(place->form)];
    if (place->list == "at") return place->rest.size() == 1 ? fieldOf(form.at, place->rest[0]) : nullptr;
    if (place->index < 0) return place->rest.empty() ? fieldOf(form, place->list) : nullptr;
    const auto i = static_cast<std::size_t>(place->index);
    if (place->list == "curves") {
        auto* curves = curvesOf(form);
        return curves && i < curves->size() ? fieldOf((*curves)[i], place->rest) : nullptr;
    }
    auto* points = pointsOf(form, place->list);
    return points && i < points->size() && place->rest.size() == 1 ? fieldOf((*points)[i], place->rest[0])
                                                                   : nullptr;
}

std::vector<OutlinePoint>* pointsOf(Form& form, const std::string& list) {
    if (auto* p = std::get_if<ProfileShape>(&form.shape)) return list == "outline" ? &p->outline : nullptr;
    if (auto* p = std::get_if<PlateShape>(&form.shape)) return list == "outline" ? &p->outline : nullptr;
    if (auto* f = std::get_if<FacetShape>(&form.shape)) return list == "corners" ? &f->corners : nullptr;
    if (auto* t = std::get_if<TaperShape>(&form.shape))
        return list == "base" ? &t->base : list == "top" ? &t->top : nullptr;
    return nullptr;
}
const std::vector<OutlinePoint>* pointsOf(const Form& form, const std::string& list) {
    return pointsOf(const_cast<Form&>(form), list); // only looked at
}

std::vector<Curve>* curvesOf(Form& form) {
    if (auto* p = std::get_if<ProfileShape>(&form.shape)) return &p->curves;
    if (auto* p = std::get_if<PlateShape>(&form.shape)) return &p->curves;
    if (auto* t = std::get_if<TaperShape>(&form.shape)) return &t->curves;
    return nullptr;
}
const std::vector<Curve>* curvesOf(const Form& form) {
    return curvesOf(const_cast<Form&>(form)); // only looked at
}

std::vector<std::string> listsOf(const Form& form) {
    if (std::holds_alternative<TaperShape>(form.shape)) return {"base", "top"};
    if (std::holds_alternative<FacetShape>(form.shape)) return {"corners"};
    if (std::holds_alternative<RoundShape>(form.shape)) return {};
    return {"outline"};
}

int edgeOf(const Curve& curve, const std::vector<OutlinePoint>& points) {
    const std::size_t n = points.size();
    std::size_t from = n, to = n;
    for (std::size_t i = 0; i < n; ++i) {
        const std::string name = pointName(points, i);
        if (name == curve.from && from == n) from = i;
        if (name == curve.to && to == n) to = i;
    }
    if (from == n || to == n) return -1;
    if ((from + 1) % n == to) return static_cast<int>(from);
    return (to + 1) % n == from ? static_cast<int>(to) : -1;
}

} // namespace slab::detail
