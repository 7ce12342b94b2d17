#pragma once
#include "../geometry/seed.h"
#include "core/nesting/nest.h"
#include <algorithm>
#include <cmath>
#include <gmock/gmock.h>
#include <numbers>

namespace slab {

inline Ring box(double x0, double y0, double x1, double y1) {
    return {Vec2(x0, y0), Vec2(x1, y0), Vec2(x1, y1), Vec2(x0, y1)};
}
inline NestPart partOf(std::string id, Polygon shape, int copies = 1, std::vector<double> rotations = {0}) {
    NestPart part;
    part.id = std::move(id);
    part.shape = std::move(shape);
    part.copies = copies;
    part.rotations = std::move(rotations);
    return part;
}
inline NestSheet sheetOf(double length, double width, double price = 1) {
    NestSheet sheet;
    sheet.length = length;
    sheet.width = width;
    sheet.price = price;
    return sheet;
}

/// Star-shaped outline with `corners` corners between two radii: convex-like when they are equal, spiky else.
inline Ring star(std::mt19937_64& random, int corners, double least, double most) {
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2 * std::numbers::pi * (i + uniform(random, 0, 0.7)) / corners;
        const double radius = uniform(random, least, most);
        ring.emplace_back(radius * std::cos(angle), radius * std::sin(angle));
    }
    return ring;
}

/// Convex, concave, ring, comb, sliver or square, about `size` across.
inline Polygon randomShape(std::mt19937_64& random, double size) {
    switch (below(random, 6)) {
    case 0:
        return {convexHull(star(random, 3 + below(random, 7), 0.3 * size, 0.5 * size)), {}};
    case 1:
        return {star(random, 5 + below(random, 9), 0.1 * size, 0.5 * size), {}};
    case 2: {
        Polygon ring{star(random, 6 + below(random, 6), 0.4 * size, 0.5 * size), {}};
        ring.holes.push_back(reversed(star(random, 4 + below(random, 4), 0.15 * size, 0.25 * size)));
        return ring;
    }
    case 3: { // a comb with slots
        Ring comb{Vec2(0, 0), Vec2(size, 0), Vec2(size, size)};
        for (int k = 2; k >= 1; --k) {
            const double x = size * k / 3;
            comb.insert(comb.end(), {Vec2(x + 0.1 * size, size), Vec2(x + 0.1 * size, 0.3 * size),
                                     Vec2(x - 0.1 * size, 0.3 * size), Vec2(x - 0.1 * size, size)});
        }
        comb.emplace_back(0, size);
        return {comb, {}};
    }
    case 4:
        return {Ring{Vec2(0, 0), Vec2(size, 1e-3 * size), Vec2(size, 3e-3 * size)}, {}};
    default:
        return {box(0, 0, 0.25 * size, 0.25 * size), {}};
    }
}

inline NestProblem randomProblem(std::mt19937_64& random) {
    NestProblem problem;
    const bool strip = below(random, 3) == 0;
    if (strip) problem.strip = uniform(random, 60, 150);
    const double trim = below(random, 2) ? 0 : uniform(random, 0, 5);
    if (!strip)
        for (int k = below(random, 3); k >= 0; --k) {
            NestSheet sheet =
                sheetOf(uniform(random, 80, 200), uniform(random, 60, 150), uniform(random, 1, 9));
            sheet.trim = trim;
            sheet.onHand = below(random, 2);
            sheet.limit = below(random, 4) ? -1 : below(random, 3);
            problem.sheets.push_back(sheet);
        }
    const int count = 2 + below(random, 6);
    const double spacing = below(random, 2) ? 0 : uniform(random, 0, 4);
    for (int i = 0; i < count; ++i) {
        const double size = below(random, 20) ? uniform(random, 10, 60) : 400; // now and then too large
        NestPart part = partOf(std::to_string(i), randomShape(random, size), 1 + below(random, 3));
        const double quarter = std::numbers::pi / 2;
        const std::vector<std::vector<double>> turns{
            {}, {0}, {0, 2 * quarter}, {0, quarter, 2 * quarter, 3 * quarter}};
        part.rotations = turns[static_cast<std::size_t>(below(random, 4))];
        part.flip = below(random, 4) == 0;
        part.spacing = spacing;
        problem.parts.push_back(part);
    }
    return problem;
}

inline std::size_t countPlaced(const NestResult& result) {
    std::size_t n = 0;
    for (const NestLayout& layout : result.layouts) n += layout.places.size();
    return n;
}

} // namespace slab
