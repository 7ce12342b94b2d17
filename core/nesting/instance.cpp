#include "core/nesting/nest.h"
#include <algorithm>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

namespace slab {
namespace {

using Json = nlohmann::ordered_json;
constexpr int mostCopies = 100000;

struct Reader {
    Error error;
    bool ok = true;

    void refuse(const char* code, const std::string& where, const std::string& message) {
        if (ok) error = {code, message, where, "Compare the file with the instance format."};
        ok = false;
    }
    double number(const Json& object, const char* key, const std::string& where) {
        const auto it = object.find(key);
        if (it == object.end()) {
            refuse("missing", where + "/" + key, std::string("\"") + key + "\" is missing.");
            return 0;
        }
        return number(*it, where + "/" + key);
    }
    double number(const Json& value, const std::string& where) {
        if (!value.is_number() || !std::isfinite(value.get<double>())) {
            refuse("wrong-type", where, "A finite number is needed here.");
            return 0;
        }
        return value.get<double>();
    }
    double positive(const Json& object, const char* key, const std::string& where) {
        const double v = number(object, key, where);
        if (ok && !(v > 0 && v < 1e9))
            refuse("wrong-type", where + "/" + key, "A size above 0 is needed here.");
        return v;
    }
    Ring ring(const Json& value, const std::string& where, bool hole) {
        Ring out;
        if (!value.is_array() || value.size() < 3) {
            refuse("wrong-type", where, "A list of at least three points is needed here.");
            return out;
        }
        for (std::size_t i = 0; i < value.size() && ok; ++i) {
            const std::string here = where + "/" + std::to_string(i);
            if (!value[i].is_array() || value[i].size() != 2) {
                refuse("wrong-type", here, "A point is a pair of numbers.");
                break;
            }
            const double x = number(value[i][0], here + "/0"), y = number(value[i][1], here + "/1");
            if (ok && std::max(std::abs(x), std::abs(y)) >= 1e9)
                refuse("wrong-type", here, "The point is too far out.");
            out.emplace_back(x, y);
        }
        if (!ok) return out;
        const double signedSize = signedArea(out);
        if (signedSize == 0) refuse("wrong-type", where, "The outline has no area.");
        if ((signedSize < 0) != hole) out = reversed(std::move(out));
        return out;
    }
    std::vector<double> rotations(const Json& item, const std::string& where) {
        std::vector<double> out;
        const auto it = item.find("allowed_rotations_deg");
        if (it == item.end() || it->is_null()) return out;
        const std::string here = where + "/allowed_rotations_deg";
        if (!it->is_array() || it->empty()) {
            refuse("wrong-type", here, "A list of angles, or null for any angle, is needed here.");
            return out;
        }
        for (std::size_t i = 0; i < it->size() && ok; ++i)
            out.push_back(number((*it)[i], here + "/" + std::to_string(i)) * std::numbers::pi / 180);
        return out;
    }
    int copies(const Json& item, const std::string& where) {
        const auto it = item.find("demand");
        if (it == item.end()) return 1;
        const double v = number(*it, where + "/demand");
        if (ok && (v < 0 || v > mostCopies || v != std::floor(v)))
            refuse("wrong-type", where + "/demand",
                   "A whole number of copies from 0 to 100000 is needed here.");
        return ok ? static_cast<int>(v) : 0;
    }
    NestPart part(const Json& item, const std::string& where) {
        NestPart part;
        if (!item.is_object()) {
            refuse("wrong-type", where, "An item is an object with \"points\".");
            return part;
        }
        const auto id = item.find("id");
        if (id == item.end())
            refuse("missing", where + "/id", "\"id\" is missing.");
        else if (id->is_string())
            part.id = id->get<std::string>();
        else if (id->is_number_integer())
            part.id = id->dump();
        else
            refuse("wrong-type", where + "/id", "An id is a whole number or a text.");
        const auto points = item.find("points");
        if (points == item.end())
            refuse("missing", where + "/points", "\"points\" is missing.");
        else
            part.shape.outer = ring(*points, where + "/points", false);
        if (const auto holes = item.find("holes"); holes != item.end()) {
            if (!holes->is_array()) refuse("wrong-type", where + "/holes", "A list of holes is needed here.");
            for (std::size_t i = 0; ok && i < holes->size(); ++i)
                part.shape.holes.push_back(ring((*holes)[i], where + "/holes/" + std::to_string(i), true));
        }
        part.copies = copies(item, where);
        part.rotations = rotations(item, where);
        return part;
    }
};

/// Whole-number ids are written as numbers.
Json idJson(const std::string& id) {
    long long n = 0;
    const auto [end, error] = std::from_chars(id.data(), id.data() + id.size(), n);
    if (error == std::errc() && end == id.data() + id.size()) return n;
    return id;
}

} // namespace

Expected<NestProblem> readInstance(std::string_view text) {
    const Json json = Json::parse(text, nullptr, false);
    if (json.is_discarded())
        return fail("not-json", "The instance is not valid JSON.", "", "Check the file.");
    if (!json.is_object()) return fail("wrong-type", "An instance is a JSON object.", "", "Check the file.");
    Reader reader;
    NestProblem problem;
    if (json.contains("strip_height")) {
        problem.strip = reader.positive(json, "strip_height", "");
    } else if (json.contains("bin_width") || json.contains("bin_height")) {
        NestSheet sheet;
        sheet.length = reader.positive(json, "bin_width", "");
        sheet.width = reader.positive(json, "bin_height", "");
        sheet.price = 1;
        problem.sheets.push_back(sheet);
    } else {
        return fail("missing", "Neither \"strip_height\" nor \"bin_width\" and \"bin_height\" is given.",
                    "/strip_height", "Add the size of the strip or of the sheet.");
    }
    const auto items = json.find("items");
    if (items == json.end())
        reader.refuse("missing", "/items", "\"items\" is missing.");
    else if (!items->is_array())
        reader.refuse("wrong-type", "/items", "A list of items is needed here.");
    else
        for (std::size_t i = 0; i < items->size() && reader.ok; ++i)
            problem.parts.push_back(reader.part((*items)[i], "/items/" + std::to_string(i)));
    if (!reader.ok) return tl::unexpected(reader.error);
    return problem;
}

std::string nestJson(const NestProblem& problem, const NestResult& result, double seconds) {
    Json out = Json::object();
    if (problem.strip > 0)
        out["density_percent"] = result.density * 100;
    else
        out["sheet_count"] = result.layouts.size();
    out["seconds"] = seconds;
    out["placements"] = Json::array();
    for (std::size_t sheet = 0; sheet < result.layouts.size(); ++sheet)
        for (const NestPlace& p : result.layouts[sheet].places) {
            const double degrees = p.rotation * 180 / std::numbers::pi;
            const double whole = std::round(degrees * 1e9) / 1e9;
            Json place = Json::object();
            place["item"] = idJson(problem.parts[static_cast<std::size_t>(p.part)].id);
            place["copy"] = p.copy;
            place["sheet"] = sheet;
            place["x"] = p.x;
            place["y"] = p.y;
            place["rotation_deg"] = std::abs(whole - degrees) < 1e-12 * 360 ? whole : degrees;
            out["placements"].push_back(std::move(place));
        }
    out["unplaced"] = Json::array();
    for (const auto& [part, copy] : result.unplaced)
        out["unplaced"].push_back(
            {{"item", idJson(problem.parts[static_cast<std::size_t>(part)].id)}, {"copy", copy}});
    return out.dump(2);
}

} // namespace slab
