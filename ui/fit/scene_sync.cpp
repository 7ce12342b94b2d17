#include "ui/fit/scene_sync.h"
#include "ui/fit/scene_material.h"
#include "ui/theme/theme.h"
#include <Qt3DCore/QAttribute>
#include <Qt3DCore/QBuffer>
#include <Qt3DCore/QEntity>
#include <Qt3DCore/QGeometry>
#include <Qt3DCore/QTransform>
#include <Qt3DRender/QGeometryRenderer>
#include <Qt3DRender/QMaterial>
#include <Qt3DRender/QParameter>
#include <algorithm>
#include <array>
#include <cstring>

namespace slab::ui {

using Qt3DCore::QAttribute;
using Qt3DCore::QBuffer;
using Qt3DCore::QEntity;
using Qt3DCore::QGeometry;
using Qt3DRender::QGeometryRenderer;
using Qt3DRender::QMaterial;

namespace {

struct Slot {
    QString name;
    uint size; ///< floats
};

const std::vector<Slot>& slotsOf(bool lines) {
    static const std::vector<Slot> faces{{QAttribute::defaultPositionAttributeName(), 3},
                                         {QAttribute::defaultNormalAttributeName(), 3}};
    static const std::vector<Slot> strokes{{QAttribute::defaultPositionAttributeName(), 3},
                                           {QStringLiteral("lineOther"), 3},
                                           {QStringLiteral("lineSide"), 2}};
    return lines ? strokes : faces;
}

void put(std::vector<float>& out, const Vec3& v) {
    for (int i = 0; i < 3; ++i) out.push_back(static_cast<float>(v[i]));
}

std::vector<float> faceData(const std::vector<Vec3>& t) {
    std::vector<float> out;
    out.reserve(t.size() * 6);
    for (std::size_t k = 0; k + 2 < t.size(); k += 3) {
        const Vec3 normal = (t[k + 1] - t[k]).cross(t[k + 2] - t[k]).normalized();
        for (std::size_t i = k; i < k + 3; ++i) put(out, t[i]), put(out, normal);
    }
    return out;
}

/// Two triangles for each line; the shader spreads them to the line's width on screen.
std::vector<float> lineData(const std::vector<Vec3>& l) {
    static constexpr std::array<std::array<int, 2>, 6> corners{
        {{0, -1}, {1, 1}, {0, 1}, {0, 1}, {1, 1}, {1, -1}}};
    std::vector<float> out;
    out.reserve(l.size() * 24);
    for (std::size_t k = 0; k + 1 < l.size(); k += 2) {
        for (const auto& [end, side] : corners) {
            put(out, end ? l[k + 1] : l[k]);
            put(out, end ? l[k] : l[k + 1]);
            out.push_back(static_cast<float>(side));
            out.push_back(static_cast<float>(end));
        }
    }
    return out;
}

void write(QGeometryRenderer* renderer, const std::vector<float>& data, bool lines) {
    uint stride = 0;
    for (const auto& slot : slotsOf(lines)) stride += slot.size;
    const auto count = static_cast<uint>(data.size()) / stride;
    QByteArray bytes(reinterpret_cast<const char*>(data.data()),
                     static_cast<qsizetype>(data.size() * sizeof(float)));
    const auto attributes = renderer->geometry()->attributes();
    attributes.front()->buffer()->setData(bytes);
    for (auto* attribute : attributes) attribute->setCount(count);
    renderer->setVertexCount(static_cast<int>(count));
}

} // namespace

SceneSync::SceneSync(QEntity* root) : m_root(root) {
    m_viewport = new Qt3DRender::QParameter(QStringLiteral("viewport"), QVector2D(800, 600), m_root);
    m_grid = makeMesh(m_root, true);
    m_links = {makeMesh(m_root, true), makeMesh(m_root, true), makeMesh(m_root, true),
               makeMesh(m_root, true)};
    m_edge = makeMesh(m_root, true);
}

SceneSync::~SceneSync() = default;

void SceneSync::setViewport(double width, double height) {
    m_viewport->setValue(QVector2D(static_cast<float>(width), static_cast<float>(height)));
}

QEntity* SceneSync::entity(const std::string& id) const {
    for (const char* kind : {"p/", "s/"}) {
        const auto it = m_nodes.find(kind + id);
        if (it != m_nodes.end()) return it->second.entity;
    }
    return nullptr;
}

SceneSync::Mesh SceneSync::makeMesh(QEntity* parent, bool lines) {
    Mesh mesh;
    mesh.entity = new QEntity(parent);
    mesh.renderer = new QGeometryRenderer(mesh.entity);
    auto* geometry = new QGeometry(mesh.renderer);
    auto* buffer = new QBuffer(geometry);
    uint stride = 0, offset = 0;
    for (const auto& slot : slotsOf(lines)) stride += slot.size;
    for (const auto& slot : slotsOf(lines)) {
        auto* attribute = new QAttribute(geometry);
        attribute->setName(slot.name);
        attribute->setAttributeType(QAttribute::VertexAttribute);
        attribute->setVertexBaseType(QAttribute::Float);
        attribute->setVertexSize(slot.size);
        attribute->setBuffer(buffer);
        attribute->setByteStride(stride * static_cast<uint>(sizeof(float)));
        attribute->setByteOffset(offset * static_cast<uint>(sizeof(float)));
        geometry->addAttribute(attribute);
        if (slot.name == QAttribute::defaultPositionAttributeName())
            geometry->setBoundingVolumePositionAttribute(attribute);
        offset += slot.size;
    }
    mesh.renderer->setGeometry(geometry);
    mesh.renderer->setPrimitiveType(QGeometryRenderer::Triangles);
    mesh.entity->addComponent(mesh.renderer);
    return mesh;
}

void SceneSync::setMaterial(Mesh& mesh, QMaterial* material) {
    if (mesh.material == material) return;
    if (mesh.material) mesh.entity->removeComponent(mesh.material);
    mesh.material = material;
    mesh.entity->addComponent(material);
}

QMaterial* SceneSync::faceMaterial(const ItemLook& look) {
    const QString key = QStringLiteral("f%1/%2").arg(look.fill.name()).arg(look.alpha, 0, 'f', 3);
    QMaterial*& material = m_materials[key];
    if (!material) material = makeFaceMaterial(look.fill, look.alpha, m_root);
    return material;
}

QMaterial* SceneSync::lineMaterial(const QColor& colour, double width, const char* passName) {
    const QString key = QStringLiteral("l%1/%2/%3")
                            .arg(colour.name(QColor::HexArgb))
                            .arg(width)
                            .arg(QString::fromLatin1(passName));
    QMaterial*& material = m_materials[key];
    if (!material) material = makeLineMaterial(colour, width, passName, m_viewport, m_root);
    return material;
}

SceneSync::Node SceneSync::makeNode(const SceneItem& item) {
    Node node;
    node.entity = new QEntity(m_root);
    node.entity->setObjectName(QString::fromStdString(item.id));
    node.place = new Qt3DCore::QTransform(node.entity);
    node.entity->addComponent(node.place);
    node.faces = makeMesh(node.entity, false);
    node.lines = makeMesh(node.entity, true);
    node.hash = ~item.hash;
    return node;
}

SceneChanges SceneSync::show(const Scene& scene, const SceneStyle& style, const UnitStyle& units) {
    SceneChanges changes;
    std::map<std::string, Node> next;
    for (const auto& item : scene.items) {
        const bool plate = item.kind == ItemKind::plate || item.kind == ItemKind::round;
        const std::string key = (plate ? "p/" : "s/") + item.id;
        auto found = m_nodes.extract(key);
        const bool fresh = found.empty();
        Node node = fresh ? makeNode(item) : std::move(found.mapped());
        if (fresh) ++changes.added;
        if (node.hash != item.hash) {
            write(node.faces.renderer, faceData(item.mesh->triangles), false);
            write(node.lines.renderer, lineData(item.mesh->lines), true);
            node.hash = item.hash;
            ++changes.remeshed;
        }
        const ItemLook look = lookOf(item, style);
        if (fresh || !(node.look == look)) {
            setMaterial(node.faces, faceMaterial(look));
            QColor line = look.line;
            line.setAlphaF(0.9F);
            setMaterial(node.lines, lineMaterial(line, look.lineWidth * style.pixelRatio, pass::line));
            node.look = look;
            if (!fresh) ++changes.restyled;
        }
        if (node.shift != item.shift) {
            const Eigen::Vector3f s = item.shift.cast<float>();
            node.place->setTranslation({s.x(), s.y(), s.z()});
            node.shift = item.shift;
            if (!fresh) ++changes.moved;
        }
        next.emplace(key, std::move(node));
    }
    for (auto& [key, node] : m_nodes) {
        ++changes.removed;
        delete node.entity;
    }
    m_nodes = std::move(next);
    showExtras(scene, style, units);
    return changes;
}

void SceneSync::showLines(Mesh& mesh, const std::vector<Vec3>& points, QMaterial* material) {
    write(mesh.renderer, lineData(points), true);
    mesh.entity->setEnabled(!points.empty());
    setMaterial(mesh, material);
}

void SceneSync::showMarks(const Scene& scene, double ratio) {
    const bool same = m_shownMarks == scene.marks;
    while (m_marks.size() < scene.marks.size()) m_marks.push_back(makeMesh(m_root, true));
    for (std::size_t i = 0; i < m_marks.size(); ++i) {
        if (i >= scene.marks.size()) {
            m_marks[i].entity->setEnabled(false);
            continue;
        }
        const SceneMark& mark = scene.marks[i];
        const bool over = isOver(mark.kind);
        QMaterial* material =
            lineMaterial(colourOf(mark.kind), widthOf(mark.kind) * ratio, over ? pass::top : pass::ground);
        if (same)
            setMaterial(m_marks[i], material);
        else
            showLines(m_marks[i], mark.lines, material);
    }
    m_shownMarks = scene.marks;
}

void SceneSync::showExtras(const Scene& scene, const SceneStyle& style, const UnitStyle& units) {
    const double ratio = style.pixelRatio;
    auto grid = groundGrid(scene.bounds, units);
    QMaterial* ground = lineMaterial(gridColour(), ratio, pass::ground);
    if (grid != m_gridLines || m_grid.material != ground) {
        m_gridLines = std::move(grid);
        showLines(m_grid, m_gridLines, ground);
    }
    showMarks(scene, ratio);
    showLines(m_edge, scene.edge, lineMaterial(Theme::colours().chosen, 4 * ratio, pass::top));
    for (std::size_t i = 0; i < 2; ++i) {
        const FitState state = i == 0 ? FitState::tight : FitState::hits;
        std::vector<Vec3> lines, dots;
        for (const auto& link : scene.links) {
            if (link.state != state) continue;
            lines.insert(lines.end(), {link.from, link.to});
            dots.insert(dots.end(), {link.from, link.from, link.to, link.to});
        }
        showLines(m_links[2 * i], lines, lineMaterial(colourOf(state), 2.2 * ratio, pass::top));
        showLines(m_links[2 * i + 1], dots, lineMaterial(colourOf(state), 8 * ratio, pass::top));
    }
}

} // namespace slab::ui
