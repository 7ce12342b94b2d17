#include "ui/fit/soft_render.h"
#include "ui/theme/theme.h"
#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace slab::ui {

namespace {

constexpr int supersample = 2;

/// Point in eye axes: x right, y up, z ahead.
using Eye = Vec3;

struct Pen {
    QColor colour;
    double alpha = 1;
    bool test = true, writeDepth = false, writeColour = true;
};

class Raster {
public:
    Raster(const ViewCamera& camera, double ratio)
        : m_camera(camera), m_width(std::max(1, static_cast<int>(camera.width * ratio) * supersample)),
          m_height(std::max(1, static_cast<int>(camera.height * ratio) * supersample)),
          m_scale(m_height / std::max(1.0, camera.height)), m_eye(camera.eye()) {
        m_axes.row(0) = camera.right();
        m_axes.row(1) = camera.up();
        m_axes.row(2) = camera.forward();
        m_image = QImage(m_width, m_height, QImage::Format_RGB32);
        m_image.fill(backgroundColour());
        m_depth.assign(static_cast<std::size_t>(m_width) * static_cast<std::size_t>(m_height), -1e30F);
    }

    [[nodiscard]] double pixel() const { return m_scale; }

    void triangle(const Vec3& a, const Vec3& b, const Vec3& c, const Pen& pen) {
        std::array<Eye, 4> in{toEye(a), toEye(b), toEye(c)}, out;
        std::size_t n = 0;
        const double near = m_camera.nearPlane();
        for (std::size_t i = 0; i < 3; ++i) { // Sutherland-Hodgman at the near plane
            const Eye &p = in[i], &q = in[(i + 1) % 3];
            if (p.z() >= near) out[n++] = p;
            if ((p.z() >= near) != (q.z() >= near))
                out[n++] = p + (q - p) * ((near - p.z()) / (q.z() - p.z()));
        }
        for (std::size_t i = 1; i + 1 < n; ++i)
            flat({toPixel(out[0]), toPixel(out[i]), toPixel(out[i + 1])}, pen);
    }

    /// `width` in widget pixels.
    void line(const Vec3& a, const Vec3& b, double width, const Pen& pen) {
        Eye p = toEye(a), q = toEye(b);
        const double near = m_camera.nearPlane();
        if (p.z() < near && q.z() < near) return;
        if (p.z() < near) p += (q - p) * ((near - p.z()) / (q.z() - p.z()));
        if (q.z() < near) q += (p - q) * ((near - q.z()) / (p.z() - q.z()));
        stroke(toPixel(p), toPixel(q), width * m_scale, pen);
    }

    void dot(const Vec3& at, double radius, const Pen& pen) {
        const Eye e = toEye(at);
        if (e.z() < m_camera.nearPlane()) return;
        const Vec3 s = toPixel(e);
        const double r = radius * m_scale;
        for (int y = std::max(0, floored(s.y() - r)); y <= std::min(m_height - 1, floored(s.y() + r)); ++y) {
            const double half = std::sqrt(std::max(0.0, r * r - (y + 0.5 - s.y()) * (y + 0.5 - s.y())));
            span(
                y, s.x() - half, s.x() + half, [&](double) { return s.z(); }, pen, 0);
        }
    }

    [[nodiscard]] QImage finish(double ratio) const {
        const int w = m_width / supersample, h = m_height / supersample;
        QImage out(w, h, QImage::Format_RGB32);
        for (int y = 0; y < h; ++y) {
            auto* to = reinterpret_cast<QRgb*>(out.scanLine(y));
            const auto* r0 = reinterpret_cast<const QRgb*>(m_image.constScanLine(2 * y));
            const auto* r1 = reinterpret_cast<const QRgb*>(m_image.constScanLine(2 * y + 1));
            for (int x = 0; x < w; ++x) {
                const std::array<QRgb, 4> four{r0[2 * x], r0[2 * x + 1], r1[2 * x], r1[2 * x + 1]};
                int red = 2, green = 2, blue = 2;
                for (const QRgb p : four) red += qRed(p), green += qGreen(p), blue += qBlue(p);
                to[x] = qRgb(red / 4, green / 4, blue / 4);
            }
        }
        out.setDevicePixelRatio(ratio);
        return out;
    }

private:
    static int floored(double v) { return static_cast<int>(std::floor(std::clamp(v, -1e6, 1e6))); }
    [[nodiscard]] Eye toEye(const Vec3& p) const { return m_axes * (p - m_eye); }

    /// Pixel x, y (y down) and a nearness that is linear on screen: larger is nearer.
    [[nodiscard]] Vec3 toPixel(const Eye& e) const {
        const double k = m_camera.parallel ? m_scale / m_camera.mmPerPixel()
                                           : m_height / (2 * std::tan(m_camera.fieldOfView / 2) * e.z());
        const double nearness = m_camera.parallel ? -e.z() : 1e6 / e.z();
        return {m_width / 2.0 + e.x() * k, m_height / 2.0 - e.y() * k, nearness};
    }

