#include "tests/evaluate/random_edits.h"
#include "core/document/copy.h"
#include "core/document/file.h"
#include <gtest/gtest.h>

namespace slab::test {
namespace {

const std::string kJoints[] = {"cover", "mitre", "fold", "open"};

std::string quoted(const std::string& text) {
    return "\"" + text + "\"";
}

} // namespace

std::string RandomEdits::mm(double from, double to) {
    return std::to_string(static_cast<int>(between(from, to))) + " mm";
}

std::string RandomEdits::place() {
    return R"({"x": ")" + mm(-900, 900) + R"(", "y": ")" + (below(3) ? "0" : mm(-300, 300)) + R"(", "z": ")" +
           (below(2) ? "0" : mm(0, 500)) + R"("})";
}

/// One form of any kind, sound by itself.
std::string RandomEdits::form() {
    const std::string name = fresh("form "), head = R"({"name": ")" + name + R"(", "at": )" + place() + ", ";
    const std::string flags = std::string(R"("standing": )") + (below(4) ? "false" : "true") +
                              R"(, "mirror": )" + (below(5) ? "false" : "true") + "}";
    int corner = 0; // the corners are named as the sides that begin there
    const auto point = [&](const std::string& x, const std::string& y, const char* second,
                           const std::string& more) {
        return R"({"name": "s)" + std::to_string(++corner) + R"(", "x": ")" + x + R"(", ")" + second +
               R"(": ")" + y + "\"" + more + "}";
    };
    switch (below(5)) {
    case 0: {
        const std::string half = R"(, "half_width": ")" + mm(150, 500) + "\"";
        std::string outline = point("0", "0", "z", half) + "," + point(mm(500, 1500), "0", "z", half);
        outline += "," + point(mm(500, 1700), mm(200, 700), "z", half);
        outline += "," + point("0", mm(200, 700), "z", half);
        return head + R"("kind": "profile", "outline": [)" + outline + "], " + flags;
    }
    case 1: {
        const std::string l = mm(400, 1500), w = mm(300, 900), m = mm(200, 1500), v = mm(200, 900);
        const auto ring = [&](const std::string& x, const std::string& y) {
            corner = 0;
            std::string all = "[" + point("0", "0", "y", "");
            all += "," + point(x, "0", "y", "");
            all += "," + point(x, y, "y", "");
            return all + "," + point("0", y, "y", "") + "]";
        };
        const std::string base = ring(l, w), top = ring(m, v);
        return head + R"("kind": "taper", "base": )" + base + R"(, "top": )" + top +
               R"(, "base_z": "0", "top_z": ")" + mm(200, 900) + "\", " + flags;
    }
    case 2: {
        std::string outline = point("0", "0", "y", "");
        outline += "," + point(mm(100, 600), "0", "y", "");
        outline += "," + point(mm(50, 600), mm(100, 400), "y", "");
        return head + R"("kind": "plate", "outline": [)" + outline + "], " + flags;
    }
    case 3:
        return head + R"("kind": "round", "diameter": ")" + mm(20, 200) + R"(", "length": ")" + mm(50, 900) +
               "\", " + flags;
    default: {
        const std::string corners =
            R"({"name": "a", "x": "0", "y": "0", "z": "0"}, {"name": "b", "x": ")" + mm(300, 900) +
            R"(", "y": "0", "z": "0"}, {"name": "c", "x": "0", "y": ")" + mm(300, 900) +
            R"(", "z": "0"}, {"name": "d", "x": "0", "y": "0", "z": ")" + mm(300, 900) + R"("})";
        return head + R"("kind": "facet", "corners": [)" + corners +
               R"(], "faces": [{"name": "base", "corners": ["a", "c", "b"]}, {"name": "s1", "corners": ["a", "b", "d"]},
                   {"name": "s2", "corners": ["b", "c", "d"]}, {"name": "s3", "corners": ["c", "a", "d"]}], )" +
               flags;
    }
    }
}

Project RandomEdits::start() {
    std::string text = R"({"slabside": 1, "title": "Moon tram", "units": ")" +
                       std::string(below(2) ? "mm" : "in") + R"(", "scale": "1",
  "dimensions": [{"name": "side", "value": "900 mm"}, {"name": "half", "value": "side / 2"}],
  "forms": [)" + form() +
                       (below(2) ? "," + form() : "") + R"(],
  "materials": {"default": "ply"}, "joints": {"order": ["*/top", "*/base"]},
  "donor": {"kind": ")" +
                       (below(2) ? "none" : "powered_chair") + R"("}, "rider": {"table": ")" +
                       (below(2) ? "none" : "adult") + R"("},
  "stock": {"sheets": [{"name": "ply", "kind": "plywood", "size": ["1220 mm", "2440 mm"], "thickness": "12 mm"},
                       {"name": "card", "kind": "card", "size": ["700 mm", "1000 mm"], "thickness": "2 mm"}]}})";
    auto project = readProject(text);
    if (!project) {
        ADD_FAILURE() << project.error().message << " at " << project.error().where << "\n" << text;
        return {};
    }
    return *project;
}

