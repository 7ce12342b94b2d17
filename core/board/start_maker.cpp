#include "core/board/start_maker.h"
#include "core/board/formula_text.h"
#include "core/lines/lines.h"
#include "core/stock/stock.h"
#include <algorithm>
#include <cmath>

namespace slab::detail {

namespace {

bool inInches(const std::string& units) {
    return units == "in" || units == "ft";
}

SheetStock sheetOf(const std::string& name, const std::string& units) {
    const auto& ideas = sheetIdeas();
    const auto idea =
        std::find_if(ideas.begin(), ideas.end(), [&](const SheetIdea& i) { return i.name == name; });
    SheetStock sheet;
    sheet.name = name;
    sheet.kind = idea->kind;
    sheet.width = inInches(units) ? idea->width : "1220 mm";
    sheet.length = inInches(units) ? idea->length : "2440 mm";
    sheet.thickness = idea->thickness;
    sheet.density = idea->density;
    sheet.trim = inInches(units) ? "1/4 in" : "6 mm";
    return sheet;
}

} // namespace

StartMaker::StartMaker(const std::string& title, const std::string& units, const Project& donor,
                       double margin)
    : project(donor), m_units(units), m_margin(margin), m_round(inInches(units) ? 25.4 : 10) {
    project.title = title;
    project.units = units;
    project.scale = "1";
    project.paper = inInches(units) ? "Letter" : "A4";
    project.stock.sheets.push_back(sheetOf("xps_13", units));
    project.stock.kerf = inInches(units) ? "1/16 in" : "2 mm";
    project.stock.margin = inInches(units) ? "1/8 in" : "2 mm";
    project.materials.fallback = "xps_13";
    m_solids = resolveDonor(project, scopeOf(project, 1)).solids;
}

Box3 StartMaker::inside(double above) const {
    // Without a donor: about a small wagon and what is loaded on it.
    if (m_solids.empty()) return {{-500, -300, 100}, {500, 300, std::max(900.0, above)}};
    std::optional<Box3> all;
    for (const FitSolid& s : m_solids) {
        Box3 box = bounds(s.shape);
        box.min.array() -= s.clearance;
        box.max.array() += s.clearance;
        if (box.max.z() < above) continue;
        all = all ? united(*all, box) : box;
    }
    return all.value_or(Box3{{0, 0, above}, {0, 0, above}});
}

double StartMaker::eyes() const {
    for (const FitSolid& s : m_solids)
        if (s.name == "rider/head") {
            const Box3 box = bounds(s.shape);
            return (box.min.z() + box.max.z()) / 2;
        }
    return 0;
}

std::string StartMaker::text(double mm) const {
    const auto unit = parseUnit(m_units);
    return written(mm, unit ? *unit : Unit::mm);
}

double StartMaker::dimension(const std::string& name, double mm, const std::string& note) {
    const double value = std::ceil(mm / m_round - 1e-9) * m_round;
    Dimension d;
    d.name = name;
    d.value = text(value);
    d.note = note;
    project.dimensions.push_back(std::move(d));
    return value;
}

void StartMaker::placeDonor(double x) {
    if (!m_solids.empty()) project.donor.at.x = text(std::round(x / m_round * 2) * m_round / 2);
}

StartMaker::Plan StartMaker::rectangle(const std::string& back, const std::string& front,
                                       const std::string& half) {
    const std::string other = negated(half);
    return {{"starboard", back, other}, {"front", front, other}, {"port", front, half}, {"back", back, half}};
}

void StartMaker::taper(const std::string& name, const Plan& base, const Plan& top, const std::string& baseZ,
                       const std::string& topZ) {
    TaperShape shape;
    const auto points = [](const Plan& plan) {
        std::vector<OutlinePoint> out;
        for (const auto& [label, x, y] : plan) {
            OutlinePoint p;
            p.name = label;
            p.x = x;
            p.y = y;
            out.push_back(std::move(p));
        }
        return out;
    };
    shape.base = points(base);
    shape.top = points(top);
    shape.base_z = baseZ;
    shape.top_z = topZ;
    Form form;
    form.name = name;
    form.shape = std::move(shape);
    project.forms.push_back(std::move(form));
}

void StartMaker::profile(const std::string& name, const Side& outline) {
    ProfileShape shape;
    for (const auto& [label, side, x, z, half] : outline) {
        OutlinePoint p;
        p.name = label;
        p.side = side;
        p.x = x;
        p.z = z;
        p.half_width = half;
        shape.outline.push_back(std::move(p));
    }
    Form form;
    form.name = name;
    form.shape = std::move(shape);
    project.forms.push_back(std::move(form));
}

void StartMaker::leaveOpen(const std::string& plate) {
    project.materials.plates.push_back({plate, ""});
}

void StartMaker::exit(const std::string& plate, double width, double height) {
    // A person needs about 600 mm (common practice for a hatch); less only where the plate is narrower.
    constexpr double wanted = 600, rest = 80;
    const auto size = [&](const std::string& name, double room, const std::string& note) {
        const double value = std::floor(std::min(wanted, room - 2 * rest) / m_round) * m_round;
        Dimension d{name, text(value), Space::build, note, {}};
        project.dimensions.push_back(std::move(d));
    };
    size("exit_width", width, "wide enough for the rider");
    size("exit_height", height, "");
    Opening o;
    o.name = "exit";
    o.purpose = "exit";
    o.plate = plate;
    o.u = o.v = "0";
    o.width = "exit_width";
    o.height = "exit_height";
    o.corner_radius = text(inInches(m_units) ? 50.8 : 50);
    project.openings.push_back(std::move(o));
}

void StartMaker::sight(const std::vector<std::string>& plates, double width) {
    if (eyes() <= 0) return;
    const double round = m_round / 2;
    project.dimensions.push_back({"eye_height",
                                  text(std::round(eyes() / round) * round),
                                  Space::build,
                                  "of the rider, above the ground",
                                  {}});
    Opening o;
    o.name = "sight";
    o.purpose = "sight_slit";
    o.direction = "x";
    o.plates = plates;
    o.x = o.y = "0";
    o.z = "eye_height";
    o.width = text(std::floor(width / m_round) * m_round);
    o.height = text(inInches(m_units) ? 127 : 120);
    o.corner_radius = text(inInches(m_units) ? 25.4 : 25);
    project.openings.push_back(std::move(o));
}

} // namespace slab::detail
