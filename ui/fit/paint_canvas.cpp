#include "ui/fit/fit_canvas.h"
#include "ui/fit/soft_render.h"
#include <QPainter>
#include <QPointer>

namespace slab::ui {

namespace {

class PaintWidget : public QWidget {
public:
    explicit PaintWidget(QWidget* parent) : QWidget(parent) {
        setMouseTracking(true);
        setFocusPolicy(Qt::StrongFocus);
        setAttribute(Qt::WA_OpaquePaintEvent);
    }
    Scene scene;
    SceneStyle style;
    UnitStyle units;
    ViewCamera camera;
    bool stale = true;

protected:
    void paintEvent(QPaintEvent*) override {
        if (stale || m_picture.isNull()) {
            style.pixelRatio = devicePixelRatioF();
            m_picture = renderScene(scene, camera, style, units);
            stale = false;
        }
        QPainter painter(this);
        painter.drawImage(QPoint(0, 0), m_picture);
    }

private:
    QImage m_picture;
};

class PaintCanvas : public FitCanvas {
public:
    explicit PaintCanvas(QWidget* parent) : m_widget(new PaintWidget(parent)) {}
    QWidget* widget() override { return m_widget; }
    QObject* surface() override { return m_widget; }
    bool native() const override { return false; }
    void showScene(const Scene& scene, const SceneStyle& style, const UnitStyle& units) override {
        m_widget->scene = scene;
        m_widget->style = style;
        m_widget->units = units;
        refresh();
    }
    void showCamera(const ViewCamera& camera) override {
        m_widget->camera = camera;
        refresh();
    }

private:
    void refresh() {
        m_widget->stale = true;
        m_widget->update();
    }
    QPointer<PaintWidget> m_widget;
};

} // namespace

std::unique_ptr<FitCanvas> makePaintCanvas(QWidget* parent) {
    return std::make_unique<PaintCanvas>(parent);
}

} // namespace slab::ui
