// PDF through Cairo, in points with y down; our pages are in millimetres with y up.
#include "core/drawing/drawing.h"
#include "core/drawing/palette.h"
#include "core/drawing/text.h"
#include <algorithm>
#include <cairo-pdf.h>
#include <cmath>
#include <memory>
#include <numbers>
#include <pango/pangocairo.h>

namespace slab {
namespace {

constexpr double pt = 72 / 25.4; ///< points in a millimetre

struct FreeSurface {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct FreeCairo {
    void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};
struct FreeObject {
    void operator()(void* object) const { g_object_unref(object); }
};

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

/// A part of a page that fits in one PDF page.
struct Window {
    double x = 0, y = 0, width = 0, height = 0;
};

bool hasSize(const Page& page) {
    return std::isfinite(page.width) && std::isfinite(page.height) && page.width > 0 && page.height > 0;
}

std::vector<Window> windowsOf(const Page& page) {
    const int across = std::max(1, static_cast<int>(std::ceil(page.width / pdfLimit - 1e-12)));
    const int up = std::max(1, static_cast<int>(std::ceil(page.height / pdfLimit - 1e-12)));
    std::vector<Window> windows;
    for (int row = 0; row < up; ++row)
        for (int column = 0; column < across; ++column)
            windows.push_back({column * page.width / across, row * page.height / up, page.width / across,
                               page.height / up});
    return windows;
}

/// Draws in points; `shift` moves drawing millimetres to window millimetres.
class Painter {
public:
    Painter(cairo_t* cairo, PangoLayout* layout) : m_cairo(cairo), m_layout(layout) {}

    void place(const Vec2& shift, double height) {
        m_shift = shift;
        m_height = height;
    }
    void clip(const std::array<double, 4>& box) {
        const auto& [x, y, width, height] = box;
        trace({{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}}, true);
        cairo_clip(m_cairo);
    }
    void group(const Group& group) {
        for (const Layer& layer : group.layers) {
            for (const Fill& fill : layer.fills) paint(fill);
            for (const Stroke& stroke : layer.strokes) paint(stroke);
            for (const Circle& circle : layer.circles) paint(circle);
            for (const Label& label : layer.labels) paint(label);
        }
    }

private:
    [[nodiscard]] Vec2 at(const Vec2& p) const {
        return {(p.x() + m_shift.x()) * pt, (m_height - p.y() - m_shift.y()) * pt};
    }
    void trace(const Ring& ring, bool closed) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Vec2 p = at(ring[i]);
            i == 0 ? cairo_move_to(m_cairo, p.x(), p.y()) : cairo_line_to(m_cairo, p.x(), p.y());
        }
        if (closed && !ring.empty()) cairo_close_path(m_cairo);
    }
    void ink(Ink ink) {
        const Rgb c = paperColour(ink);
        cairo_set_source_rgb(m_cairo, c.r, c.g, c.b);
    }
    void pen(double width, Dash dash, Ink colour) {
        ink(colour);
        cairo_set_line_width(m_cairo, width * pt);
        std::vector<double> dashes = dashPattern(dash);
        for (double& length : dashes) length *= pt;
        cairo_set_dash(m_cairo, dashes.data(), static_cast<int>(dashes.size()), 0);
        cairo_set_line_join(m_cairo, CAIRO_LINE_JOIN_MITER);
        cairo_set_miter_limit(m_cairo, 4);
        cairo_set_line_cap(m_cairo, CAIRO_LINE_CAP_BUTT);
    }
    void paint(const Fill& fill) {
        if (fill.hatch) {
            pen(hatchWidth, Dash::solid, fill.ink);
            for (const auto& [a, b] : hatchLines(fill.area)) trace({a, b}, false);
            cairo_stroke(m_cairo);
            return;
        }
        ink(fill.ink);
        trace(fill.area.outer, true);
        for (const Ring& hole : fill.area.holes) trace(hole, true);
        cairo_set_fill_rule(m_cairo, CAIRO_FILL_RULE_EVEN_ODD);
        cairo_fill(m_cairo);
    }
    void paint(const Stroke& stroke) {
        if (stroke.points.size() < 2) return;
        pen(stroke.width, stroke.dash, stroke.ink);
        trace(stroke.points, stroke.closed);
        cairo_stroke(m_cairo);
    }
    void paint(const Circle& circle) {
        pen(circle.width, circle.dash, circle.ink);
        const Vec2 c = at(circle.centre);
        cairo_new_sub_path(m_cairo);
        cairo_arc(m_cairo, c.x(), c.y(), circle.radius * pt, 0, 2 * std::numbers::pi);
        cairo_close_path(m_cairo);
        cairo_stroke(m_cairo);
    }
    void paint(const Label& label) {
        if (label.text.empty()) return;
        setLayout(m_layout, label.text, {label.height, label.bold, label.figures});
        PangoRectangle logical{};
        pango_layout_get_extents(m_layout, nullptr, &logical);
        const double width = logical.width / static_cast<double>(PANGO_SCALE);
        const double back = label.align == Align::left ? 0 : label.align == Align::centre ? width / 2 : width;
        const Vec2 p = at(label.at);
        cairo_save(m_cairo);
        ink(label.ink);
        cairo_translate(m_cairo, p.x(), p.y());
        cairo_rotate(m_cairo, -label.turn);
        cairo_move_to(m_cairo, -back, 0);
        pango_cairo_show_layout_line(m_cairo, pango_layout_get_line_readonly(m_layout, 0));
        cairo_restore(m_cairo);
    }

