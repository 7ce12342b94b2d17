// What RandomEdits adds to the bare body: curves, openings along a direction, frames, cleats, seams, modules,
// mechanisms, pictures, dimension lines, and forms from another document.
#include "core/document/copy.h"
#include "tests/evaluate/random_edits.h"

namespace slab::test {
namespace {

std::string inQuotes(const std::string& text) {
    return "\"" + text + "\"";
}

template <class T>
int sizeOf(const std::vector<T>& all) {
    return static_cast<int>(all.size());
}

/// Where the corners of an outline stand in the file, and their names.
struct Corners {
    std::string curves;
    std::vector<std::string> names;
};

Corners cornersIn(const Form& form, const std::string& place) {
    const auto names = [](const std::vector<OutlinePoint>& points) {
        std::vector<std::string> all;
        for (const OutlinePoint& p : points) all.push_back(p.name);
        return all;
    };
    if (const auto* s = std::get_if<ProfileShape>(&form.shape)) return {place + "/curves", names(s->outline)};
    if (const auto* s = std::get_if<TaperShape>(&form.shape)) return {place + "/curves", names(s->base)};
    if (const auto* s = std::get_if<PlateShape>(&form.shape)) return {place + "/curves", names(s->outline)};
    return {};
}

} // namespace

Edit RandomEdits::addCurve(const Project& project) {
    for (std::size_t i = 0; i < project.forms.size(); ++i) {
        const Corners ring = cornersIn(project.forms[i], "/forms/" + std::to_string(i));
        const std::size_t n = ring.names.size();
        if (n < 3 || below(2) == 0) continue;
        const auto a = static_cast<std::size_t>(below(static_cast<int>(n)));
        const bool profile = std::holds_alternative<ProfileShape>(project.forms[i].shape);
        const char* second = profile ? "z" : "y";
        const std::string ends =
            R"({"from": ")" + ring.names[a] + R"(", "to": ")" + ring.names[(a + 1) % n] + "\", ";
        const std::string flats = below(2) ? R"("facets": ")" + std::to_string(1 + below(6)) + "\"}"
                                           : R"("tolerance": ")" + mm(2, 40) + "\"}";
        const std::string at =
            R"("x": ")" + mm(-200, 1500) + R"(", ")" + second + R"(": ")" + mm(-100, 900) + "\"";
        switch (below(3)) {
        case 0:
            return insertValue(ring.curves, 0,
                               ends + R"("kind": "arc", "bulge": ")" + mm(-80, 150) + "\", " + flats);
        case 1:
            return insertValue(ring.curves, 0, ends + R"("kind": "ellipse", )" + at + ", " + flats);
        default:
            return insertValue(ring.curves, 0,
                               ends + R"("kind": "spline", "through": [{)" + at + "}], " + flats);
        }
    }
    return addOpening(project);
}

Edit RandomEdits::addOpening(const Project& project) {
    const char* const directions[] = {"x", "y", "z", "-x"};
    const char* const purposes[] = {"exit", "sight_slit", "hand_hole", "wheel_arch", "light"};
    return insertValue(
        "/openings", sizeOf(project.openings),
        R"({"name": ")" + fresh("hatch ") + R"(", "shape": ")" + (below(2) ? "rectangle" : "slot") +
            R"(", "direction": ")" + directions[below(4)] + R"(", "x": ")" + mm(-300, 900) + R"(", "y": ")" +
            mm(-200, 200) + R"(", "z": ")" + mm(0, 600) + R"(", "width": ")" + mm(40, 400) +
            R"(", "height": ")" + mm(30, 300) + R"(", "purpose": ")" + purposes[below(5)] + R"(", "lid": )" +
            (below(2) ? "true" : "false") + R"(, "lid_gap": "2 mm", "lap": ")" + mm(0, 40) + "\"}");
}

