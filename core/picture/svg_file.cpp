#include "core/picture/svg_file.h"
#include "core/picture/svg_scan.h"
#include "core/picture/svg_size.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <pugixml.hpp>

namespace slab {

namespace {

constexpr std::size_t largestFile = std::size_t{64} << 20U;
constexpr int deepest = 64; ///< groups in groups
constexpr std::size_t mostShapes = 100000;
constexpr std::size_t mostVisits = 1000000; ///< `use` may repeat what repeats

std::string_view localName(const pugi::xml_node& node) {
    std::string_view name = node.name();
    if (const auto colon = name.find(':'); colon != std::string_view::npos) name.remove_prefix(colon + 1);
    return name;
}

pugi::xml_node rootOf(const pugi::xml_document& document) {
    for (const pugi::xml_node& node : document.children())
        if (localName(node) == "svg") return node;
    return {};
}

Expected<void> parse(std::string_view bytes, pugi::xml_document& document) {
    if (bytes.size() > largestFile)
        return fail("too-large", "The drawing is larger than 64 MiB.", {},
                    "Save only the outlines that are needed.");
    const auto result = document.load_buffer(bytes.data(), bytes.size());
    if (!result)
        return fail("picture-damaged",
                    std::string("The drawing is not well-formed XML: ") + result.description() + ".",
                    "byte " + std::to_string(result.offset), "Save the drawing again.");
    if (!rootOf(document))
        return fail("picture-format", "There is no svg element in this file.", {}, "Choose an SVG drawing.");
    return {};
}

SvgSize sizeOf(const pugi::xml_node& root) {
    SvgSize size;
    const std::string w = root.attribute("width").value(), h = root.attribute("height").value();
    const auto width = readSvgLength(w), height = readSvgLength(h);
    const auto box = readViewBox(root.attribute("viewBox").value());
    const auto given = [](const std::optional<SvgLength>& l) { return l && !l->percent && l->value > 0; };
    // CSS 2.1, 10.3.2: a drawing that says nothing is 300 px wide and 150 px high.
    Vec2 px(box ? box->width : 300, box ? box->height : 150);
    if (given(width)) px.x() = width->value;
    if (given(height)) px.y() = height->value;
    if (box && given(width) != given(height)) {
        if (given(width)) px.y() = px.x() * box->height / box->width;
        if (given(height)) px.x() = px.y() * box->width / box->height;
    }
    size.pixelWidth = px.x();
    size.pixelHeight = px.y();
    constexpr double pixel = 25.4 / 96;
    size.width = px.x() * pixel;
    size.height = px.y() * pixel;
    size.real = (given(width) && width->real) || (given(height) && height->real);
    if (box) {
        const Mat3 fit = fitted(*box, px, root.attribute("preserveAspectRatio").value());
        size.unitX = fit(0, 0) * pixel;
        size.unitY = fit(1, 1) * pixel;
    }
    if (!w.empty() || !h.empty()) size.written = (w.empty() ? "?" : w) + " by " + (h.empty() ? "?" : h);
    return size;
}

/// The straight and round pieces of the basic shapes.
class ShapeMaker {
public:
    explicit ShapeMaker(Vec2 view) : m_view(std::move(view)) {}

    /// A length attribute in user units; `along` 0 = x, 1 = y, 2 = the diagonal, for percentages
    /// (SVG 1.1, 7.10).
    std::optional<double> length(const pugi::xml_node& node, const char* name, int along) const {
        const auto attribute = node.attribute(name);
        if (!attribute) return 0.0;
        const auto l = readSvgLength(attribute.value());
        if (!l) return std::nullopt;
        const double whole = along == 2 ? m_view.norm() / std::numbers::sqrt2 : m_view[along];
        return l->percent ? l->value / 100 * whole : l->value;
    }

    Expected<std::vector<SvgSubpath>> paths(const pugi::xml_node& node, std::string_view element) const {
        if (element == "path") return readSvgPath(node.attribute("d").value());
        if (element == "polygon" || element == "polyline") return points(node, element == "polygon");
        if (element == "line") return line(node);
        if (element == "rect") return rect(node);
        return ellipse(node, element == "circle");
    }

private:
    Vec2 m_view; ///< of the viewport, user units

