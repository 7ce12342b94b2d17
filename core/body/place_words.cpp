#include "core/body/place_words.h"
#include <algorithm>
#include <charconv>

namespace slab {

namespace {

struct Lists {
    const std::vector<OutlinePoint>*outline = nullptr, *base = nullptr, *top = nullptr, *corners = nullptr;
    const std::vector<Curve>* curves = nullptr;
    const std::vector<FacetFace>* faces = nullptr;

    explicit Lists(const Form& form) {
        if (const auto* profile = std::get_if<ProfileShape>(&form.shape)) {
            outline = &profile->outline;
            curves = &profile->curves;
        } else if (const auto* taper = std::get_if<TaperShape>(&form.shape)) {
            base = &taper->base;
            top = &taper->top;
            curves = &taper->curves;
        } else if (const auto* plate = std::get_if<PlateShape>(&form.shape)) {
            outline = &plate->outline;
            curves = &plate->curves;
        } else if (const auto* facet = std::get_if<FacetShape>(&form.shape)) {
            corners = &facet->corners;
            faces = &facet->faces;
        }
    }
    [[nodiscard]] std::string entry(const std::string& list, std::size_t index) const {
        const auto point = [&](const std::vector<OutlinePoint>* points, const char* word) -> std::string {
            if (!points || index >= points->size()) return {};
            const std::string& name = (*points)[index].name;
            return word + (name.empty() ? "s" + std::to_string(index + 1) : name);
        };
        if (list == "outline") return point(outline, "point ");
        if (list == "base") return point(base, "base point ");
        if (list == "top") return point(top, "top point ");
        if (list == "corners") return point(corners, "corner ");
        if (list == "curves" && curves && index < curves->size()) {
            const Curve& c = (*curves)[index];
            if (c.from.empty() || c.to.empty()) return "curve " + std::to_string(index + 1);
            return "curve from " + c.from + " to " + c.to;
        }
        if (list == "faces" && faces && index < faces->size()) return "face " + (*faces)[index].name;
        return {};
    }
};

std::string spaced(std::string words) {
    std::replace(words.begin(), words.end(), '_', ' ');
    for (std::size_t at = words.find('/'); at != std::string::npos; at = words.find('/', at))
        words.replace(at, 1, ", ");
    return words;
}

} // namespace

std::string placeWords(const Form& form, const std::string& field) {
    const std::size_t slash = field.find('/');
    if (slash == std::string::npos) return spaced(field);
    const std::string rest = field.substr(slash + 1);
    const std::size_t end = std::min(rest.find('/'), rest.size());
    std::size_t index = 0;
    const auto read = std::from_chars(rest.data(), rest.data() + end, index);
    if (read.ec != std::errc() || read.ptr != rest.data() + end) return spaced(field);
    const std::string entry = Lists(form).entry(field.substr(0, slash), index);
    if (entry.empty()) return spaced(field);
    return end < rest.size() ? entry + ", " + spaced(rest.substr(end + 1)) : entry;
}

} // namespace slab
