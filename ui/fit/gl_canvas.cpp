#include "ui/fit/fit_canvas.h"
#include "ui/fit/scene_material.h"
#include "ui/fit/scene_sync.h"
#include <QApplication>
#include <QCoreApplication>
#include <QGuiApplication>
#include <QOffscreenSurface>
#include <QOpenGLContext>
#include <QPointer>
#include <QTimer>
#include <QWidget>
#include <Qt3DCore/QEntity>
#include <Qt3DExtras/Qt3DWindow>
#include <Qt3DRender/QCamera>
#include <Qt3DRender/QCameraLens>
#include <Qt3DRender/QCameraSelector>
#include <Qt3DRender/QClearBuffers>
#include <Qt3DRender/QFilterKey>
#include <Qt3DRender/QNoDraw>
#include <Qt3DRender/QRenderPassFilter>
#include <Qt3DRender/QRenderSettings>
#include <Qt3DRender/QRenderSurfaceSelector>
#include <Qt3DRender/QSortPolicy>
#include <Qt3DRender/QViewport>
#include <numbers>

namespace slab::ui {

using namespace Qt3DRender;

namespace {

/// One step of the frame: everything that has this pass.
QRenderPassFilter* addStep(const char* name, Qt3DCore::QNode* parent) {
    auto* filter = new QRenderPassFilter(parent);
    auto* key = new QFilterKey(filter);
    key->setName(QStringLiteral("pass"));
    key->setValue(QString::fromLatin1(name));
    filter->addMatch(key);
    return filter;
}

/// The desktop may give the keys back to the outer window when this one is clicked, where no widget has them
/// then: they are asked for again.
class KeyHolder : public QObject {
public:
    KeyHolder(QWindow* window, QWidget* container)
        : QObject(container), m_window(window), m_container(container) {
        window->installEventFilter(this);
    }
    bool eventFilter(QObject* watched, QEvent* event) override {
        constexpr int settled = 50; // ms
        if (event->type() == QEvent::MouseButtonRelease || event->type() == QEvent::FocusOut)
            QTimer::singleShot(settled, this, &KeyHolder::hold);
        return QObject::eventFilter(watched, event);
    }

private:
    void hold() {
        const QWidget* has = QApplication::focusWidget();
        if (QGuiApplication::focusWindow() == m_window || !m_container->isVisible() ||
            !m_container->window()->isActiveWindow() || (has && has != m_container && has->isVisible()))
            return;
        m_container->setFocus(Qt::OtherFocusReason);
        m_window->requestActivate();
    }
    QWindow* m_window;
    QWidget* m_container;
};

class GlCanvas : public FitCanvas {
public:
    explicit GlCanvas(QWidget* parent) : m_window(new Qt3DExtras::Qt3DWindow) {
        m_camera = new QCamera;
        m_window->setActiveFrameGraph(makeFrameGraph());
        m_root = new Qt3DCore::QEntity;
        m_camera->setParent(m_root);
        m_sync = std::make_unique<SceneSync>(m_root);
        m_window->setRootEntity(m_root);
        m_window->renderSettings()->setRenderPolicy(QRenderSettings::OnDemand);
        m_container = QWidget::createWindowContainer(m_window, parent);
        m_container->setFocusPolicy(Qt::StrongFocus);
        new KeyHolder(m_window, m_container); // the container owns it
    }
    ~GlCanvas() override {
        // The sync's nodes die with the window's scene; only its own bookkeeping is left to drop.
        m_sync.reset();
        delete m_container.data();
    }
    QWidget* widget() override { return m_container; }
    QObject* surface() override { return m_window; }
    bool native() const override { return true; }

    void showScene(const Scene& scene, const SceneStyle& style, const UnitStyle& units) override {
        SceneStyle scaled = style;
        scaled.pixelRatio = m_window->devicePixelRatio();
        m_clear->setClearColor(backgroundColour());
        // Solid plates hide what is behind them: depth first, and no veiled lines.
        const bool solid = style.seeThrough < 0.02;
        m_depthFirst->setEnabled(solid);
        m_linesFirst->setEnabled(!solid);
        m_sync->show(scene, scaled, units);
    }