    static Unexpected unreadable(const char* what) {
        return fail("svg-path", std::string("its ") + what + " cannot be read", {},
                    "Save it as a plain path.");
    }
    static SvgSegment lineTo(const Vec2& to) {
        SvgSegment s;
        s.to = to;
        return s;
    }
    static SvgSegment quarter(const Vec2& centre, const Vec2& r, double start) {
        SvgSegment s;
        s.kind = SvgSegment::Kind::arc;
        s.arc = {centre, Vec2(r.x(), 0), Vec2(0, r.y()), start, std::numbers::pi / 2};
        s.to = s.arc.at(start + s.arc.sweep);
        return s;
    }
    static Expected<std::vector<SvgSubpath>> points(const pugi::xml_node& node, bool closed) {
        SvgScan scan(node.attribute("points").value());
        SvgSubpath path;
        path.closed = closed;
        scan.skipBlanks();
        for (bool first = true; !scan.atEnd(); first = false) {
            Vec2 p;
            for (double* c : {&p.x(), &p.y()}) {
                if (!scan.number(*c)) return unreadable("list of points");
                scan.skipComma();
            }
            if (first)
                path.start = p;
            else
                path.segments.push_back(lineTo(p));
        }
        return std::vector<SvgSubpath>{path};
    }
    Expected<std::vector<SvgSubpath>> line(const pugi::xml_node& node) const {
        const auto x1 = length(node, "x1", 0), y1 = length(node, "y1", 1);
        const auto x2 = length(node, "x2", 0), y2 = length(node, "y2", 1);
        if (!x1 || !y1 || !x2 || !y2) return unreadable("size");
        return std::vector<SvgSubpath>{{Vec2(*x1, *y1), {lineTo(Vec2(*x2, *y2))}, false}};
    }
    Expected<std::vector<SvgSubpath>> rect(const pugi::xml_node& node) const {
        const auto x = length(node, "x", 0), y = length(node, "y", 1);
        const auto w = length(node, "width", 0), h = length(node, "height", 1);
        auto rx = length(node, "rx", 0), ry = length(node, "ry", 1);
        if (!x || !y || !w || !h || !rx || !ry) return unreadable("size");
        if (!(*w > 0) || !(*h > 0)) return std::vector<SvgSubpath>{};
        if (!node.attribute("rx")) rx = ry; // SVG 1.1, 9.2: one radius serves for both
        if (!node.attribute("ry")) ry = rx;
        const Vec2 r(std::clamp(*rx, 0.0, *w / 2), std::clamp(*ry, 0.0, *h / 2));
        const Vec2 low(*x, *y), high(*x + *w, *y + *h);
        SvgSubpath path;
        path.closed = true;
        if (r.x() == 0 || r.y() == 0) {
            path.start = low;
            for (const Vec2& p : {Vec2(high.x(), low.y()), high, Vec2(low.x(), high.y())})
                path.segments.push_back(lineTo(p));
            return std::vector<SvgSubpath>{path};
        }
        constexpr double turn = std::numbers::pi / 2;
        path.start = Vec2(low.x() + r.x(), low.y());
        path.segments = {
            lineTo({high.x() - r.x(), low.y()}),  quarter({high.x() - r.x(), low.y() + r.y()}, r, -turn),
            lineTo({high.x(), high.y() - r.y()}), quarter(high - r, r, 0),
            lineTo({low.x() + r.x(), high.y()}),  quarter({low.x() + r.x(), high.y() - r.y()}, r, turn),
            lineTo({low.x(), low.y() + r.y()}),   quarter(low + r, r, 2 * turn)};
        return std::vector<SvgSubpath>{path};
    }
    Expected<std::vector<SvgSubpath>> ellipse(const pugi::xml_node& node, bool circle) const {
        const auto cx = length(node, "cx", 0), cy = length(node, "cy", 1);
        const auto rx = length(node, circle ? "r" : "rx", circle ? 2 : 0);
        const auto ry = length(node, circle ? "r" : "ry", circle ? 2 : 1);
        if (!cx || !cy || !rx || !ry) return unreadable("size");
        if (!(*rx > 0) || !(*ry > 0)) return std::vector<SvgSubpath>{};
        SvgSubpath path{Vec2(*cx + *rx, *cy), {}, true};
        for (int i = 0; i < 4; ++i)
            path.segments.push_back(quarter({*cx, *cy}, {*rx, *ry}, i * std::numbers::pi / 2));
        return std::vector<SvgSubpath>{path};
    }
};

class FileReader {
public:
    explicit FileReader(const pugi::xml_node& root) : m_root(root) {
        m_out.size = sizeOf(root);
        index(root, 0);
    }
    SvgFile read() {
        const auto box = readViewBox(m_root.attribute("viewBox").value());
        const Vec2 view =
            box ? Vec2(box->width, box->height) : Vec2(m_out.size.pixelWidth, m_out.size.pixelHeight);
        children(m_root, Mat3::Identity(), view, 0);
        for (const auto& [what, count] : m_skipped)
            m_out.leftOut.push_back(what + (count > 1 ? " (" + std::to_string(count) + " times)" : ""));
        return std::move(m_out);
    }

private:
    const pugi::xml_node m_root;
    SvgFile m_out;
    std::map<std::string, pugi::xml_node, std::less<>> m_byId;
    std::map<std::string, int> m_skipped;
    std::size_t m_visited = 0;

    void index(const pugi::xml_node& node, int depth) {
        if (const char* id = node.attribute("id").value(); *id != '\0') m_byId.emplace(id, node);
        if (depth < deepest)
            for (const pugi::xml_node& child : node.children()) index(child, depth + 1);
    }
    static bool isHidden(const pugi::xml_node& node) {
        std::string style = node.attribute("style").value();
        std::erase(style, ' ');
        return std::string_view(node.attribute("display").value()) == "none" ||
               style.find("display:none") != std::string::npos;
    }
    void skip(const std::string& what) { ++m_skipped[what]; }

