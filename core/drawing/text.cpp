#include "core/drawing/text.h"
#include <memory>
#include <pango/pangocairo.h>

namespace slab {
namespace {

constexpr double pointsPerMm = 72 / 25.4;

struct Unref {
    void operator()(void* object) const { g_object_unref(object); }
};

/// One font map and layout a thread: Pango objects must not be shared between threads.
struct Measure {
    std::unique_ptr<PangoFontMap, Unref> map{pango_cairo_font_map_new()};
    std::unique_ptr<PangoContext, Unref> context{pango_font_map_create_context(map.get())};
    std::unique_ptr<PangoLayout, Unref> layout;
    Measure() {
        prepareContext(context.get());
        layout.reset(pango_layout_new(context.get()));
    }
};

/// Byte offsets at which a UTF-8 letter starts, and the end.
std::vector<std::size_t> letterStarts(std::string_view text) {
    std::vector<std::size_t> starts;
    for (std::size_t i = 0; i < text.size(); ++i)
        if ((static_cast<unsigned char>(text[i]) & 0xC0) != 0x80) starts.push_back(i);
    starts.push_back(text.size());
    return starts;
}

} // namespace

void prepareContext(PangoContext* context) {
    pango_cairo_context_set_resolution(context, 72);
    pango_context_set_round_glyph_positions(context, FALSE);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
}

void setLayout(PangoLayout* layout, std::string_view text, const TextStyle& style) {
    PangoFontDescription* font = pango_font_description_new();
    pango_font_description_set_family(font, style.figures ? figureFonts : wordFonts);
    pango_font_description_set_weight(font, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font, style.height * pointsPerMm * PANGO_SCALE);
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);
    pango_layout_set_single_paragraph_mode(layout, TRUE);
    const std::string clean = cleaned(text);
    pango_layout_set_text(layout, clean.data(), static_cast<int>(clean.size()));
}

double textWidth(std::string_view text, const TextStyle& style) {
    thread_local Measure measure;
    setLayout(measure.layout.get(), text, style);
    PangoRectangle logical{};
    pango_layout_get_extents(measure.layout.get(), nullptr, &logical);
    return logical.width / static_cast<double>(PANGO_SCALE) / pointsPerMm;
}

std::string elided(const std::string& text, double width, const TextStyle& style) {
    if (textWidth(text, style) <= width) return text;
    const std::vector<std::size_t> starts = letterStarts(text);
    for (std::size_t keep = starts.size() - 2; keep > 0; --keep) {
        const std::size_t head = (keep + 1) / 2, tail = keep / 2;
        const std::string shorter =
            text.substr(0, starts[head]) + "…" + text.substr(starts[starts.size() - 1 - tail]);
        if (textWidth(shorter, style) <= width) return shorter;
    }
    return "…";
}

std::vector<std::string> wrapped(const std::string& text, double width, const TextStyle& style) {
    std::vector<std::string> lines;
    std::string line;
    std::size_t from = 0;
    while (from < text.size()) {
        std::size_t to = text.find(' ', from);
        if (to == std::string::npos) to = text.size();
        const std::string word = elided(text.substr(from, to - from), width, style);
        const std::string longer = line.empty() ? word : line + " " + word;
        if (!line.empty() && textWidth(longer, style) > width) {
            lines.push_back(line);
            line = word;
        } else {
            line = longer;
        }
        from = to + 1;
    }
    if (!line.empty()) lines.push_back(line);
    return lines;
}

std::string cleaned(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const gunichar letter = g_utf8_get_char_validated(text.data(), static_cast<gssize>(text.size()));
        const bool bad = letter == static_cast<gunichar>(-1) || letter == static_cast<gunichar>(-2);
        const auto first = static_cast<unsigned char>(text.front());
        std::size_t bytes = 1;
        if (!bad) bytes = first < 0x80 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
        const bool control = !bad && (letter < 0x20 || (letter >= 0x7F && letter < 0xA0) || letter >= 0xFFFE);
        if (bad || control)
            out += letter == '\n' || letter == '\t' ? " " : "\xEF\xBF\xBD";
        else
            out.append(text.substr(0, bytes));
        text.remove_prefix(bytes);
    }
    return out;
}

} // namespace slab