    void showCamera(const ViewCamera& camera) override {
        const auto qt = [](const Vec3& v) {
            return QVector3D(static_cast<float>(v.x()), static_cast<float>(v.y()), static_cast<float>(v.z()));
        };
        m_camera->setPosition(qt(camera.eye()));
        m_camera->setViewCenter(qt(camera.target));
        m_camera->setUpVector(qt(camera.up()));
        const auto near = static_cast<float>(camera.nearPlane()), far = static_cast<float>(camera.farPlane());
        if (camera.parallel) {
            const auto h = static_cast<float>(camera.mmPerPixel() * camera.height / 2);
            const auto w = static_cast<float>(camera.mmPerPixel() * camera.width / 2);
            m_camera->lens()->setOrthographicProjection(-w, w, -h, h, near, far);
        } else {
            m_camera->lens()->setPerspectiveProjection(
                static_cast<float>(camera.fieldOfView * 180 / std::numbers::pi),
                static_cast<float>(camera.width / std::max(1.0, camera.height)), near, far);
        }
        const double ratio = m_window->devicePixelRatio();
        m_sync->setViewport(camera.width * ratio, camera.height * ratio);
    }

private:
    QFrameGraphNode* makeFrameGraph() {
        auto* surface = new QRenderSurfaceSelector;
        surface->setSurface(m_window);
        auto* viewport = new QViewport(surface);
        auto* selector = new QCameraSelector(viewport);
        selector->setCamera(m_camera);
        m_clear = new QClearBuffers(selector);
        m_clear->setBuffers(QClearBuffers::ColorDepthBuffer);
        new QNoDraw(m_clear);
        addStep(pass::ground, selector);
        addStep(pass::solid, selector);
        m_depthFirst = addStep(pass::depth, selector);
        m_linesFirst = addStep(pass::line, selector);
        auto* order = new QSortPolicy(selector);
        order->setSortTypes(QList<QSortPolicy::SortType>{QSortPolicy::BackToFront});
        addStep(pass::glass, order);
        addStep(pass::depth, selector);
        addStep(pass::line, selector);
        addStep(pass::top, selector);
        return surface;
    }

    Qt3DExtras::Qt3DWindow* m_window;
    QPointer<QWidget> m_container;
    Qt3DCore::QEntity* m_root = nullptr;
    QCamera* m_camera = nullptr;
    QClearBuffers* m_clear = nullptr;
    QFrameGraphNode *m_depthFirst = nullptr, *m_linesFirst = nullptr;
    std::unique_ptr<SceneSync> m_sync;
};

} // namespace

bool canUseOpenGl() {
    if (qEnvironmentVariable("SLABSIDE_VIEW") == QStringLiteral("painter")) return false;
    const QString platform = QGuiApplication::platformName();
    for (const char* none : {"offscreen", "minimal", "vnc", "linuxfb"}) {
        if (platform == QLatin1String(none)) return false;
    }
    QSurfaceFormat format;
    format.setVersion(3, 2);
    format.setProfile(QSurfaceFormat::CoreProfile);
    QOpenGLContext context;
    context.setFormat(format);
    if (!context.create() || context.isOpenGLES()) return false;
    QOffscreenSurface surface;
    surface.setFormat(context.format());
    surface.create();
    if (!surface.isValid() || !context.makeCurrent(&surface)) return false;
    const bool enough = context.format().version() >= qMakePair(3, 2);
    context.doneCurrent();
    return enough;
}

std::unique_ptr<FitCanvas> makeGlCanvas(QWidget* parent) {
    // The shaders are plain OpenGL; the other Qt3D back end would want them in another dialect.
    // Only the 3D window needs a window of its own, not every widget beside it.
    QCoreApplication::setAttribute(Qt::AA_DontCreateNativeWidgetSiblings);
    if (!qEnvironmentVariableIsSet("QT3D_RENDERER")) qputenv("QT3D_RENDERER", "opengl");
    return std::make_unique<GlCanvas>(parent);
}

} // namespace slab::ui
