// Zones of a convex skin; other skins go through zone_outline.
#include "core/plates/zones.h"

namespace slab::plates {

namespace {

/// The whole convex skin as one cell.
Cell skinCell(const Shell& shell) {
    Cell cell;
    std::map<int, int> renumber;
    for (const int f : shell.faces) {
        const auto& loop = shell.face(f).loops.front();
        cell.facets.push_back(
            {shell.skin[at(f)], static_cast<int>(cell.corners.size()), static_cast<int>(loop.size())});
        for (const int v : loop) {
            const auto [where, isNew] = renumber.try_emplace(v, static_cast<int>(cell.vertices.size()));
            if (isNew) cell.vertices.push_back(shell.body.skin.vertices[at(v)]);
            cell.corners.push_back(where->second);
        }
    }
    setBox(cell);
    return cell;
}

} // namespace

void makeZones(Shell& shell, const Job& job) {
    shell.isConvex = shell.convex();
    const Vec3 margin = Vec3::Constant(shell.size);
    shell.whole = shell.isConvex
                      ? skinCell(shell)
                      : boxCell(shell.planes, shell.limits.min - margin, shell.limits.max + margin);
    for (const int f : shell.faces) {
        if (!shell.present(f) || job.stopped()) continue;
        if (!shell.isConvex) {
            shell.zones[at(f)] = outlineZone(shell, f, false);
            continue;
        }
        Cell zone = clipped(shell.planes, shell.whole, shell.inner[at(f)].other());
        for (const int b : shell.bondsOfFace[at(f)]) {
            const Bond& bond = shell.bonds[at(b)];
            if (bond.apart) zone = clipped(shell.planes, zone, bond.f == f ? bond.plane : bond.plane.other());
        }
        if (!zone.empty()) shell.zones[at(f)].push_back(std::move(zone));
    }
}

const Cells& fullZone(Shell& shell, int face) {
    const auto [where, isNew] = shell.fullZones.try_emplace(face);
    if (isNew && shell.isConvex)
        where->second = {clipped(shell.planes, shell.whole, shell.inner[at(face)].other())};
    else if (isNew)
        where->second = outlineZone(shell, face, true);
    return where->second;
}

} // namespace slab::plates