    /// One pixel row from x0 to x1.
    template <class Nearness>
    void span(int y, double x0, double x1, const Nearness& nearness, const Pen& pen, double bias) {
        const int from = std::max(0, floored(x0 + 0.5)), to = std::min(m_width - 1, floored(x1 - 0.5));
        auto* row = reinterpret_cast<QRgb*>(m_image.scanLine(y));
        float* depth = m_depth.data() + static_cast<std::size_t>(y) * static_cast<std::size_t>(m_width);
        const int a = static_cast<int>(pen.alpha * 256), back = 256 - a;
        const int red = pen.colour.red() * a, green = pen.colour.green() * a, blue = pen.colour.blue() * a;
        for (int x = from; x <= to; ++x) {
            const auto z = static_cast<float>(nearness(x + 0.5));
            if (pen.test && z + static_cast<float>(bias) < depth[x]) continue;
            if (pen.writeDepth) depth[x] = std::max(depth[x], z);
            if (!pen.writeColour) continue;
            const QRgb under = row[x];
            row[x] = qRgb((red + qRed(under) * back) >> 8, (green + qGreen(under) * back) >> 8,
                          (blue + qBlue(under) * back) >> 8);
        }
    }

    void flat(std::array<Vec3, 3> p, const Pen& pen) {
        const Vec3 e1 = p[1] - p[0], e2 = p[2] - p[0];
        const double det = e1.x() * e2.y() - e2.x() * e1.y();
        if (det >= -1e-9) return; // back face (screen y points down) or seen edge on
        const double dzdx = (e1.z() * e2.y() - e2.z() * e1.y()) / det;
        const double dzdy = (e2.z() * e1.x() - e1.z() * e2.x()) / det;
        const Vec3 o = p[0];
        std::sort(p.begin(), p.end(), [](const Vec3& a, const Vec3& b) { return a.y() < b.y(); });
        const int top = std::max(0, floored(p[0].y() + 0.5)),
                  bottom = std::min(m_height - 1, floored(p[2].y() - 0.5));
        const auto xAt = [](const Vec3& a, const Vec3& b, double y) {
            return a.x() + (b.x() - a.x()) * ((y - a.y()) / (b.y() - a.y()));
        };
        for (int y = top; y <= bottom; ++y) {
            const double yc = y + 0.5;
            const double longSide = xAt(p[0], p[2], yc);
            const double shortSide = yc < p[1].y() ? xAt(p[0], p[1], yc) : xAt(p[1], p[2], yc);
            const double rowZ = o.z() + (yc - o.y()) * dzdy;
            const auto nearness = [&](double x) { return rowZ + (x - o.x()) * dzdx; };
            span(y, std::min(longSide, shortSide), std::max(longSide, shortSide), nearness, pen,
                 pen.test ? tiny(o.z()) : 0);
        }
    }
    [[nodiscard]] double tiny(double nearness) const { return m_camera.parallel ? 0.05 : nearness * 1e-5; }

    void stroke(const Vec3& a, const Vec3& b, double width, const Pen& pen) {
        const Vec2 d = (b - a).head<2>();
        const double length = d.norm();
        if (length < 1e-6) return;
        // Lines lie on the faces they border: a pixel and a half nearer lets them win there.
        const double bias = m_camera.parallel ? 1.5 * m_camera.mmPerPixel()
                                              : std::max(a.z(), b.z()) * 3 *
                                                    std::tan(m_camera.fieldOfView / 2) / m_camera.height;
        const Vec2 n(-d.y() / length * width / 2, d.x() / length * width / 2);
        const std::array<Vec2, 4> quad{a.head<2>() + n, b.head<2>() + n, b.head<2>() - n, a.head<2>() - n};
        double lowest = 1e300, highest = -1e300;
        for (const auto& q : quad) lowest = std::min(lowest, q.y()), highest = std::max(highest, q.y());
        for (int y = std::max(0, floored(lowest)); y <= std::min(m_height - 1, floored(highest)); ++y) {
            double left = 1e300, right = -1e300;
            const double yc = std::clamp(y + 0.5, lowest, highest);
            for (std::size_t i = 0; i < 4; ++i) {
                const Vec2 &p = quad[i], &q = quad[(i + 1) % 4];
                if ((p.y() <= yc && q.y() >= yc) || (q.y() <= yc && p.y() >= yc)) {
                    const double t = q.y() == p.y() ? 0 : (yc - p.y()) / (q.y() - p.y());
                    for (const double x :
                         {p.x() + (q.x() - p.x()) * t, q.y() == p.y() ? q.x() : p.x() + (q.x() - p.x()) * t})
                        left = std::min(left, x), right = std::max(right, x);
                }
            }
            if (left > right) continue;
            if (right - left < 1) right = left + 1;
            const auto nearness = [&](double x) {
                const double t = std::clamp((Vec2(x, yc) - a.head<2>()).dot(d) / (length * length), 0.0, 1.0);
                return a.z() + (b.z() - a.z()) * t;
            };
            span(y, left, right, nearness, pen, bias);
        }
    }

