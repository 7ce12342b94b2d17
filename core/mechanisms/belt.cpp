// Belts of the document: path, links, strips bent round their wheels, hardware.
#include "core/mechanisms/belt_figures.h"
#include "core/mechanisms/belt_strips.h"
#include "core/mechanisms/part.h"
#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <map>

namespace slab {

namespace mechanisms {

namespace {

using Unit = MechanismFact::Unit;

constexpr double thicknessOff = 0.3; ///< mm; plies this near to the wanted thickness are it

/// Of a stated thickness the nearest whole number of cards; empty = one card.
bool readBelt(Reading& read, const Belt& belt, BeltFigures& out) {
    out.name = belt.name;
    const Frame at = read.place(belt.at);
    out.view.origin = at.origin;
    out.view.axes << at.axes.col(0), at.axes.col(2), at.axes.col(1);
    out.width = read.size(belt.width, "width", "the belt's width", Space::subject);
    out.card = read.sheet(belt.stock, "stock");
    if (!out.card) return false;
    out.thickness = read.length(belt.thickness, "thickness", out.card->thickness);
    out.lap = read.notNegative(read.length(belt.overlap, "overlap", usualLap), "overlap",
                               "the overlap of its strips");
    const int cards = std::max(1, static_cast<int>(std::lround(out.thickness / out.card->thickness)));
    const double built = cards * out.card->thickness; // what goes round the wheels
    out.pitch = read.length(belt.pitch, "pitch", 0, Space::subject);
    if (!(out.thickness > 0))
        read.report(Severity::stop, "mechanism-size", "the belt's thickness is not above zero", "thickness",
                    "Leave it empty for the thickness of its card.");
    for (std::size_t i = 0; i < belt.wheels.size(); ++i) {
        const std::string field = "wheels/" + std::to_string(i) + "/";
        const BeltWheel& w = belt.wheels[i];
        const double diameter =
            read.size(w.diameter, field + "diameter", "the diameter of wheel " + w.name, Space::subject);
        out.diameters.push_back(diameter);
        out.circles.push_back({Vec2(read.length(w.x, field + "x", 0, Space::subject),
                                    read.length(w.z, field + "z", 0, Space::subject)),
                               (diameter + built) / 2, false});
    }
    out.mirror = belt.mirror;
    const double aside = std::abs(out.view.origin.y());
    if (out.mirror && aside < out.width / 2) {
        read.report(Severity::look, "belt-mirror", "it reaches over the middle, into its own mirror image",
                    "at/y",
                    "Move it at least " + read.wordsAtLeast(out.width / 2 - aside) +
                        " farther aside, or make only one.");
        out.mirror = false;
    }
    return read.ok();
}

/// Wood and foam do not bend round small wheels: dry, to about so many thicknesses (from memory).
void checkBend(const Belt& belt, Reading& read, const BeltFigures& f) {
    const std::string& kind = f.card->kind;
    const double times = kind == "plywood" || kind == "hardboard" ? 50 : kind == "foam" ? 15 : 0;
    const auto least = std::min_element(f.diameters.begin(), f.diameters.end());
    if (least == f.diameters.end() || times == 0 || *least / 2 >= times * f.card->thickness) return;
    read.report(Severity::stop, "belt-stiff",
                f.card->name + ", " + read.words(f.card->thickness) + " thick, does not bend round wheel " +
                    belt.wheels[static_cast<std::size_t>(least - f.diameters.begin())].name + ", " +
                    read.words(*least) + " across",
                "stock",
                "Choose a card, its flutes across the strip, or a sheet of " +
                    read.words(std::floor(*least / 2 / times * 10) / 10) + " or less.");
}

/// Puts what concerns one wheel into words.
struct WheelError {
    const Belt& belt;
    Reading& read;
    void tell(const Error& error) const {
        std::string field = error.where, message = error.message;
        if (!message.empty()) message.front() = static_cast<char>(std::tolower(message.front()));
        if (!field.empty() && field.find_first_not_of("0123456789") == std::string::npos)
            field = "wheels/" + field;
        read.report(Severity::stop, error.code, message, field.empty() ? "wheels" : field, error.remedy);
    }
};

/// Wheel that is moved for whole links: the named one, else the last.
int movedWheel(const Belt& belt, Reading& read) {
    const int last = static_cast<int>(belt.wheels.size()) - 1;
    if (belt.moves.empty()) return last;
    for (int i = 0; i <= last; ++i)
        if (belt.wheels[static_cast<std::size_t>(i)].name == belt.moves) return i;
    read.report(Severity::look, "belt-wheel-unknown",
                "the wheel \"" + belt.moves + "\" that is to be moved is not one of its wheels; " +
                    belt.wheels.back().name + " is moved",
                "moves", "Name one of the belt's wheels.");
    return last;
}

void tellMove(const Belt& belt, Reading& read, int wheel, const BeltLinks& links) {
    const Vec2& by = links.moved;
    if (by.norm() < 0.05) return;
    const auto part = [&](double d, const char* plus, const char* minus) {
        return std::abs(d) < 0.05 ? std::string() : read.words(std::abs(d)) + (d > 0 ? plus : minus);
    };
    const std::string along = part(by.x(), " forward", " back"), up = part(by.y(), " up", " down");
    read.report(Severity::note, "belt-wheel-moved",
                "wheel " + belt.wheels[static_cast<std::size_t>(wheel)].name + " is moved " + along +
                    (along.empty() || up.empty() ? "" : " and ") + up + " for " +
                    std::to_string(links.links) + " whole links",
                "wheels/" + std::to_string(wheel), "");
}

/// The taut belt, with a whole number of links where it has links.
bool fitBelt(const Belt& belt, Reading& read, const BeltFigures& f, BeltLinks& out) {
    const WheelError error{belt, read};
    auto path = beltPath(f.circles);
    if (!path) {
        error.tell(path.error());
        return false;
    }
    out = {0, 0, Vec2::Zero(), f.circles, *path};
    if (f.pitch == 0) return true;
    const bool moves = belt.adjust != "pitch";
    const int wheel = moves ? movedWheel(belt, read) : 0;
    auto links = moves ? linksByMoving(f.circles, f.pitch, wheel, tighteningWay(f.circles, wheel))
                       : linksByPitch(f.circles, f.pitch);
    if (!links) {
        error.tell(links.error());
        return false;
    }
    out = std::move(*links);
    if (moves) tellMove(belt, read, wheel, out);
    return true;
}

void tellPath(const Belt& belt, Reading& read, const BeltPath& path) {
    const auto wheel = [&](int i) { return belt.wheels[static_cast<std::size_t>(i)].name; };
    for (const BeltPath::Off& off : path.off)
        read.report(Severity::look, "belt-wheel-off",
                    "wheel " + wheel(off.wheel) + " does not touch it, by " + read.words(off.gap),
                    "wheels/" + std::to_string(off.wheel),
                    "Move the wheel out, make it larger, or take it out of the list.");
    if (!path.reordered) return;
    std::string order;
    for (const BeltPath::Arc& arc : path.arcs) order += (order.empty() ? "" : ", ") + wheel(arc.wheel);
    read.report(Severity::look, "belt-order",
                "in the listed order it would cross itself; it is laid round " + order, "wheels",
                "List the wheels in the order in which the belt meets them: " + order + ".");
}

/// Length of a strip that one sheet gives.
double longestStrip(const Sheet& card, double width) {
    const double a = std::min(card.width, card.length) - 2 * card.trim;
    const double b = std::max(card.width, card.length) - 2 * card.trim;
    return width <= a ? b : width <= b ? a : 0;
}

/// Link joints and laps across a strip, for its template.
std::vector<GuideLine> stripGuides(const BeltFigures& f, const BeltStrip& strip, const Reading& read) {
    std::vector<GuideLine> guides;
    for (const StripMark& mark : stripMarks(strip)) {
        GuideLine g{Vec2(mark.at, -f.width / 2), Vec2(mark.at, f.width / 2), {}, false};
        g.inside = mark.kind == StripMark::Kind::glue;
        g.words = mark.kind == StripMark::Kind::link  ? "link " + std::to_string(mark.link)
                  : mark.kind == StripMark::Kind::lap ? "next strip begins here, lap " + read.words(strip.lap)
                                                      : "glue up to here, over the strip before";
        guides.push_back(std::move(g));
    }
    return guides;
}

/// One strip as a plate: flat outline, solid bent round the wheels.
Plate stripPlate(const BeltFigures& f, const BeltPath& path, const BeltPlies& plies, const BeltStrip& strip,
                 const std::vector<GuideLine>& guides) {
    PartShape shape;
    shape.form = f.name;
    shape.stock = f.card->name;
    shape.thickness = f.card->thickness;
    const BeltPlace start = beltPlace(path, strip.start * path.length);
    const Vec2 out(start.along.y(), -start.along.x());
    const double inside = strip.ply * f.card->thickness - plies.thickness / 2;
    const Vec2 rim = start.at + (inside + f.card->thickness) * out;
    const auto toBody = [&](const Vec2& v) { return Vec3(f.view.axes * Vec3(v.x(), v.y(), 0)); };
    shape.at.axes << toBody(start.along), toBody(out).cross(toBody(start.along)), toBody(out);
    shape.at.origin = f.view.toBody(rim);
    shape.lies = true; // the card's flutes lie alike in all strips, wherever on the belt they begin
    shape.boundary = squareLoop({Vec2(0, -f.width / 2), Vec2(strip.length, -f.width / 2),
                                 Vec2(strip.length, f.width / 2), Vec2(0, f.width / 2)});
    Plate plate = makePart(shape);
    plate.guides = panelGuides(shape, plate, guides);
    BeltBand band = beltBand(
        path, {strip.start, strip.start + strip.share, inside, inside + f.card->thickness, f.width}, f.view);
    plate.solid = std::move(band.solid);
    plate.cells = std::move(band.pieces);
    plate.volume = strip.length * f.width * f.card->thickness;
    return plate;
}

/// The mirror image, seen from outside again: the same outline the other way up.
void mirrorStrip(Plate& plate) {
    const double width = bounds(plate.boundary.outer).max.y();
    plate.frame.origin += width * plate.frame.axes.col(1);
    plate.frame.axes.col(1) *= -1;
    plate.frame.origin.y() *= -1;
    plate.frame.axes.row(1) *= -1;
    plate.solid = moved(std::move(plate.solid), Mat3::Identity(), Vec3::Zero(), true);
    for (ConvexSolid& piece : plate.cells)
        for (Vec3& p : piece.points) p.y() *= -1;
}

/// Strips of one length, by ply and number on it: "strips 1 to 3 and 5", "ply 2 strip 1".
std::string stripWords(const std::vector<std::pair<int, int>>& strips, bool plies) {
    std::map<int, std::vector<int>> byPly;
    for (const auto& [ply, number] : strips) byPly[ply].push_back(number);
    std::string out;
    for (const auto& [ply, numbers] : byPly) {
        out += (out.empty() ? "" : ", ") + (plies ? "ply " + std::to_string(ply + 1) + " " : std::string()) +
               (numbers.size() == 1 ? "strip " : "strips ");
        for (std::size_t i = 0; i < numbers.size();) {
            std::size_t end = i + 1;
            while (end < numbers.size() && numbers[end] == numbers[end - 1] + 1) ++end;
            out += (i == 0 ? "" : end == numbers.size() ? " and " : ", ") + std::to_string(numbers[i]);
            if (end - i > 1) out += (end - i > 2 ? " to " : " and ") + std::to_string(numbers[end - 1]);
            i = end;
        }
    }
    return out;
}

/// Each length with the strips that have it: whole links seldom share out evenly, and outer plies are longer.
void tellStripLengths(Reading& read, const BeltPlies& plies) {
    constexpr double alike = 0.05; // mm
    std::vector<std::pair<double, std::vector<std::pair<int, int>>>> lengths;
    std::map<int, int> number;
    for (const BeltStrip& strip : plies.strips) {
        const std::pair own(strip.ply, ++number[strip.ply]);
        const auto same = std::find_if(lengths.begin(), lengths.end(), [&](const auto& l) {
            return std::abs(l.first - strip.length) < alike;
        });
        if (same != lengths.end())
            same->second.push_back(own);
        else
            lengths.push_back({strip.length, {own}});
    }
    // Plies that butt hold each other by their staggered joints.
    const std::string lap = plies.strips.front().lap > 0 ? ", lap included" : ", ends butt";
    for (std::size_t i = 0; i < lengths.size(); ++i) {
        read.fact(i == 0 ? "strip_length" : "strip_length_" + std::to_string(i + 1),
                  lengths.size() == 1 ? "Length of a strip" + lap
                                      : "Length of " + stripWords(lengths[i].second, plies.plies > 1) + lap,
                  lengths[i].first);
    }
}

bool addStrips(Reading& read, const BeltFigures& f, const BeltLinks& fit, MechanismSet& set) {
    auto plies = layStrips(fit.path.length, f.thickness, fit.links, f.lap,
                           {f.card->thickness, longestStrip(*f.card, f.width)});
    if (!plies) {
        read.report(Severity::stop, "belt-card",
                    "a sheet of " + f.card->name + " is too small for a strip of it", "stock",
                    plies.error().remedy);
        return false;
    }
    if (std::abs(plies->thickness - f.thickness) > thicknessOff)
        read.report(Severity::look, "belt-thickness",
                    std::to_string(plies->plies) + (plies->plies == 1 ? " card makes " : " cards make ") +
                        read.words(plies->thickness) + ", not " + read.words(f.thickness),
                    "thickness", "Choose another card, or a thickness that whole cards make.");
    if (plies->plies > 1 && plies->stagger < f.lap)
        read.report(Severity::look, "belt-joints",
                    "joints of plies that lie on each other are only " + read.words(plies->stagger) +
                        " apart",
                    "overlap", "Use fewer plies of thicker card, or allow a smaller overlap.");
    for (const bool port : {true, false}) {
        if (!port && !f.mirror) break;
        std::map<int, int> number;
        for (const BeltStrip& strip : plies->strips) {
            Plate plate = stripPlate(f, fit.path, *plies, strip, stripGuides(f, strip, read));
            if (!port) mirrorStrip(plate);
            plate.name = f.name + "/" + handOf(f, port) +
                         (plies->plies > 1 ? "ply " + std::to_string(strip.ply + 1) + " " : "") + "strip " +
                         std::to_string(++number[strip.ply]);
            addPart(set, std::move(plate), {PartRole::Kind::strip, isStarboard(f, port)});
        }
    }
    read.fact("plies", "Cards on each other", plies->plies, Unit::number);
    read.fact("strips", "Strips of one belt", static_cast<double>(plies->strips.size()), Unit::number);
    tellStripLengths(read, *plies);
    if (plies->strips.front().lap > 0) read.fact("lap", "Lap of the strips' ends", plies->strips.front().lap);
    if (fit.links > 0)
        read.fact("link_marks", "From one link mark to the next", plies->strips.front().linkLength,
                  Unit::fine);
    return true;
}

/// @param wheels  to buy, by diameter
void tellBelt(const Belt& belt, Reading& read, const std::map<double, int>& wheels, const BeltLinks& fit) {
    read.fact("length", "Length round, along the middle of the strip", fit.path.length);
    if (fit.links > 0) {
        read.fact("links", "Links", fit.links, Unit::number);
        read.fact("pitch", "Length of one link", fit.pitch, Unit::fine);
        if (belt.adjust != "pitch") read.fact("moved", "The wheel is moved by", fit.moved.norm());
    }
    for (const auto& [diameter, count] : wheels)
        read.hardware("wheel or roller, outside", count, diameter, "the belt runs over it");
    read.hardware("adhesive that stays flexible, for the strips' ends", 1, 0,
                  "let it cure flat before the strip is bent");
    read.report(
        Severity::note, "belt-pinch",
        "fingers can be drawn in where the belt meets wheel " +
            (belt.wheels.empty() ? std::string() : belt.wheels.front().name) +
            " or any other; it is for looks and must not drive",
        "wheels",
        "Let it be still, or slip on its wheels by hand; guard the places where it runs onto a wheel, and "
        "follow local rules.");
}

} // namespace

} // namespace mechanisms

void addBelts(const MechanismInput& in, MechanismSet& set) {
    using namespace mechanisms;
    const auto& all = in.project.mechanisms.belts;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i].off) continue;
        Reading read(in, set, "belts", i, all[i].name);
        BeltFigures figures;
        BeltLinks fit;
        if (!readBelt(read, all[i], figures) || !fitBelt(all[i], read, figures, fit)) continue;
        checkBend(all[i], read, figures);
        checkWheels(all[i], read, figures, fit);
        tellPath(all[i], read, fit.path);
        const auto wheels = addWheels(all[i], figures, fit, in.body.rounds, set);
        if (addStrips(read, figures, fit, set)) tellBelt(all[i], read, wheels, fit);
    }
}

} // namespace slab
