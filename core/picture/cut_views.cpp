// One picture of each view of a sheet of several.
#include "core/picture/crop.h"
#include "core/picture/edits.h"
#include "core/picture/typed.h"
#include <algorithm>
#include <optional>

namespace slab {

namespace {

/// What a cut shows, in the sheet's elevation.
Box2 shownBox(const PlacedPicture& sheet, const ViewCut& cut) {
    Ring ring;
    for (const Vec2& p : asWritten(pixelsIn(sheet, cut.box))) ring.push_back(toPlane(sheet.fix, p));
    return bounds(ring);
}

/// How far two spans share what the shorter of them takes up.
double shared(const Box2& a, const Box2& b, int axis) {
    const double both = std::min(a.max[axis], b.max[axis]) - std::max(a.min[axis], b.min[axis]);
    return both / std::min(a.size()[axis], b.size()[axis]);
}

/// How each view goes from its place on the sheet: what lies in one row of it keeps one height, what lies in
/// one column one place along.
class Alignment {
public:
    Alignment(const PlacedPicture& sheet, const std::vector<ViewCut>& cuts) {
        for (const ViewCut& cut : cuts) {
            if (cut.view == "side" && !m_side) m_side = shownBox(sheet, cut);
            if (cut.view != "plan" && !m_row) m_row = shownBox(sheet, cut);
        }
        if (m_side) m_row = m_side;
    }
    [[nodiscard]] Vec2 shiftOf(const std::string& view, const Box2& own) const {
        constexpr double beside = 0.5;
        const Vec2 middle = (own.min + own.max) / 2;
        if (view == "plan") {
            const bool column = !m_side || shared(own, *m_side, 0) > beside;
            return {column ? 0 : m_side->min.x() - own.min.x(), -middle.y()};
        }
        const bool row = shared(own, *m_row, 1) > beside;
        return {view == "front" ? -middle.x() : 0, row ? -m_row->min.y() : -own.min.y()};
    }

private:
    std::optional<Box2> m_side, m_row;
};

bool within(const Text& x, const Text& y, const Ring& pixels) {
    const auto px = parseRatio(x), py = parseRatio(y);
    return px && py && contains(pixels, Vec2(*px, *py), 1e-9);
}

Picture cutFrom(const Picture& sheet, const std::string& elevation, const Ring& pixels) {
    Picture view = sheet;
    view.view = elevation;
    showOnly(view, pixels);
    std::erase_if(view.features, [&](const PicturePoint& f) { return !within(f.x, f.y, pixels); });
    std::erase_if(view.lines, [&](const PictureLine& l) { return !within(l.x1, l.y1, pixels); });
    return view;
}

Expected<void> soundCuts(const PlacedPicture& sheet, const std::vector<ViewCut>& cuts) {
    if (sheet.scale == PlacedPicture::Scale::none)
        return fail("picture-uncalibrated", "The sheet's size is not known yet.", sheet.name,
                    "Mark two points of it and type what lies between them.");
    for (const ViewCut& cut : cuts)
        if (pixelsIn(sheet, cut.box).empty())
            return fail("picture-crop", "The view " + cut.name + " does not lie on the sheet.", sheet.name,
                        "Draw its rectangle inside the picture.");
    if (cuts.empty())
        return fail("picture-crop", "No view is drawn.", sheet.name, "Draw a rectangle round each view.");
    return {};
}

} // namespace

Edit cutViews(const PlacedPicture& placed, std::vector<ViewCut> cuts, double scale) {
    Edit edit{"Cut sheet into views", {}, {}};
    edit.apply = [placed, cuts = std::move(cuts), scale](const Project& p) -> Expected<Project> {
        const auto at = static_cast<std::size_t>(placed.index);
        if (placed.index < 0 || at >= p.pictures.size())
            return fail("no-such-place", "There is no such picture.",
                        "/pictures/" + std::to_string(placed.index));
        if (auto sound = soundCuts(placed, cuts); !sound) return tl::make_unexpected(sound.error());
        const Picture sheet = p.pictures[at];
        Project next = p;
        next.pictures.erase(next.pictures.begin() + placed.index);
        std::vector<std::string> taken;
        for (const Picture& other : next.pictures) taken.push_back(other.name);
        const Alignment alignment(placed, cuts);
        const Unit unit = parseUnit(p.units).value_or(Unit::mm);
        const double size = sheet.space == Space::subject && scale > 0 ? scale : 1;
        for (std::size_t i = 0; i < cuts.size(); ++i) {
            Picture view = cutFrom(sheet, cuts[i].view, pixelsIn(placed, cuts[i].box));
            view.name = freeName(cuts[i].name.empty() ? sheet.name : cuts[i].name, taken);
            taken.push_back(view.name);
            const Vec2 shift = alignment.shiftOf(cuts[i].view, shownBox(placed, cuts[i]));
            if (shift.x() != 0) view.x = shiftedLength(view.x, shift.x() / size, unit);
            if (shift.y() != 0) view.y = shiftedLength(view.y, shift.y() / size, unit);
            next.pictures.insert(next.pictures.begin() + placed.index + static_cast<std::ptrdiff_t>(i),
                                 std::move(view));
        }
        return next;
    };
    return edit;
}

} // namespace slab
