#include "core/document/describe.h"
#include "core/document/edit.h"
#include "core/document/follow.h"
#include "core/document/json.h"
#include "core/document/sides.h"
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

std::vector<OutlinePoint>* pointsIn(Shape& shape, const std::string& list) {
    if (auto* s = std::get_if<ProfileShape>(&shape)) return list == "outline" ? &s->outline : nullptr;
    if (auto* s = std::get_if<PlateShape>(&shape)) return list == "outline" ? &s->outline : nullptr;
    if (auto* s = std::get_if<TaperShape>(&shape))
        return list == "base" ? &s->base : list == "top" ? &s->top : nullptr;
    if (auto* s = std::get_if<FacetShape>(&shape)) return list == "corners" ? &s->corners : nullptr;
    return nullptr;
}

void replace(std::string& text, const std::string& from, const std::string& to) {
    if (text == from) text = to;
}

/// Curves and faces of the form that name the point.
void followPoint(Shape& shape, const std::string& list, const std::string& from, const std::string& to) {
    std::vector<Curve>* curves = nullptr;
    if (auto* s = std::get_if<ProfileShape>(&shape)) curves = &s->curves;
    if (auto* s = std::get_if<PlateShape>(&shape)) curves = &s->curves;
    if (auto* s = std::get_if<TaperShape>(&shape); s && list == "base") curves = &s->curves;
    if (curves)
        for (Curve& c : *curves) {
            replace(c.from, from, to);
            replace(c.to, from, to);
        }
    if (auto* s = std::get_if<FacetShape>(&shape)) {
        for (FacetFace& face : s->faces)
            for (std::string& corner : face.corners) replace(corner, from, to);
        for (std::string& corner : s->pinned) replace(corner, from, to);
        for (NamedText& w : s->weights) replace(w.name, from, to);
    }
}

/// Dimension lines name form and point: "hull/stem head".
void followLines(Project& project, const std::string& from, const std::string& to, bool whole) {
    for (DimensionLine& line : project.lines)
        for (std::string* end : {&line.from, &line.to}) {
            if (*end == from)
                *end = to;
            else if (!whole && end->starts_with(from))
                *end = to + end->substr(from.size());
        }
}

/// The point at `index` has its new name already. Where its side was named after it and shares that plate
/// with other sides, the side keeps the old name, so that the plate stays one.
void keepSharedSide(std::vector<OutlinePoint>& points, std::size_t index, const std::string& from) {
    if (!points[index].side.empty()) return;
    for (std::size_t i = 0; i < points.size(); ++i)
        if (i != index && detail::sideName(points, i) == from) points[index].side = from;
}

Error taken(const std::string& to) {
    return {"duplicate-name",
            "There is already a side named " + to + " in this form.",
            {},
            "choose another name"};
}

/// A point, corner or face of a form.
Expected<Project> renamedInForm(const Project& p, std::size_t form, const std::string& list,
                                const std::string& index, const std::string& to, const std::string& pointer) {
    Project next = p;
    Shape& shape = next.forms[form].shape;
    const std::size_t at =
        index.empty() || index.size() > 8 || index.find_first_not_of("0123456789") != std::string::npos
            ? std::size_t(-1)
            : std::stoul(index);
    auto* facet = std::get_if<FacetShape>(&shape);
    auto* points = pointsIn(shape, list);
    const auto before = detail::sidesOf(p.forms[form]);
    if (facet && list == "faces" && at < facet->faces.size()) {
        for (std::size_t i = 0; i < facet->faces.size(); ++i)
            if (i != at && before[i] == to) return tl::make_unexpected(taken(to));
        facet->faces[at].name = to;
    } else if (points && at < points->size()) {
        const std::string from = detail::pointName(*points, at);
        (*points)[at].name = to;
        const std::string name = detail::pointName(*points, at);
        for (std::size_t i = 0; i < points->size(); ++i)
            if (i != at && detail::pointName(*points, i) == name)
                return fail("duplicate-name", "There is already a point named " + name + ".", pointer,
                            "choose another name");
        keepSharedSide(*points, at, from);
        followPoint(shape, list, from, name);
        followLines(next, p.forms[form].name + "/" + from, p.forms[form].name + "/" + name, true);
    } else {
        return fail("no-such-place", "There is nothing to rename here.", pointer);
    }
    const auto after = detail::sidesOf(next.forms[form]);
    if (after.size() != before.size()) return tl::make_unexpected(taken(to));
    detail::followPlates(p, next);
    return sound(std::move(next), pointer + "/name");
}

