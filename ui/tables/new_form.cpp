#include "ui/tables/new_form.h"
#include "core/geometry/convex.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

/// Where a form goes and how large it is, mm of the subject.
struct Room {
    Vec3 middle = Vec3::Zero(); ///< of its base
    Vec3 size{1000, 1000, 800};
};

/// Lengths as a builder would type them, in the document's unit.
struct Lengths {
    std::string unit = "m";
    /// Trailing zeros say nothing.
    [[nodiscard]] std::string operator()(double mm, int digits) const {
        const double value = mm / (unit == "in" ? 25.4 : unit == "m" ? 1000.0 : unit == "cm" ? 10.0 : 1.0);
        char buffer[64];
        std::snprintf(buffer, sizeof buffer, "%.*f", digits, value);
        std::string text = buffer;
        if (text.find('.') != std::string::npos) {
            text.erase(text.find_last_not_of('0') + 1);
            if (text.back() == '.') text.pop_back();
        }
        return text == "0" || text == "-0" ? "0" : text + " " + unit;
    }
    /// To 10 mm or a whole inch.
    [[nodiscard]] std::string round(double mm) const { return operator()(mm, unit == "m" ? 2 : 0); }
    [[nodiscard]] std::string exact(double mm) const {
        return operator()(mm, unit == "m" ? 6 : unit == "in" ? 5 : 3);
    }
};

Lengths lengthsOf(const Project& project) {
    const bool inches = project.units == "in" || project.units == "ft";
    return {inches ? "in" : project.units};
}

double roundedUp(double mm, const Lengths& lengths) {
    const double step = lengths.unit == "in" ? 25.4 : 10;
    return std::ceil(mm / step - 1e-6) * step;
}

OutlinePoint point(const char* name, std::string x, std::string y, std::string z, std::string half = {}) {
    OutlinePoint p;
    p.name = name;
    p.x = std::move(x);
    p.y = std::move(y);
    p.z = std::move(z);
    p.half_width = std::move(half);
    return p;
}

/// About the origin, on z = 0.
Shape shapeOf(const std::string& kind, const Vec3& size, const Lengths& len) {
    const auto at = [&](double mm) { return len.round(mm); };
    const double x = size.x() / 2, y = size.y() / 2, z = size.z();
    const auto rectangle = [&](double share) {
        return std::vector<OutlinePoint>{point("starboard", at(-x * share), at(-y * share), ""),
                                         point("front", at(x * share), at(-y * share), ""),
                                         point("port", at(x * share), at(y * share), ""),
                                         point("aft", at(-x * share), at(y * share), "")};
    };
    if (kind == "profile")
        return ProfileShape{{point("floor", at(-x), "", "0", at(y)), point("front", at(x), "", "0", at(y)),
                             point("deck", at(x), "", at(z), at(y)), point("aft", at(-x), "", at(z), at(y))},
                            {}};
    if (kind == "plate") return PlateShape{rectangle(1), {}};
    if (kind == "round") {
        RoundShape shape;
        shape.diameter = at(std::min(x, y) * 0.8);
        shape.length = at(z * 0.75);
        return shape;
    }
    if (kind == "facet") {
        FacetShape shape;
        shape.corners = {point("a", at(-x), at(-y), "0"), point("b", at(x), at(-y), "0"),
                         point("c", at(x), at(y), "0"), point("d", at(-x), at(y), "0"),
                         point("e", "0", "0", at(z))};
        const auto face = [](const char* name, std::vector<std::string> corners) {
            FacetFace f;
            f.name = name;
            f.corners = std::move(corners);
            return f;
        };
        shape.faces = {face("base", {"a", "d", "c", "b"}), face("starboard", {"a", "b", "e"}),
                       face("front", {"b", "c", "e"}), face("port", {"c", "d", "e"}),
                       face("aft", {"d", "a", "e"})};
        return shape;
    }
    TaperShape shape;
    shape.base = rectangle(1);
    shape.top = rectangle(0.8);
    shape.base_z = "0";
    shape.top_z = at(z);
    return shape;
}

