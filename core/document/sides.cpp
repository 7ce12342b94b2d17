#include "core/document/sides.h"
#include <algorithm>

namespace slab::detail {
namespace {

void addSides(const std::vector<OutlinePoint>& points, std::vector<std::string>& all) {
    for (std::size_t i = 0; i < points.size(); ++i) {
        std::string side = sideName(points, i);
        if (std::find(all.begin(), all.end(), side) == all.end()) all.push_back(std::move(side));
    }
}

std::vector<std::string> sides(const ProfileShape& shape) {
    std::vector<std::string> all{"port", "starboard"};
    addSides(shape.outline, all);
    return all;
}
std::vector<std::string> sides(const TaperShape& shape) {
    std::vector<std::string> all{"base", "top"};
    addSides(shape.base, all);
    return all;
}
std::vector<std::string> sides(const PlateShape&) {
    return {"plate"};
}
std::vector<std::string> sides(const RoundShape&) {
    return {};
}
std::vector<std::string> sides(const FacetShape& shape) {
    std::vector<std::string> all;
    for (std::size_t i = 0; i < shape.faces.size(); ++i)
        all.push_back(shape.faces[i].name.empty() ? "f" + std::to_string(i + 1) : shape.faces[i].name);
    return all;
}

} // namespace

std::vector<std::string> handNames(const Form& form) {
    if (!form.mirror) return {form.name};
    return {form.name + " port", form.name + " starboard"};
}

std::string pointName(const std::vector<OutlinePoint>& points, std::size_t index) {
    return points[index].name.empty() ? "s" + std::to_string(index + 1) : points[index].name;
}

std::string sideName(const std::vector<OutlinePoint>& points, std::size_t index) {
    return points[index].side.empty() ? pointName(points, index) : points[index].side;
}

std::vector<std::string> sidesOf(const Form& form) {
    return std::visit([](const auto& shape) { return sides(shape); }, form.shape);
}

} // namespace slab::detail
