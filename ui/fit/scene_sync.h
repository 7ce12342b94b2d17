#pragma once
// Keeps a Qt3D tree equal to a Scene. Works without a GPU: nodes are plain objects until a renderer takes
// them.
#include "ui/fit/look.h"
#include <QString>
#include <map>
#include <memory>

namespace Qt3DCore {
class QEntity;
class QGeometry;
class QTransform;
} // namespace Qt3DCore
namespace Qt3DRender {
class QGeometryRenderer;
class QMaterial;
class QParameter;
} // namespace Qt3DRender

namespace slab::ui {

/// What one show() changed.
struct SceneChanges {
    int added = 0, removed = 0;
    int remeshed = 0; ///< meshes written again (added ones included)
    int restyled = 0, moved = 0;
    bool operator==(const SceneChanges&) const = default;
};

class SceneSync {
public:
    /// Shared materials hang on `root`, so that no entity takes them down with it.
    explicit SceneSync(Qt3DCore::QEntity* root);
    ~SceneSync();

    /// Matches items by kind and name; a mesh is written only if its hash differs, a material set only if the
    /// look does.
    SceneChanges show(const Scene& scene, const SceneStyle& style, const UnitStyle& units);
    /// Size of the view in device pixels; lines keep their width.
    void setViewport(double width, double height);
    [[nodiscard]] Qt3DCore::QEntity* entity(const std::string& id) const; ///< nullptr if not shown

private:
    struct Mesh {
        Qt3DRender::QGeometryRenderer* renderer = nullptr;
        Qt3DCore::QEntity* entity = nullptr;
        Qt3DRender::QMaterial* material = nullptr;
    };
    struct Node {
        Qt3DCore::QEntity* entity = nullptr;
        Qt3DCore::QTransform* place = nullptr;
        Mesh faces, lines;
        std::uint64_t hash = 0;
        ItemLook look;
        Vec3 shift = Vec3::Zero();
    };

    Node makeNode(const SceneItem& item);
    Mesh makeMesh(Qt3DCore::QEntity* parent, bool lines);
    void setMaterial(Mesh& mesh, Qt3DRender::QMaterial* material);
    Qt3DRender::QMaterial* faceMaterial(const ItemLook& look);
    Qt3DRender::QMaterial* lineMaterial(const QColor& colour, double width, const char* passName);
    void showLines(Mesh& mesh, const std::vector<Vec3>& points, Qt3DRender::QMaterial* material);
    void showExtras(const Scene& scene, const SceneStyle& style, const UnitStyle& units);

    Qt3DCore::QEntity* m_root;
    Qt3DRender::QParameter* m_viewport;
    std::map<std::string, Node> m_nodes;
    std::map<QString, Qt3DRender::QMaterial*> m_materials;
    void showMarks(const Scene& scene, double ratio);
    Mesh m_grid, m_edge;
    std::vector<Mesh> m_links; ///< tight, hits
    std::vector<Vec3> m_gridLines;
    std::vector<Mesh> m_marks; ///< made when first wanted
    std::vector<SceneMark> m_shownMarks;
};

} // namespace slab::ui