Edit RandomEdits::addWoodwork(const Project& project) {
    switch (below(5)) {
    case 0: {
        const char* const axes[] = {"x", "y", "z"};
        return insertValue("/frames", sizeOf(project.frames),
                           R"({"name": ")" + fresh("rib ") + R"(", "axis": ")" + axes[below(3)] +
                               R"(", "station": ")" + mm(-200, 1200) + R"(", "gap": ")" + mm(0, 3) +
                               R"(", "web": ")" + (below(2) ? "" : mm(20, 90)) + R"(", "yaw": ")" +
                               (below(4) ? "" : "12 deg") + R"(", "fit": "0.3 mm"})");
    }
    case 1:
        return insertValue("/cleats", sizeOf(project.cleats),
                           R"({"name": ")" + fresh("cleats ") + R"(", "between": [")" +
                               (below(2) ? "*" : plateOf(project)) + R"(", "*"], "kind": ")" +
                               (below(2) ? "cleat" : "block") + R"(", "width": ")" + mm(10, 40) +
                               R"(", "depth": ")" + mm(10, 40) + R"(", "end_gap": ")" + mm(0, 40) +
                               R"(", "length": ")" + mm(30, 80) + R"(", "spacing": ")" + mm(90, 300) + "\"}");
    case 2:
        return insertValue("/seams", sizeOf(project.seams),
                           R"({"plate": ")" + plateOf(project) + R"(", "at": ")" + mm(-300, 300) +
                               R"(", "strip": ")" + mm(0, 90) + R"(", "turn": ")" +
                               (below(3) ? "" : "10 deg") + "\"}");
    case 3:
        return insertValue(
            "/modules", sizeOf(project.modules),
            R"({"name": ")" + fresh("module ") + R"(", "plates": [")" +
                (below(2) || project.forms.empty() ? "*/top" : project.forms.back().name + "/*") + "\"]}");
    default:
        return insertValue("/passages", sizeOf(project.passages),
                           R"({"name": ")" + fresh("door ") + R"(", "width": ")" + mm(300, 1200) +
                               R"(", "height": ")" + mm(500, 2100) + "\"}");
    }
}

Edit RandomEdits::addMechanism(const Project& project) {
    const Mechanisms& all = project.mechanisms;
    const std::string spot = R"("at": {"x": ")" + mm(0, 900) + R"(", "z": ")" + mm(200, 900) + "\"}";
    switch (below(4)) {
    case 0:
        return insertValue(
            "/mechanisms/turntables", sizeOf(all.turntables),
            R"({"name": ")" + fresh("drum ") + "\", " + spot + R"(, "diameter": ")" + mm(80, 500) +
                R"(", "depth": ")" + mm(-150, 250) +
                R"(", "wall": "3 mm", "lip": "15 mm", "lip_thickness": "4 mm", "gap": "2 mm", )" +
                R"("overlap": "10 mm", "ring_width": ")" + mm(20, 80) + R"(", "sides": ")" +
                (below(3) ? "" : "8") + R"(", "from": ")" + (below(2) ? "" : "-90 deg") + R"(", "to": ")" +
                (below(2) ? "" : "90 deg") + "\"}");
    case 1: {
        const std::string on = all.turntables.empty() || below(2) ? "" : all.turntables.front().name;
        return insertValue(
            "/mechanisms/trunnions", sizeOf(all.trunnions),
            R"({"name": ")" + fresh("boom ") + "\", " + spot + R"(, "diameter": ")" + mm(20, 120) +
                R"(", "wall": "2 mm", "front": ")" + mm(100, 900) + R"(", "rear": ")" + mm(0, 300) +
                R"(", "lowest": ")" + std::to_string(below(30) - 20) + R"( deg", "highest": ")" +
                std::to_string(15 + below(50)) + R"( deg", "gap": "4 mm", "on": ")" + on + "\"}");
    }
    case 2:
        return insertValue("/mechanisms/linkages", sizeOf(all.linkages),
                           R"({"name": ")" + fresh("link ") + R"(", "joint": ")" +
                               (below(2) ? "hinge" : "pin_slot") + "\", " + spot + R"(, "up": ")" +
                               mm(0, 60) + R"(", "down": ")" + mm(0, 60) +
                               R"(", "pitch_up": "4 deg", "pitch_down": "3 deg", "pin": "10 mm"})");
    default:
        return insertValue(
            "/mechanisms/belts", sizeOf(all.belts),
            R"({"name": ")" + fresh("belt ") + R"(", "at": {"y": ")" + mm(300, 700) +
                R"("}, "wheels": [{"name": "front", "x": ")" + mm(600, 1300) + R"(", "z": ")" + mm(80, 300) +
                R"(", "diameter": ")" + mm(100, 400) + R"("}, {"name": "rear", "x": ")" + mm(-300, 300) +
                R"(", "z": ")" + mm(80, 300) + R"(", "diameter": ")" + mm(100, 400) + R"("}], "width": ")" +
                mm(50, 250) + R"(", "pitch": ")" + (below(3) ? mm(30, 120) : "") + R"(", "adjust": ")" +
                (below(2) ? "wheel" : "pitch") +
                R"(", "moves": "rear", "thickness": "4 mm", "stock": "card", "overlap": "40 mm"})");
    }
}

