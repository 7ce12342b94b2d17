#include "core/picture/edits.h"
#include "core/picture/crop.h"
#include "core/picture/typed.h"
#include <algorithm>
#include <cmath>
#include <filesystem>

namespace slab {

namespace {

Unit unitOf(const Project& p) {
    const auto unit = parseUnit(p.units);
    return unit ? *unit : Unit::mm;
}

PicturePoint pointAt(const Vec2& at, std::string name = {}) {
    return {std::move(name), pixelText(at.x()), pixelText(at.y()), {}};
}

/// An edit of one picture.
template <class Change>
Edit onPicture(std::string label, std::string merge, int index, Change change) {
    Edit edit{std::move(label), std::move(merge), {}};
    edit.apply = [index, change = std::move(change)](const Project& p) -> Expected<Project> {
        if (index < 0 || static_cast<std::size_t>(index) >= p.pictures.size())
            return fail("no-such-place", "There is no such picture.", "/pictures/" + std::to_string(index));
        Project next = p;
        change(next, next.pictures[static_cast<std::size_t>(index)]);
        return next;
    };
    return edit;
}

Expected<void> usable(const PictureFile& file) {
    if (file.state == PictureFile::State::unreadable) return tl::make_unexpected(file.trouble);
    if (file.state == PictureFile::State::missing)
        return fail("picture-missing", "There is no file " + file.name + ".", {},
                    "Choose a PNG, JPEG or SVG picture.");
    return {};
}

/// Replaces the entry of the same name, or adds one.
template <class T>
void put(std::vector<T>& list, T entry) {
    const auto same =
        std::find_if(list.begin(), list.end(), [&](const T& e) { return e.name == entry.name; });
    if (same != list.end() && !entry.name.empty())
        *same = std::move(entry);
    else
        list.push_back(std::move(entry));
}

} // namespace

Edit addPicture(const PictureFile& file, std::string view, Space space) {
    Edit edit{"Add picture", {}, {}};
    edit.apply = [file, view = std::move(view), space](const Project& p) -> Expected<Project> {
        if (auto fine = usable(file); !fine) return tl::make_unexpected(fine.error());
        Project next = p;
        std::vector<std::string> taken;
        for (const Picture& other : p.pictures) taken.push_back(other.name);
        Picture picture;
        picture.name = freeName(std::filesystem::path(file.name).stem().string(), taken);
        picture.file = file.name;
        picture.hash = file.hash;
        picture.view = view;
        picture.space = space;
        next.pictures.push_back(std::move(picture));
        return next;
    };
    return edit;
}

Edit acceptPicture(int index, const PictureFile& file) {
    Edit edit = onPicture("Accept picture file", {}, index, [file](Project&, Picture& p) {
        p.file = file.name;
        p.hash = file.hash;
    });
    return {edit.label, edit.merge,
            [file, apply = std::move(edit.apply)](const Project& p) -> Expected<Project> {
                if (auto fine = usable(file); !fine) return tl::make_unexpected(fine.error());
                return apply(p);
            }};
}

Edit markDistance(int index, const Vec2& from, const Vec2& to, Text distance) {
    return onPicture("Calibrate picture", {}, index, [=](Project&, Picture& p) {
        p.from = pointAt(from, p.from.name);
        p.to = pointAt(to, p.to.name);
        p.distance = distance;
    });
}

Edit markDistance(const PlacedPicture& placed, const std::array<Vec2, 2>& points, Text distance,
                  double scale) {
    const Vec2 at = toPlane(placed.fix, points[0]), line = toPlane(placed.fix, points[1]) - at;
    const bool check = placed.scale == PlacedPicture::Scale::rectangle;
    return onPicture(check ? "Check picture" : "Calibrate picture", {}, placed.index,
                     [=](Project& next, Picture& p) {
                         p.from = pointAt(points[0], p.from.name);
                         p.to = pointAt(points[1], p.to.name);
                         p.distance = distance;
                         const double own = p.space == Space::subject && scale > 0 ? scale : 1;
                         p.x = fineLength(at.x() / own, unitOf(next));
                         p.y = fineLength(at.y() / own, unitOf(next));
                         constexpr double degrees = 180 / 3.14159265358979323846;
                         if (p.turn.find_first_not_of(' ') != std::string::npos)
                             p.turn = plainNumber(std::atan2(line.y(), line.x()) * degrees, 6) + " deg";
                     });
}

Edit markRectangle(int index, const std::array<Vec2, 4>& corners, Text width, Text height) {
    return onPicture("Rectify picture", {}, index, [=](Project&, Picture& p) {
        p.corners.resize(4);
        for (std::size_t i = 0; i < 4; ++i) p.corners[i] = pointAt(corners[i], p.corners[i].name);
        p.rectangle_width = width;
        p.rectangle_height = height;
        p.distance.clear();
    });
}

Edit markFeature(int index, const std::string& name, const Vec2& at) {
    return onPicture("Mark point", {}, index,
                     [=](Project&, Picture& p) { put(p.features, pointAt(at, name)); });
}

Edit markLine(int index, const std::string& name, const std::array<Vec2, 2>& ends, std::string size,
              Text clickError) {
    return onPicture("Measure on picture", {}, index, [=](Project&, Picture& p) {
        put(p.lines, PictureLine{name,
                                 pixelText(ends[0].x()),
                                 pixelText(ends[0].y()),
                                 pixelText(ends[1].x()),
                                 pixelText(ends[1].y()),
                                 size,
                                 clickError,
                                 {}});
    });
}

Edit movePicture(int index, const Vec2& by, double scale, std::string gesture) {
    return onPicture("Move picture", std::move(gesture), index, [by, scale](Project& next, Picture& p) {
        const double own = p.space == Space::subject && scale > 0 ? scale : 1;
        if (by.x() != 0) p.x = shiftedLength(p.x, by.x() / own, unitOf(next));
        if (by.y() != 0) p.y = shiftedLength(p.y, by.y() / own, unitOf(next));
    });
}

namespace {

/// What a cut shows, in the sheet's elevation.
Box2 shownBox(const PlacedPicture& sheet, const ViewCut& cut) {
    Ring ring;
    for (const Vec2& p : asWritten(pixelsIn(sheet, cut.box))) ring.push_back(toPlane(sheet.fix, p));
    return bounds(ring);
}

/// Where a view goes from its place on the sheet.
/// @param side  the first side view, in the sheet's elevation
Vec2 shiftOf(const std::string& view, const Box2& own, const Box2& side) {
    const Vec2 middle = (own.min + own.max) / 2;
    if (view == "front") return {-middle.x(), -own.min.y()};
    if (view == "plan") return {side.min.x() - own.min.x(), -middle.y()};
    return {0, -own.min.y()};
}

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
        const auto side =
            std::find_if(cuts.begin(), cuts.end(), [](const ViewCut& c) { return c.view == "side"; });
        const double size = sheet.space == Space::subject && scale > 0 ? scale : 1;
        for (std::size_t i = 0; i < cuts.size(); ++i) {
            Picture view = cutFrom(sheet, cuts[i].view, pixelsIn(placed, cuts[i].box));
            view.name = freeName(cuts[i].name.empty() ? sheet.name : cuts[i].name, taken);
            taken.push_back(view.name);
            const Box2 own = shownBox(placed, cuts[i]);
            const Vec2 shift = shiftOf(cuts[i].view, own, side == cuts.end() ? own : shownBox(placed, *side));
            if (shift.x() != 0) view.x = shiftedLength(view.x, shift.x() / size, unitOf(next));
            if (shift.y() != 0) view.y = shiftedLength(view.y, shift.y() / size, unitOf(next));
            next.pictures.insert(next.pictures.begin() + placed.index + static_cast<std::ptrdiff_t>(i),
                                 std::move(view));
        }
        return next;
    };
    return edit;
}

} // namespace slab
