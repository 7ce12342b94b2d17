#pragma once
// What the 3D view shows, as plain meshes: shared by the Qt3D tree, the painter, picking and the tests.
#include "core/evaluate/evaluate.h"
#include "ui/fit/ride_marks.h"
#include <cstdint>
#include <memory>
#include <optional>
#include <set>

namespace slab::ui {

enum class ItemKind { plate, round, donor, rider, sweep };

/// Triangles (3 points each, counter-clockwise from outside) and lines (2 points each), mm, body axes.
struct SceneMesh {
    std::vector<Vec3> triangles;
    std::vector<Vec3> lines;
    bool operator==(const SceneMesh&) const = default;
};

struct SceneItem {
    std::string id; ///< plate, round form or solid name
    ItemKind kind = ItemKind::plate;
    std::string stockKind; ///< plates: foam, hardboard, …
    std::shared_ptr<const SceneMesh> mesh;
    std::uint64_t hash = 0;    ///< of the mesh
    Vec3 shift = Vec3::Zero(); ///< spread apart, mm
    bool chosen = false;
    FitState state = FitState::fits; ///< worst pair that it is part of
    bool inside = false;             ///< a frame or a cleat: seen through the shell like donor and rider
};

/// Two nearest points of a tight or hitting pair.
struct SceneLink {
    std::string solid, plate;
    Vec3 from = Vec3::Zero(), to = Vec3::Zero(); ///< on the solid, on the plate
    FitState state = FitState::tight;
    std::string text;
    bool operator==(const SceneLink&) const = default;
};

/// The shell is shown on one side of a plane square to an axis.
struct SectionCut {
    int axis = 1;  ///< 0, 1, 2 = x, y, z
    double at = 0; ///< mm
    bool keepBelow = true;
    bool operator==(const SectionCut&) const = default;
};

struct SceneOptions {
    double apart = 0; ///< mm along each plate's normal
    std::optional<SectionCut> section;
    bool donor = true, rider = true;
    bool frames = true; ///< and cleats
    std::string chosenPlate, chosenSolid;
    std::string chosenForm;           ///< all of its plates, when no plate is chosen
    std::set<std::string> alsoChosen; ///< plates and round forms, where several are
    int chosenEdge = -1;              ///< of the chosen plate's boundary
    std::string chosenOpening;        ///< its outlines are shown like a chosen edge
    GroundMarks marks;                ///< of the ride
    std::vector<SceneMark> places;    ///< of the chosen result or finding
    UnitStyle units;
};

struct Scene {
    std::vector<SceneItem> items;
    std::vector<SceneLink> links;
    std::vector<Vec3> edge; ///< the chosen edge, or the outlines of the chosen opening: two points a line
    std::vector<SceneMark> marks; ///< on the ground
    Box3 bounds;                  ///< of everything shown, unclipped
    Box3 shell;                   ///< of the shell alone (range of the section slider)
    [[nodiscard]] bool empty() const { return items.empty(); }
};

/// Makes scenes and keeps meshes whose solid and section have not changed.
class SceneBuilder {
public:
    [[nodiscard]] Scene build(const Evaluation& evaluation, const SceneOptions& options);
    /// Meshes made so far (for tests: an unchanged plate is not made again).
    [[nodiscard]] int meshesMade() const { return m_made; }

private:
    struct Kept {
        std::uint64_t source = 0, hash = 0;
        std::shared_ptr<const SceneMesh> mesh;
    };
    const Kept& meshFor(const std::string& id, const Polyhedron& solid,
                        const std::optional<SectionCut>& section, bool rounded = false);
    void addPlates(const Evaluation& evaluation, const SceneOptions& options, Scene& scene);
    void addSolids(const Evaluation& evaluation, const SceneOptions& options, Scene& scene);
    void addRounds(const Evaluation& evaluation, const SceneOptions& options, Scene& scene);
    void addMechanisms(const Evaluation& evaluation, const SceneOptions& options, Scene& scene);
    void addSkin(const Evaluation& evaluation, const SceneOptions& options, Scene& scene);
    std::vector<std::pair<std::string, Kept>> m_kept; ///< sorted by id
    int m_made = 0;
};

/// Is there a body, but no plate of it (for want of a sheet)? Then its skin is shown instead, a piece for
/// each closed skin, under the name of a form in it.
[[nodiscard]] bool onlySkin(const Evaluation& evaluation);
/// Box of all plates as built, else of the skin; empty at the origin when there is neither.
[[nodiscard]] Box3 shellBounds(const Evaluation& evaluation);
/// Mesh of a solid: all triangles; lines only where two faces meet at more than about 15°, none on a
/// `rounded` one.
[[nodiscard]] SceneMesh meshOf(const Polyhedron& solid, bool rounded = false);
[[nodiscard]] std::uint64_t hashOf(const Polyhedron& solid);
/// Where a plate stands when spread apart by `apart` mm.
[[nodiscard]] Vec3 apartShift(const Plate& plate, double apart);

} // namespace slab::ui
