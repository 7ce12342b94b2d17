#pragma once
// Text as it will be set: B612 (its figures are all equally wide), DejaVu where a glyph is missing.
#include <string>
#include <string_view>
#include <vector>

typedef struct _PangoLayout PangoLayout;
typedef struct _PangoContext PangoContext;

namespace slab {

inline constexpr const char* wordFonts = "B612,DejaVu Sans,sans-serif";
inline constexpr const char* figureFonts = wordFonts; ///< DejaVu Sans has even figures too

struct TextStyle {
    double height = 3; ///< font size, mm; capitals are 1/1.4 of it
    bool bold = false, figures = false;
    bool operator==(const TextStyle&) const = default;
};

/// Width of one line as set, mm.
[[nodiscard]] double textWidth(std::string_view text, const TextStyle& style);
/// `text`, its middle replaced by "…" until it is no wider than `width` mm. Letters are never split.
[[nodiscard]] std::string elided(const std::string& text, double width, const TextStyle& style);
/// Broken at spaces into lines of at most `width` mm; a longer word is elided.
[[nodiscard]] std::vector<std::string> wrapped(const std::string& text, double width, const TextStyle& style);
/// Valid UTF-8 without control characters: what cannot be set becomes U+FFFD.
[[nodiscard]] std::string cleaned(std::string_view text);

/// Makes unhinted layouts in points, for the PDF writer and for measuring alike, so that both agree.
void prepareContext(PangoContext* context);
void setLayout(PangoLayout* layout, std::string_view text, const TextStyle& style);

} // namespace slab