/// A turntable that a trunnion turns with, or a wheel that its belt moves.
Expected<Project> renamedPart(const Project& p, std::size_t list, std::size_t index, const std::string& to) {
    Project next = p;
    Mechanisms& m = next.mechanisms;
    if (list == 0) {
        const std::string from = m.turntables[index].name;
        m.turntables[index].name = to;
        for (Trunnion& t : m.trunnions) replace(t.on, from, to);
        return sound(std::move(next), "/mechanisms/turntables/" + std::to_string(index) + "/name");
    }
    Belt& belt = m.belts[list - 1];
    const std::string from = belt.wheels[index].name;
    belt.wheels[index].name = to;
    replace(belt.moves, from, to);
    return sound(std::move(next), "/mechanisms/belts/" + std::to_string(list - 1) + "/wheels/" +
                                      std::to_string(index) + "/name");
}

Expected<Project> renamedSolid(const Project& p, std::size_t index, const std::string& to) {
    const std::string from = p.donor.solids[index].name;
    if (const auto free = find(p.donor.solids, from, to, "solid"); !free)
        return tl::make_unexpected(free.error());
    Project next = p;
    next.donor.solids[index].name = to;
    const auto follow = [&](std::string& name) {
        replace(name, from, to);
        replace(name, "donor/" + from, "donor/" + to);
    };
    for (NamedText& c : next.clearance.solids) follow(c.name);
    for (std::string& name : next.donor.leave_out) follow(name);
    return sound(std::move(next), "/donor/solids/" + std::to_string(index) + "/name");
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
        for (DimensionLine& line : next.lines) replace(line.drives, from, to);
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
        detail::followPlates(p, next);
        followLines(next, from + "/", to + "/", false);
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

Edit renameAt(std::string pointer, std::string to) {
    const auto tokens = detail::tokensOf(pointer);
    Edit edit{"Rename to " + to, {}, {}};
    edit.apply = [pointer, to, tokens](const Project& p) -> Expected<Project> {
        if (!tokens) return tl::make_unexpected(tokens.error());
        const auto indexIn = [&](std::size_t token, std::size_t size) {
            const std::string text = token < tokens->size() ? (*tokens)[token] : std::string();
            const bool digits =
                !text.empty() && text.size() < 9 && text.find_first_not_of("0123456789") == std::string::npos;
            const std::size_t index = digits ? std::stoul(text) : size;
            return std::min(index, size);
        };
        const std::string& list = tokens->empty() ? std::string() : tokens->front();
        if (list == "dimensions" && tokens->size() == 2)
            if (const auto i = indexIn(1, p.dimensions.size()); i < p.dimensions.size())
                return renameDimension(p.dimensions[i].name, to).apply(p);
        if (list == "forms")
            if (const auto i = indexIn(1, p.forms.size()); i < p.forms.size()) {
                if (tokens->size() == 2) return renameForm(p.forms[i].name, to).apply(p);
                if (tokens->size() == 4) return renamedInForm(p, i, (*tokens)[2], (*tokens)[3], to, pointer);
            }
        if (list == "stock" && tokens->size() == 3 && (*tokens)[1] == "sheets")
            if (const auto i = indexIn(2, p.stock.sheets.size()); i < p.stock.sheets.size())
                return renameStock(p.stock.sheets[i].name, to).apply(p);
        if (list == "donor" && tokens->size() == 3 && (*tokens)[1] == "solids")
            if (const auto i = indexIn(2, p.donor.solids.size()); i < p.donor.solids.size())
                return renamedSolid(p, i, to);
        if (list == "mechanisms" && tokens->size() >= 3) {
            const Mechanisms& m = p.mechanisms;
            if ((*tokens)[1] == "turntables" && tokens->size() == 3)
                if (const auto i = indexIn(2, m.turntables.size()); i < m.turntables.size())
                    return renamedPart(p, 0, i, to);
            if ((*tokens)[1] == "belts" && tokens->size() == 5)
                if (const auto b = indexIn(2, m.belts.size()); b < m.belts.size())
                    if (const auto i = indexIn(4, m.belts[b].wheels.size()); i < m.belts[b].wheels.size())
                        return renamedPart(p, b + 1, i, to);
        }
        return setValue(pointer + "/name", detail::compact(detail::Json(to))).apply(p);
    };
    return edit;
}

} // namespace slab