/// Donor and rider with what is to stay free round them, build size; none without them.
std::optional<Box3> occupied(const Evaluation& evaluation) {
    constexpr double plate = 25; // mm: thicker than any sheet in the shop
    std::optional<Box3> out;
    if (!evaluation.donor) return out;
    for (const FitSolid& solid : evaluation.donor->solids) {
        const Vec3 by = Vec3::Constant(solid.clearance + plate);
        const Box3 own = bounds(solid.shape);
        const Box3 box{own.min - by, own.max + by};
        out = out ? united(*out, box) : box;
    }
    return out;
}

/// Box of the highest face that looks straight up.
std::optional<Box3> highestTop(const Evaluation& evaluation) {
    std::optional<Box3> out;
    if (!evaluation.body) return out;
    const Skin& skin = evaluation.body->skin;
    for (const SkinFace& face : skin.faces) {
        if (face.plane.normal.z() < 0.999 || face.loops.empty() || face.loops.front().empty()) continue;
        Box3 box{Vec3::Constant(1e300), Vec3::Constant(-1e300)};
        for (const int v : face.loops.front()) {
            const Vec3& p = skin.vertices[static_cast<std::size_t>(v)];
            box = united(box, {p, p});
        }
        if (!out || box.max.z() > out->max.z() + 1) out = box;
    }
    return out;
}

bool hasSides(const std::string& kind) {
    return kind != "plate" && kind != "round";
}

Room halfOn(const Box3& box) {
    const double side = std::min(box.size().x(), box.size().y()) / 2;
    Room room;
    room.middle = {(box.min.x() + box.max.x()) / 2, (box.min.y() + box.max.y()) / 2, box.max.z()};
    room.size = {side, side, side * 0.8};
    return room;
}

/// Room for the first form: from the ground to over the rider's head. Its slanting sides stand further out.
std::optional<Room> roomOverDonor(const Evaluation& evaluation, const std::string& kind) {
    const auto box = occupied(evaluation);
    if (!box) return {};
    if (!hasSides(kind)) return halfOn(*box);
    const double slant = kind == "profile" ? 1 : kind == "facet" ? 2.2 : 1 / 0.8;
    const double half = std::max(std::abs(box->min.y()), std::abs(box->max.y()));
    Room room;
    room.middle = {(box->min.x() + box->max.x()) / 2, 0, 0};
    room.size = {box->size().x() * slant, 2 * half * slant, box->max.z() * (kind == "facet" ? 2.2 : 1)};
    return room;
}

std::optional<Room> roomOnTop(const Evaluation& evaluation) {
    if (!evaluation.body) return {};
    const Box3 box = highestTop(evaluation).value_or(evaluation.body->bounds);
    const Room room = halfOn(box);
    return room.size.x() > 0 ? std::optional(room) : std::nullopt;
}

/// Of the sheet that plates are cut from unless something else is said, mm.
double usualThickness(const Project& project, const Evaluation& evaluation) {
    const Sheet* sheet = evaluation.stock ? evaluation.stock->find(project.materials.fallback) : nullptr;
    return sheet ? sheet->thickness : 0;
}

} // namespace

Form newForm(const Project& project, const Evaluation& evaluation, const std::string& kind,
             const std::string& name) {
    const Lengths len = lengthsOf(project);
    const bool first = project.forms.empty();
    const auto found = first ? roomOverDonor(evaluation, kind) : roomOnTop(evaluation);
    Room room = found.value_or(Room{});
    // A plate's outside looks up: it lies on what is there with its thickness under it.
    if (found && kind == "plate") room.middle.z() += usualThickness(project, evaluation);
    const double scale = evaluation.scale > 0 ? evaluation.scale : 1;
    if (found) {
        room.middle /= scale;
        room.size /= scale;
    }
    for (int axis = 0; axis < 3; ++axis) {
        const double step = axis < 2 ? 2 : 1; // half of it is written down
        room.size[axis] = step * roundedUp(room.size[axis] / step, len);
    }
    Form form;
    form.name = name;
    form.shape = shapeOf(kind, room.size, len);
    const auto place = [&](double mm, bool touching) {
        const std::string text = touching ? len.exact(mm) : len.round(mm);
        return text == "0" ? std::string() : text;
    };
    form.at.x = place(room.middle.x(), false);
    form.at.y = place(room.middle.y(), false);
    form.at.z = place(room.middle.z(), true);
    return form;
}

Shape plainShape(const std::string& kind) {
    return shapeOf(kind, Room{}.size, Lengths{});
}

} // namespace slab::ui
