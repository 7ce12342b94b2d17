#include "core/picture/edits.h"
#include "core/picture/crop.h"
#include "core/picture/reader.h"
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

PicturePoint pointAt(const Mark& mark, std::string name = {}) {
    return {std::move(name), pixelText(mark.at.x()), pixelText(mark.at.y()), mark.error, {}};
}

/// What holds for marks without an error of their own, as text.
Text usualError(const Picture& p) {
    return isBlank(p.click_error) ? Text("1") : p.click_error;
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
    Edit edit = onPicture("Accept picture file", {}, index, [file](Project& next, Picture& p) {
        const std::string old = p.file;
        for (Picture& one : next.pictures)
            if (one.file == old) one.file = file.name, one.hash = file.hash;
    });
    return {edit.label, edit.merge,
            [file, apply = std::move(edit.apply)](const Project& p) -> Expected<Project> {
                if (auto fine = usable(file); !fine) return tl::make_unexpected(fine.error());
                return apply(p);
            }};
}

Edit markDistance(int index, const Mark& from, const Mark& to, Text distance) {
    return onPicture("Calibrate picture", {}, index, [=](Project&, Picture& p) {
        p.from = pointAt(from, p.from.name);
        p.to = pointAt(to, p.to.name);
        p.distance = distance;
        p.distance_error.clear();
    });
}

Edit markDistance(const PlacedPicture& placed, const std::array<Mark, 2>& points, Text distance,
                  double scale) {
    const Vec2 at = toPlane(placed.fix, points[0].at), line = toPlane(placed.fix, points[1].at) - at;
    const bool check = placed.scale == PlacedPicture::Scale::rectangle;
    return onPicture(check ? "Check picture" : "Calibrate picture", {}, placed.index,
                     [=](Project& next, Picture& p) {
                         p.from = pointAt(points[0], p.from.name);
                         p.to = pointAt(points[1], p.to.name);
                         p.distance = distance;
                         p.distance_error.clear();
                         const double own = p.space == Space::subject && scale > 0 ? scale : 1;
                         p.x = fineLength(at.x() / own, unitOf(next));
                         p.y = fineLength(at.y() / own, unitOf(next));
                         constexpr double degrees = 180 / 3.14159265358979323846;
                         if (!isBlank(p.turn) && isBlank(p.level_from.x))
                             p.turn = plainNumber(std::atan2(line.y(), line.x()) * degrees, 6) + " deg";
                     });
}

Edit markLevel(int index, const std::array<Mark, 2>& ends, Text turn) {
    return onPicture("Level picture", {}, index, [=](Project&, Picture& p) {
        p.level_from = pointAt(ends[0], p.level_from.name);
        p.level_to = pointAt(ends[1], p.level_to.name);
        p.turn = turn;
        p.rotation.clear();
    });
}

Edit turnPicture(int index, Text rotation) {
    return onPicture("Turn picture", {}, index, [=](Project&, Picture& p) {
        p.rotation = rotation;
        p.turn.clear();
        p.level_from = p.level_to = {};
    });
}

Edit markRectangle(int index, const std::array<Mark, 4>& corners, Text width, Text height) {
    return onPicture("Rectify picture", {}, index, [=](Project&, Picture& p) {
        p.corners.resize(4);
        for (std::size_t i = 0; i < 4; ++i) p.corners[i] = pointAt(corners[i], p.corners[i].name);
        p.rectangle_width = width;
        p.rectangle_height = height;
        p.distance.clear();
    });
}

Edit markFeature(int index, const std::string& name, const Mark& at) {
    return onPicture("Mark point", {}, index,
                     [=](Project&, Picture& p) { put(p.features, pointAt(at, name)); });
}

Edit markLine(int index, const std::string& name, const std::array<Mark, 2>& ends, std::string size) {
    return onPicture("Measure on picture", {}, index, [=](Project&, Picture& p) {
        put(p.lines, PictureLine{name,
                                 pixelText(ends[0].at.x()),
                                 pixelText(ends[0].at.y()),
                                 pixelText(ends[1].at.x()),
                                 pixelText(ends[1].at.y()),
                                 size,
                                 ends[0].error,
                                 ends[1].error == ends[0].error ? Text()
                                 : ends[1].error.empty()        ? usualError(p)
                                                                : ends[1].error,
                                 {},
                                 {},
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

} // namespace slab
