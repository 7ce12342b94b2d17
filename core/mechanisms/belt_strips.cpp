#include "core/mechanisms/belt_strips.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

constexpr int mostStrips = 1000; ///< of one ply

/// Whole numbers that share `links` out, as alike as can be.
int share(int links, int strips, int which) {
    return (links * (which + 1)) / strips - (links * which) / strips;
}

/// Fewest strips of one ply that the card gives; 0 = it gives none.
int stripsFor(double length, int links, double lap, double longest) {
    for (int count = 1; count <= mostStrips && (links == 0 || count <= links); ++count) {
        const int most = links == 0 ? 0 : (links + count - 1) / count;
        const double each = links == 0 ? length / count : length * most / links;
        if (each + lap <= longest && each > lap) return count;
    }
    return 0;
}

} // namespace

std::vector<StripMark> stripMarks(const BeltStrip& strip) {
    std::vector<StripMark> marks;
    for (int i = 1; i < strip.links; ++i) marks.push_back({StripMark::Kind::link, i * strip.linkLength, i});
    if (strip.lap > 0) {
        marks.push_back({StripMark::Kind::glue, strip.lap, 0});
        marks.push_back({StripMark::Kind::lap, strip.length - strip.lap, strip.links});
    }
    std::stable_sort(marks.begin(), marks.end(),
                     [](const StripMark& a, const StripMark& b) { return a.at < b.at; });
    return marks;
}

Expected<BeltPlies> layStrips(double length, double thickness, int links, double overlap,
                              const BeltCard& card) {
    if (!(card.thickness > 0) || !(card.longest > 0) || !(length > 0))
        return fail("belt-card", "The card of the belt has no size.", {}, "Choose a sheet of the stock.");
    BeltPlies result;
    result.plies = std::max(1, static_cast<int>(std::lround(thickness / card.thickness)));
    result.thickness = result.plies * card.thickness;
    const double lap = result.plies == 1 ? std::max(overlap, 0.0) : 0;
    const double outermost = length + std::numbers::pi * (result.thickness - card.thickness);
    const int count = stripsFor(outermost, links, lap, card.longest);
    if (count == 0)
        return fail("belt-card", "A sheet of this card is too short for a strip of the belt with its lap.",
                    {}, "Choose a larger sheet, or a smaller overlap.");
    for (int ply = 0; ply < result.plies; ++ply) {
        const double out = (ply + 0.5) * card.thickness - result.thickness / 2;
        const double round = length + 2 * std::numbers::pi * out;
        double at = static_cast<double>(ply) / (count * result.plies);
        if (links > 0) at = std::round(at * links) / links; // joints at link marks
        for (int i = 0; i < count; ++i) {
            const int own = links > 0 ? share(links, count, i) : 0;
            const double part = links > 0 ? static_cast<double>(own) / links : 1.0 / count;
            result.strips.push_back({ply, at - std::floor(at), part, round * part + lap, lap, own,
                                     links > 0 ? round / links : 0});
            at += part;
        }
    }
    result.stagger = result.plies == 1 ? 0 : length;
    for (const BeltStrip& a : result.strips)
        for (const BeltStrip& b : result.strips)
            if (b.ply == a.ply + 1) {
                const double away = std::abs(a.start - b.start);
                result.stagger = std::min(result.stagger, length * std::min(away, 1 - away));
            }
    return result;
}

} // namespace slab