Edit RandomEdits::addPaper(const Project& project) {
    const char* const views[] = {"side", "front", "plan"};
    if (below(2) == 0)
        return insertValue("/pictures", sizeOf(project.pictures),
                           R"({"name": ")" + fresh("picture ") + R"(", "file": ")" +
                               (below(3) ? "board.png" : "gone.png") + R"(", "view": ")" + views[below(3)] +
                               R"(", "from": {"x": "4", "y": "40"}, "to": {"x": ")" +
                               std::to_string(4 + below(50)) + R"(", "y": "40"}, "distance": ")" +
                               mm(300, 3000) + R"(", "features": [{"name": "bow", "x": "44", "y": "20"}]})");
    for (const Form& form : project.forms)
        if (const auto* s = std::get_if<ProfileShape>(&form.shape); s && s->outline.size() > 2)
            return insertValue(
                "/dimension_lines", sizeOf(project.lines),
                R"({"name": ")" + fresh("line ") + R"(", "view": "side", "from": ")" + form.name + "/" +
                    s->outline[0].name + R"(", "to": ")" + form.name + "/" +
                    s->outline[1 + static_cast<std::size_t>(below(2))].name + R"(", "along": ")" +
                    (below(2) ? "x" : "") + R"(", "drives": ")" +
                    (below(2) && !project.dimensions.empty() ? project.dimensions.front().name : "") +
                    R"(", "offset": "80 mm"})");
    return addWoodwork(project);
}

/// Forms of this document once more, or of another one that a builder had open before.
Edit RandomEdits::paste(const Project& project) {
    const bool other = below(2) == 0;
    const Project from = other ? start() : project;
    std::vector<std::string> names;
    for (const Form& form : from.forms)
        if (names.empty() || below(2)) names.push_back(form.name);
    if (project.forms.size() + names.size() > 7 || names.empty()) return addOpening(project);
    const auto text = copyForms(from, names);
    return pasteForms(text ? *text : "nothing");
}

Edit RandomEdits::addPart(const Project& project) {
    switch (below(6)) {
    case 0:
        return addCurve(project);
    case 1:
        return addOpening(project);
    case 2:
        return addMechanism(project);
    case 3:
        return addPaper(project);
    default:
        return addWoodwork(project);
    }
}

Edit RandomEdits::changePart(const Project& p) {
    const Mechanisms& m = p.mechanisms;
    std::vector<Edit> can;
    const auto offer = [&](const char* list, const auto& all, const char* key, const std::string& value) {
        if (!all.empty()) can.push_back(setValue(at(list, all) + key, inQuotes(value)));
    };
    offer("/frames", p.frames, "/station", mm(-300, 1300));
    offer("/frames", p.frames, "/web", mm(10, 120));
    offer("/cleats", p.cleats, "/width", mm(5, 60));
    offer("/seams", p.seams, "/at", mm(-400, 400));
    offer("/modules", p.modules, "/plates/0", plateOf(p));
    offer("/openings", p.openings, "/width", mm(10, 500));
    offer("/mechanisms/turntables", m.turntables, "/diameter", mm(50, 700));
    offer("/mechanisms/turntables", m.turntables, "/at/z", mm(0, 900));
    offer("/mechanisms/trunnions", m.trunnions, "/front", mm(50, 1200));
    offer("/mechanisms/trunnions", m.trunnions, "/highest", std::to_string(below(120)) + " deg");
    offer("/mechanisms/linkages", m.linkages, "/pitch_up", std::to_string(below(20)) + " deg");
    offer("/mechanisms/belts", m.belts, "/wheels/0/diameter", mm(50, 500));
    offer("/pictures", p.pictures, "/distance", mm(100, 4000));
    offer("/dimension_lines", p.lines, "/along", below(2) ? "z" : "");
    return can.empty() ? addPart(p) : can[static_cast<std::size_t>(below(sizeOf(can)))];
}

Edit RandomEdits::removePart(const Project& p) {
    const Mechanisms& m = p.mechanisms;
    std::vector<std::string> can;
    const auto offer = [&](const char* list, const auto& all) {
        if (!all.empty()) can.push_back(at(list, all));
    };
    offer("/frames", p.frames);
    offer("/cleats", p.cleats);
    offer("/seams", p.seams);
    offer("/modules", p.modules);
    offer("/passages", p.passages);
    offer("/mechanisms/turntables", m.turntables);
    offer("/mechanisms/trunnions", m.trunnions);
    offer("/mechanisms/linkages", m.linkages);
    offer("/mechanisms/belts", m.belts);
    offer("/pictures", p.pictures);
    offer("/dimension_lines", p.lines);
    return can.empty() ? addPart(p) : removeValue(can[static_cast<std::size_t>(below(sizeOf(can)))]);
}

} // namespace slab::test
