#include "core/body/facets.h"
#include "core/body/flatten.h"
#include <algorithm>

namespace slab {

namespace {

std::size_t cornerNamed(const FacetShape& shape, const std::string& name) {
    const auto at = std::find_if(shape.corners.begin(), shape.corners.end(),
                                 [&](const OutlinePoint& p) { return p.name == name; });
    return static_cast<std::size_t>(at - shape.corners.begin());
}

/// What is not there is reported.
FlattenWish readWish(FormReader& reader, const FacetShape& shape) {
    FlattenWish wish;
    wish.symmetric = shape.symmetric;
    wish.pinned.assign(shape.corners.size(), false);
    wish.weights.assign(shape.corners.size(), 1);
    const auto look = [&](const std::string& name, const std::string& at) {
        const std::size_t c = cornerNamed(shape, name);
        if (c == shape.corners.size())
            reader.report(Severity::stop, "flatten-corner", "the form has no corner \"" + name + "\"", at,
                          "Name one of the form's corners.");
        return c;
    };
    for (std::size_t k = 0; k < shape.pinned.size(); ++k)
        if (const std::size_t c = look(shape.pinned[k], "pinned/" + std::to_string(k)); reader.ok())
            wish.pinned[c] = true;
    for (const NamedText& weight : shape.weights) {
        const std::string at = "weights/" + weight.name;
        const std::size_t c = look(weight.name, at);
        const double value = reader.number(weight.value, at);
        if (!reader.ok()) continue;
        if (!(value > 0 && value <= 1e6))
            reader.report(Severity::stop, "flatten-weight", "the weight is not between 0 and 1,000,000", at,
                          "Type a number such as 10; pin the corner to hold it where it is.");
        else
            wish.weights[c] = value;
    }
    return wish;
}

/// Faces that are not flat and that pins forbid to be made so.
void tellHeld(FormReader& reader, const Flattened& made, const std::vector<RoughFace>& faces) {
    constexpr double flat = 1e-3; // mm
    std::string names;
    for (const int f : made.held)
        if (const RoughFace& face = faces[static_cast<std::size_t>(f)];
            offPlane(made.corners, face.loop) > flat)
            names += (names.empty() ? "" : ", ") + face.name;
    if (!names.empty())
        reader.report(Severity::look, "flatten-held",
                      "every corner of " + names +
                          " is pinned, so it cannot be made flat; it is split into flat pieces instead",
                      "pinned", "Unpin one of its corners.");
}

/// Corners moved until the faces are flat; where that cannot be, they stay and the faces are split.
void flatten(FormReader& reader, const FacetShape& shape, std::vector<Vec3>& corners,
             const std::vector<RoughFace>& faces) {
    const FlattenWish wish = readWish(reader, shape);
    if (!reader.ok()) return;
    std::vector<std::vector<int>> loops;
    for (const RoughFace& face : faces) loops.push_back(face.loop);
    auto made = flattened(corners, loops, wish);
    if (!made) {
        reader.report(Severity::look, made.error().code,
                      made.error().message + "; its faces are split into flat pieces instead", "flatten",
                      made.error().remedy);
        return;
    }
    tellHeld(reader, *made, faces);
    if (made->corner >= 0) {
        const OutlinePoint& corner = shape.corners[static_cast<std::size_t>(made->corner)];
        reader.report(Severity::note, "made-flat",
                      "its faces are made flat; the corner that moves most, " + corner.name + ", moves by " +
                          reader.words(made->move),
                      "", "Pin or weigh the corners that must stay.");
        reader.flats().push_back({{}, corner.name, made->move});
    }
    corners = std::move(made->corners);
}

} // namespace

Expected<Made> makeFacet(FormReader& reader, const FacetShape& shape) {
    std::vector<Vec3> corners;
    if (shape.corners.size() > 1000 || shape.faces.size() > 1000)
        return fail("outline-long", "the form has more than 1000 corners or faces", "corners",
                    "Use fewer corners.");
    for (std::size_t j = 0; j < shape.corners.size(); ++j) {
        const OutlinePoint& p = shape.corners[j];
        const std::string at = "corners/" + std::to_string(j) + "/";
        corners.emplace_back(reader.length(p.x, at + "x"), reader.length(p.y, at + "y"),
                             reader.length(p.z, at + "z"));
    }
    if (!reader.ok()) return fail("", "");
    std::vector<RoughFace> faces;
    for (std::size_t k = 0; k < shape.faces.size(); ++k) {
        const FacetFace& f = shape.faces[k];
        const std::string at = "faces/" + std::to_string(k);
        RoughFace face{f.name.empty() ? "f" + std::to_string(k + 1) : f.name, {}};
        for (const std::string& name : f.corners) {
            const std::size_t c = cornerNamed(shape, name);
            if (c == shape.corners.size())
                return fail("facet-corner",
                            "face " + face.name + " names the corner \"" + name + "\", which is not there",
                            at, "Name one of the form's corners.");
            face.loop.push_back(static_cast<int>(c));
        }
        if (face.loop.size() < 3)
            return fail("facet-corner", "face " + face.name + " has fewer than three corners", at,
                        "Add corners.");
        faces.push_back(std::move(face));
    }
    if (shape.flatten) flatten(reader, shape, corners, faces);
    if (!reader.ok()) return fail("", "");
    return closeUp(std::move(corners), std::move(faces));
}

} // namespace slab