    void children(const pugi::xml_node& node, const Mat3& map, const Vec2& view, int depth) {
        if (depth >= deepest) return skip("groups nested more than 64 deep");
        for (const pugi::xml_node& child : node.children())
            if (child.type() == pugi::node_element && !isHidden(child) && m_visited <= mostVisits)
                element(child, map, view, depth);
    }

    void element(const pugi::xml_node& node, Mat3 map, const Vec2& view, int depth) {
        if (++m_visited > mostVisits) return skip("more than a million repeated elements");
        const std::string_view name = localName(node);
        const auto transform = readTransform(node.attribute("transform").value());
        if (!transform) return skip(named(node) + ": " + transform.error().message);
        map = map * *transform;
        static constexpr std::string_view groups[] = {"g", "a", "switch"};
        static constexpr std::string_view drawn[] = {"path",   "polygon", "polyline", "rect",
                                                     "circle", "ellipse", "line"};
        static constexpr std::string_view words[] = {"text", "image", "foreignObject"};
        const auto among = [&](const auto& list) {
            return std::find(std::begin(list), std::end(list), name) != std::end(list);
        };
        if (among(groups))
            children(node, map, view, depth + 1);
        else if (among(drawn))
            shape(node, name, map, view);
        else if (name == "svg")
            nested(node, map, view, depth);
        else if (name == "use")
            use(node, map, view, depth);
        else if (among(words))
            skip(std::string(name) + " has no outline");
    }

    static std::string named(const pugi::xml_node& node) {
        const std::string id = node.attribute("id").value();
        return std::string(localName(node)) + (id.empty() ? "" : " \"" + id + "\"");
    }

    void shape(const pugi::xml_node& node, std::string_view name, const Mat3& map, const Vec2& view) {
        if (m_out.shapes.size() >= mostShapes) return skip("more than 100000 shapes");
        auto paths = ShapeMaker(view).paths(node, name);
        if (!paths)
            return skip(named(node) + ": " + paths.error().message +
                        (paths.error().where.empty() ? "" : " (" + paths.error().where + ")"));
        SvgShape out{node.attribute("id").value(), std::string(name), {}};
        for (SvgSubpath& path : *paths)
            if (!path.segments.empty()) out.paths.push_back(moved(std::move(path), map));
        if (!out.paths.empty()) m_out.shapes.push_back(std::move(out));
    }

    void nested(const pugi::xml_node& node, const Mat3& map, const Vec2& view, int depth) {
        const ShapeMaker maker(view);
        const auto x = maker.length(node, "x", 0), y = maker.length(node, "y", 1);
        const auto w =
            node.attribute("width") ? maker.length(node, "width", 0) : std::optional<double>(view.x());
        const auto h =
            node.attribute("height") ? maker.length(node, "height", 1) : std::optional<double>(view.y());
        if (!x || !y || !w || !h || !(*w > 0) || !(*h > 0))
            return skip(named(node) + ": its size cannot be read");
        Mat3 inner = Mat3::Identity();
        inner.topRightCorner<2, 1>() = Vec2(*x, *y);
        Vec2 inside(*w, *h);
        if (const auto box = readViewBox(node.attribute("viewBox").value())) {
            inner = inner * fitted(*box, inside, node.attribute("preserveAspectRatio").value());
            inside = Vec2(box->width, box->height);
        }
        children(node, map * inner, inside, depth + 1);
    }

    void use(const pugi::xml_node& node, const Mat3& map, const Vec2& view, int depth) {
        std::string_view href = node.attribute("href").value();
        if (href.empty()) href = node.attribute("xlink:href").value();
        const auto target = href.empty() ? m_byId.end() : m_byId.find(href.substr(1));
        if (href.substr(0, 1) != "#" || target == m_byId.end() || depth >= deepest)
            return skip(named(node) + ": what it repeats is not in this file");
        const ShapeMaker maker(view);
        const auto x = maker.length(node, "x", 0), y = maker.length(node, "y", 1);
        if (!x || !y) return skip(named(node) + ": its place cannot be read");
        Mat3 shift = Mat3::Identity();
        shift.topRightCorner<2, 1>() = Vec2(*x, *y);
        if (localName(target->second) == "symbol")
            children(target->second, map * shift, view, depth + 1);
        else if (m_out.shapes.size() < mostShapes)
            element(target->second, map * shift, view, depth + 1);
    }
};

} // namespace

bool looksLikeSvg(std::string_view bytes) {
    const std::string_view head = bytes.substr(0, std::size_t{64} << 10U);
    return head.find("<svg") != std::string_view::npos || head.find(":svg") != std::string_view::npos;
}

Expected<SvgSize> readSvgSize(std::string_view bytes) {
    pugi::xml_document document;
    if (auto read = parse(bytes, document); !read) return tl::make_unexpected(read.error());
    return sizeOf(rootOf(document));
}

Expected<SvgFile> readSvg(std::string_view bytes) {
    pugi::xml_document document;
    if (auto read = parse(bytes, document); !read) return tl::make_unexpected(read.error());
    return FileReader(rootOf(document)).read();
}

} // namespace slab