    cairo_t* m_cairo;
    PangoLayout* m_layout;
    Vec2 m_shift = Vec2::Zero();
    double m_height = 0;
};

void paintPage(cairo_t* cairo, PangoLayout* layout, const Page& page, const Window& window) {
    Painter painter(cairo, layout);
    const Vec2 corner(-window.x, -window.y);
    cairo_save(cairo);
    painter.place(corner, window.height);
    if (page.clip) painter.clip(*page.clip);
    painter.place(page.shift + corner, window.height);
    for (const Group& group : page.groups) painter.group(group);
    cairo_restore(cairo);
    painter.place(corner, window.height);
    painter.group(page.overlay);
}

/// Bookmarks: one per page, gathered under their chapter when a chapter has several pages.
class Bookmarks {
public:
    Bookmarks(cairo_surface_t* surface, const Drawing& drawing) : m_surface(surface), m_drawing(&drawing) {}

    void add(std::size_t index, const std::string& part, int number) {
        const Page& page = m_drawing->pages[index];
        int parent = CAIRO_PDF_OUTLINE_ROOT;
        if (page.chapter.empty()) {
            m_chapter.clear();
        } else if (page.chapter != m_chapter) {
            m_chapter = page.chapter;
            m_parent = put(CAIRO_PDF_OUTLINE_ROOT, page.chapter, number);
        }
        if (!page.chapter.empty()) parent = m_parent;
        const bool alone = !page.chapter.empty() && !shared(index) && part.empty();
        if (!alone) put(parent, page.name + part, number);
    }

private:
    [[nodiscard]] bool shared(std::size_t index) const {
        const auto& pages = m_drawing->pages;
        return (index > 0 && pages[index - 1].chapter == pages[index].chapter) ||
               (index + 1 < pages.size() && pages[index + 1].chapter == pages[index].chapter);
    }
    int put(int parent, const std::string& name, int number) {
        const std::string clean = cleaned(name.empty() ? "page " + std::to_string(number) : name);
        const std::string link = "page=" + std::to_string(number);
        return cairo_pdf_surface_add_outline(m_surface, parent, clean.c_str(), link.c_str(),
                                             static_cast<cairo_pdf_outline_flags_t>(0));
    }
    cairo_surface_t* m_surface;
    const Drawing* m_drawing;
    std::string m_chapter;
    int m_parent = CAIRO_PDF_OUTLINE_ROOT;
};

void describe(cairo_surface_t* surface, const Drawing& drawing) {
    cairo_pdf_surface_restrict_to_version(surface, CAIRO_PDF_VERSION_1_5);
    const std::string title = cleaned(drawing.title);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title.c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "Slabside");
    // One fixed date, so that the same drawing always gives the same bytes.
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
}

} // namespace

std::string writePdf(const Drawing& drawing) {
    std::string bytes;
    {
        const std::unique_ptr<cairo_surface_t, FreeSurface> surface(
            cairo_pdf_surface_create_for_stream(append, &bytes, 210 * pt, 297 * pt));
        describe(surface.get(), drawing);
        const std::unique_ptr<cairo_t, FreeCairo> cairo(cairo_create(surface.get()));
        const std::unique_ptr<PangoLayout, FreeObject> layout(pango_cairo_create_layout(cairo.get()));
        prepareContext(pango_layout_get_context(layout.get()));
        pango_layout_context_changed(layout.get());
        Bookmarks bookmarks(surface.get(), drawing);
        int number = 0;
        for (std::size_t i = 0; i < drawing.pages.size(); ++i) {
            if (!hasSize(drawing.pages[i])) continue;
            const std::vector<Window> windows = windowsOf(drawing.pages[i]);
            for (std::size_t w = 0; w < windows.size(); ++w) {
                cairo_pdf_surface_set_size(surface.get(), windows[w].width * pt, windows[w].height * pt);
                const std::string part = windows.size() == 1 ? ""
                                                             : " (" + std::to_string(w + 1) + " of " +
                                                                   std::to_string(windows.size()) + ")";
                bookmarks.add(i, part, ++number);
                paintPage(cairo.get(), layout.get(), drawing.pages[i], windows[w]);
                cairo_show_page(cairo.get());
            }
        }
        if (number == 0) cairo_show_page(cairo.get()); // a blank page: a file without pages does not open
        cairo_surface_finish(surface.get());
    }
    return bytes;
}

std::vector<Finding> checkPages(const Drawing& drawing) {
    std::vector<Finding> findings;
    for (const Page& page : drawing.pages) {
        if (!hasSize(page)) {
            findings.push_back({Severity::look,
                                "page-empty",
                                "the page \"" + page.name + "\" has no size",
                                {},
                                "choose a paper with a width",
                                {}});
        } else if (page.width > pdfLimit || page.height > pdfLimit) {
            findings.push_back({Severity::note,
                                "page-split",
                                "the page \"" + page.name +
                                    "\" is longer than 5080 mm, the most a PDF page can be; "
                                    "it is printed in parts at true size",
                                {},
                                "choose a narrower roll or a sheet paper",
                                {}});
        }
    }
    return findings;
}

} // namespace slab