std::string RandomEdits::plateOf(const Project& project) {
    if (project.forms.empty()) return "nothing/top";
    const Form& form = project.forms[static_cast<std::size_t>(below(static_cast<int>(project.forms.size())))];
    const char* const sides[] = {"top", "base", "port", "starboard", "s1", "s2", "s3", "s4", "plate"};
    return form.name + (form.mirror ? " port/" : "/") + sides[below(9)];
}

Edit RandomEdits::addRule(const Project& project) {
    switch (below(4)) {
    case 0: {
        std::string key = plateOf(project); // RFC 6901
        for (std::size_t i = key.find('/'); i != std::string::npos; i = key.find('/', i + 2))
            key.replace(i, 1, "~1");
        return setValue("/materials/plates/" + key, below(3) ? quoted("card") : "null");
    }
    case 1:
        return insertValue("/joints/order", 0, quoted(below(2) ? plateOf(project) : "*/s2"));
    case 2:
        return insertValue("/joints/edges", 0,
                           R"({"between": [")" + plateOf(project) + R"(", ")" + plateOf(project) +
                               R"("], "joint": ")" + kJoints[static_cast<std::size_t>(below(4))] + "\"}");
    default:
        return insertValue("/stock/sheets", 0,
                           R"({"name": ")" + fresh("sheet ") + R"(", "size": [")" + mm(300, 2000) +
                               R"(", ")" + mm(300, 3000) + R"("], "thickness": ")" + mm(1, 30) + "\"}");
    }
}

Edit RandomEdits::add(const Project& project) {
    const auto end = [](const auto& list) { return static_cast<int>(list.size()); };
    switch (below(6)) {
    case 0:
    case 1:
        if (project.forms.size() < 6) return insertValue("/forms", end(project.forms), form());
        [[fallthrough]];
    case 2:
        return insertValue("/dimensions", end(project.dimensions),
                           R"({"name": ")" + fresh("size_") + R"(", "value": ")" +
                               (below(2) ? mm(50, 900) : "side / 3 + 10 mm") + "\"}");
    case 3:
        return insertValue("/openings", end(project.openings),
                           R"({"name": ")" + fresh("hole ") + R"(", "shape": ")" +
                               (below(2) ? "rectangle" : "circle") + R"(", "plate": ")" + plateOf(project) +
                               R"(", "u": ")" + mm(-200, 200) + R"(", "v": ")" + mm(-200, 200) +
                               R"(", "width": ")" + mm(20, 300) + R"(", "height": ")" + mm(20, 300) +
                               R"(", "diameter": ")" + mm(10, 300) + "\"}");
    case 4:
        return insertValue("/donor/solids", end(project.donor.solids),
                           R"({"name": ")" + fresh("box ") + R"(", "shape": "box", "x": ")" + mm(-300, 600) +
                               R"(", "y": "0", "z": ")" + mm(100, 500) + R"(", "size_x": ")" + mm(20, 400) +
                               R"(", "size_y": ")" + mm(20, 400) + R"(", "size_z": ")" + mm(20, 400) + "\"}");
    default:
        return addRule(project);
    }
}

Edit RandomEdits::remove(const Project& project) {
    switch (below(7)) {
    case 0:
        if (!project.forms.empty()) return removeValue(at("/forms", project.forms));
        break;
    case 1:
        if (!project.openings.empty()) return removeValue(at("/openings", project.openings));
        break;
    case 2:
        if (!project.dimensions.empty()) return removeValue(at("/dimensions", project.dimensions));
        break;
    case 3:
        if (!project.donor.solids.empty()) return removeValue(at("/donor/solids", project.donor.solids));
        break;
    case 4:
        if (!project.stock.sheets.empty()) return removeValue(at("/stock/sheets", project.stock.sheets));
        break;
    case 5:
        if (!project.joints.order.empty()) return removeValue(at("/joints/order", project.joints.order));
        break;
    default: // a point of an outline
        for (std::size_t i = 0; i < project.forms.size(); ++i)
            if (std::holds_alternative<ProfileShape>(project.forms[i].shape))
                return removeValue("/forms/" + std::to_string(i) + "/outline/" + std::to_string(below(4)));
    }
    return setValue("/title", quoted(fresh("Tram ")));
}

