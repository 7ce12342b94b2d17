// SVG in real millimetres. The y axis is turned by one matrix per group, so that every coordinate in the file
// is the drawing's own number, printed to round-trip exactly.
#include "core/drawing/drawing.h"
#include "core/drawing/palette.h"
#include "core/drawing/text.h"
#include <charconv>
#include <cmath>
#include <map>
#include <numbers>
#include <pugixml.hpp>
#include <set>
#include <sstream>

namespace slab {
namespace {

constexpr double noise = 1e-9; ///< mm; what is rounding only is 0, as in the report

/// Shortest text that reads back as the same double.
std::string exact(double value) {
    char buffer[32];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, std::abs(value) < noise ? 0.0 : value);
    return {buffer, end.ptr};
}

class Ids {
public:
    std::string take(const std::string& name) {
        const std::string base = safeId(name);
        std::string id = base;
        for (int n = 2; !m_taken.insert(id).second; ++n) id = base + "." + std::to_string(n);
        return id;
    }

private:
    std::set<std::string> m_taken;
};

void put(pugi::xml_node node, const char* name, const std::string& value) {
    node.append_attribute(name).set_value(value.c_str());
}

std::string pathData(const Ring& ring, bool closed) {
    std::string d;
    for (std::size_t i = 0; i < ring.size(); ++i)
        d += (i == 0 ? "M" : " L") + exact(ring[i].x()) + " " + exact(ring[i].y());
    return closed ? d + " Z" : d;
}

void putPen(pugi::xml_node node, double width, Dash dash, Ink ink) {
    put(node, "fill", "none");
    put(node, "stroke", hexColour(ink));
    put(node, "stroke-width", exact(width));
    std::string dashes;
    for (double length : dashPattern(dash)) dashes += (dashes.empty() ? "" : " ") + exact(length);
    if (!dashes.empty()) put(node, "stroke-dasharray", dashes);
}

void putFill(pugi::xml_node parent, const Fill& fill) {
    pugi::xml_node node = parent.append_child("path");
    std::string d;
    if (fill.hatch) {
        for (const auto& [a, b] : hatchLines(fill.area)) d += pathData({a, b}, false) + " ";
        put(node, "d", d);
        putPen(node, hatchWidth, Dash::solid, fill.ink);
        return;
    }
    d = pathData(fill.area.outer, true);
    for (const Ring& hole : fill.area.holes) d += " " + pathData(hole, true);
    put(node, "d", d);
    put(node, "fill", hexColour(fill.ink));
    put(node, "fill-rule", "evenodd");
    put(node, "stroke", "none");
}

void putLabel(pugi::xml_node parent, const Label& label) {
    pugi::xml_node node = parent.append_child("text");
    std::string place = "translate(" + exact(label.at.x()) + " " + exact(label.at.y()) + ")";
    if (label.turn != 0) place += " rotate(" + exact(label.turn * 180 / std::numbers::pi) + ")";
    put(node, "transform", place + " scale(1 -1)");
    put(node, "font-family", label.figures ? figureFonts : wordFonts);
    put(node, "font-size", exact(label.height));
    if (label.bold) put(node, "font-weight", "bold");
    if (label.align != Align::left) put(node, "text-anchor", label.align == Align::centre ? "middle" : "end");
    put(node, "fill", hexColour(label.ink));
    node.text().set(cleaned(label.text).c_str());
}

void putLayer(pugi::xml_node parent, const Layer& layer) {
    pugi::xml_node node = parent.append_child("g");
    put(node, "class", "layer-" + safeId(layer.name));
    for (const Fill& fill : layer.fills) putFill(node, fill);
    for (const Stroke& stroke : layer.strokes) {
        if (stroke.points.size() < 2) continue;
        pugi::xml_node path = node.append_child("path");
        put(path, "d", pathData(stroke.points, stroke.closed));
        putPen(path, stroke.width, stroke.dash, stroke.ink);
    }
    for (const Circle& circle : layer.circles) {
        pugi::xml_node round = node.append_child("circle");
        put(round, "cx", exact(circle.centre.x()));
        put(round, "cy", exact(circle.centre.y()));
        put(round, "r", exact(circle.radius));
        putPen(round, circle.width, circle.dash, circle.ink);
    }
    for (const Label& label : layer.labels) putLabel(node, label);
}

void putGroup(pugi::xml_node parent, const Group& group, const std::string& matrix, Ids& ids) {
    pugi::xml_node node = parent.append_child("g");
    put(node, "id", ids.take(group.id));
    put(node, "transform", matrix);
    const std::string title = cleaned(group.title.empty() ? group.id : group.title);
    if (!title.empty()) node.append_child("title").text().set(title.c_str());
    for (const Layer& layer : group.layers) putLayer(node, layer);
}

pugi::xml_node clipped(pugi::xml_node svg, const Page& page, Ids& ids) {
    if (!page.clip) return svg;
    const auto& [x, y, width, height] = *page.clip;
    const std::string id = ids.take("clip");
    pugi::xml_node path = svg.append_child("clipPath");
    put(path, "id", id);
    pugi::xml_node box = path.append_child("rect");
    put(box, "x", exact(x));
    put(box, "y", exact(page.height - y - height));
    put(box, "width", exact(width));
    put(box, "height", exact(height));
    pugi::xml_node node = svg.append_child("g");
    put(node, "clip-path", "url(#" + id + ")");
    return node;
}

std::string turned(double x, double y) {
    return "matrix(1 0 0 -1 " + exact(x) + " " + exact(y) + ")";
}

} // namespace

std::string safeId(std::string_view name) {
    std::string id;
    for (char c : name) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        const bool fine = letter || (c >= '0' && c <= '9') || c == '_' || c == '.';
        if (id.empty() && !letter) id = "p";
        if (fine)
            id += c;
        else if (id.back() != '-')
            id += '-';
    }
    while (id.size() > 1 && (id.back() == '-' || id.back() == '.')) id.pop_back();
    return id.empty() ? "part" : id;
}

std::string writeSvg(const Page& page) {
    pugi::xml_document document;
    pugi::xml_node declaration = document.append_child(pugi::node_declaration);
    put(declaration, "version", "1.0");
    put(declaration, "encoding", "UTF-8");
    pugi::xml_node svg = document.append_child("svg");
    put(svg, "xmlns", "http://www.w3.org/2000/svg");
    put(svg, "version", "1.1");
    put(svg, "width", exact(page.width) + "mm");
    put(svg, "height", exact(page.height) + "mm");
    put(svg, "viewBox", "0 0 " + exact(page.width) + " " + exact(page.height));
    if (!page.name.empty()) svg.append_child("title").text().set(cleaned(page.name).c_str());
    Ids ids;
    pugi::xml_node body = clipped(svg, page, ids);
    const std::string matrix = turned(page.shift.x(), page.height - page.shift.y());
    for (const Group& group : page.groups) putGroup(body, group, matrix, ids);
    if (!page.overlay.layers.empty()) {
        Group overlay = page.overlay;
        if (overlay.id.empty()) overlay.id = "overlay";
        putGroup(svg, overlay, turned(0, page.height), ids);
    }
    std::ostringstream out;
    document.save(out, " ", pugi::format_indent, pugi::encoding_utf8);
    return out.str();
}

} // namespace slab