    ViewCamera m_camera;
    int m_width, m_height;
    double m_scale;
    Vec3 m_eye;
    Mat3 m_axes;
    QImage m_image;
    std::vector<float> m_depth;
};

QColor lit(const QColor& colour, double light) {
    const auto channel = [&](int v) { return std::clamp(static_cast<int>(v * light + 0.5), 0, 255); };
    return {channel(colour.red()), channel(colour.green()), channel(colour.blue())};
}

struct Facet {
    Vec3 a, b, c;
    QColor colour;
    double alpha = 1, far = 0;
};

std::vector<Facet> facetsOf(const Scene& scene, const ViewCamera& camera, const SceneStyle& style,
                            bool glass) {
    std::vector<Facet> out;
    const Vec3 eye = camera.eye(), ahead = camera.forward();
    for (const auto& item : scene.items) {
        const ItemLook look = lookOf(item, style);
        if ((look.alpha < 0.999) != glass) continue;
        const auto& t = item.mesh->triangles;
        for (std::size_t k = 0; k + 2 < t.size(); k += 3) {
            const Vec3 normal = (t[k + 1] - t[k]).cross(t[k + 2] - t[k]).normalized();
            const Vec3 middle = (t[k] + t[k + 1] + t[k + 2]) / 3 + item.shift;
            const Vec3 view = camera.parallel ? ahead : Vec3(middle - eye);
            if (normal.dot(view) >= 0) continue;
            out.push_back({t[k] + item.shift, t[k + 1] + item.shift, t[k + 2] + item.shift,
                           lit(look.fill, daylight(normal)), look.alpha, (middle - eye).dot(ahead)});
        }
    }
    return out;
}

void drawLines(Raster& raster, const Scene& scene, const SceneStyle& style) {
    for (const auto& item : scene.items) {
        const ItemLook look = lookOf(item, style);
        const auto& l = item.mesh->lines;
        for (std::size_t k = 0; k + 1 < l.size(); k += 2)
            raster.line(l[k] + item.shift, l[k + 1] + item.shift, look.lineWidth, {look.line, 0.9});
    }
}

} // namespace

QImage renderScene(const Scene& scene, const ViewCamera& camera, const SceneStyle& style,
                   const UnitStyle& units) {
    Raster raster(camera, style.pixelRatio);
    const auto grid = groundGrid(scene.bounds, units);
    for (std::size_t i = 0; i + 1 < grid.size(); i += 2) raster.line(grid[i], grid[i + 1], 1, {gridColour()});
    const auto drawMarks = [&](bool over) {
        for (const SceneMark& mark : scene.marks) {
            if (isOver(mark.kind) != over) continue;
            for (std::size_t i = 0; i + 1 < mark.lines.size(); i += 2)
                raster.line(mark.lines[i], mark.lines[i + 1], widthOf(mark.kind),
                            {colourOf(mark.kind), 1, !over});
        }
    };
    drawMarks(false);
    for (const auto& f : facetsOf(scene, camera, style, false))
        raster.triangle(f.a, f.b, f.c, {f.colour, 1, true, true, true});
    auto glass = facetsOf(scene, camera, style, true);
    std::stable_sort(glass.begin(), glass.end(),
                     [](const Facet& a, const Facet& b) { return a.far > b.far; });
    // Far lines first, so that the glass in front of them veils them.
    if (!glass.empty()) drawLines(raster, scene, style);
    for (const auto& f : glass) raster.triangle(f.a, f.b, f.c, {f.colour, f.alpha});
    for (const auto& f : glass) raster.triangle(f.a, f.b, f.c, {f.colour, 1, true, true, false});
    drawLines(raster, scene, style);
    for (std::size_t i = 0; i + 1 < scene.edge.size(); i += 2)
        raster.line(scene.edge[i], scene.edge[i + 1], 4, {Theme::colours().chosen, 1, false});
    drawMarks(true);
    for (const auto& link : scene.links) {
        const Pen pen{colourOf(link.state), 1, false};
        raster.line(link.from, link.to, 2.2, pen);
        raster.dot(link.from, 4, pen);
        raster.dot(link.to, 4, pen);
    }
    return raster.finish(style.pixelRatio);
}

} // namespace slab::ui