Edit RandomEdits::change(const Project& project) {
    switch (below(8)) {
    case 0:
        if (!project.dimensions.empty())
            return setValue(at("/dimensions", project.dimensions) + "/value", quoted(mm(100, 1500)));
        break;
    case 1:
        if (!project.forms.empty()) {
            const char* const field[] = {"/off", "/standing", "/mirror"};
            return setValue(at("/forms", project.forms) + field[below(3)], below(2) ? "true" : "false");
        }
        break;
    case 2:
        if (!project.forms.empty())
            return setValue(at("/forms", project.forms) + "/at/" + (below(2) ? "yaw" : "pitch"),
                            quoted(std::to_string(below(90) - 45) + " deg"));
        break;
    case 3:
        if (!project.stock.sheets.empty())
            return setValue(at("/stock/sheets", project.stock.sheets) + "/thickness", quoted(mm(2, 40)));
        break;
    case 4:
        return setValue("/donor/at/x", quoted(mm(-500, 900)));
    case 5:
        if (!project.forms.empty())
            return duplicateForms(
                {project.forms[static_cast<std::size_t>(below(static_cast<int>(project.forms.size())))]
                     .name});
        break;
    case 6:
        return setValue("/joints/default", below(2) ? quoted("cover") : quoted("mitre"));
    default:
        if (project.forms.size() > 1)
            return moveValue("/forms", 0, static_cast<int>(project.forms.size()) - 1);
    }
    return setValue("/donor/place", below(2) ? quoted("best") : quoted("fixed"));
}

/// One step of a drag; the next one of the same thing joins it.
Edit RandomEdits::drag(const Project& project) {
    if (below(2) == 0 || project.forms.empty())
        return setScale("0." + std::to_string(300 + below(650)), "scale");
    const std::size_t i = static_cast<std::size_t>(below(static_cast<int>(project.forms.size())));
    const std::string form = "/forms/" + std::to_string(i);
    const Shape& shape = project.forms[i].shape;
    std::string where = "/at/x";
    if (std::holds_alternative<ProfileShape>(shape))
        where = "/outline/1/" + std::string(below(2) ? "x" : "z");
    if (std::holds_alternative<TaperShape>(shape)) where = "/top/2/" + std::string(below(2) ? "x" : "y");
    if (std::holds_alternative<PlateShape>(shape)) where = "/outline/2/x";
    if (std::holds_alternative<RoundShape>(shape)) where = "/diameter";
    return setValue(form + where, quoted(mm(30, 1200)), {}, "drag " + form + where);
}

/// What a slip of the hand types.
Edit RandomEdits::mistype(const Project& project) {
    const char* const slips[] = {"",  "12 kg", "side / 0", "nobody * 2", "-300 mm",
                                 "0", "1e9 m", "((",       "30 deg",     "side ^ 40"};
    const std::string slip = quoted(slips[below(10)]);
    switch (below(6)) {
    case 0:
        if (!project.dimensions.empty())
            return setValue(at("/dimensions", project.dimensions) + "/value", slip);
        break;
    case 1:
        if (!project.forms.empty()) return setValue(at("/forms", project.forms) + "/at/z", slip);
        break;
    case 2:
        if (!project.stock.sheets.empty())
            return setValue(at("/stock/sheets", project.stock.sheets) + "/thickness", slip);
        break;
    case 3:
        if (!project.openings.empty()) return setValue(at("/openings", project.openings) + "/width", slip);
        break;
    case 4:
        if (!project.donor.solids.empty())
            return setValue(at("/donor/solids", project.donor.solids) + "/size_x", slip);
        break;
    default:
        return setValue("/scale", below(2) ? slip : quoted("2/5"));
    }
    return setValue("/rider/percentile", slip);
}

Edit RandomEdits::rename(const Project& project) {
    if (below(2) && !project.forms.empty()) return renameAt(at("/forms", project.forms), fresh("part "));
    if (!project.dimensions.empty()) return renameAt(at("/dimensions", project.dimensions), fresh("length_"));
    return setValue("/units", quoted("cm"));
}

Edit RandomEdits::next(const Project& project) {
    const int what = below(100);
    if (what < 18) return add(project);
    if (what < 40) return addPart(project);
    if (what < 45) return paste(project);
    if (what < 53) return remove(project);
    if (what < 58) return removePart(project);
    if (what < 66) return change(project);
    if (what < 74) return changePart(project);
    if (what < 86) return drag(project);
    if (what < 94) return mistype(project);
    return rename(project);
}

} // namespace slab::test
