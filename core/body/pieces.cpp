#include "core/body/pieces.h"
#include <algorithm>
#include <array>
#include <cstdlib>
#include <map>
#include <numeric>
#include <set>

namespace slab {

namespace {

/// Share of named neighbours in common: 1 = the very same set.
double likeness(const std::set<std::string>& a, const std::vector<std::string>& b) {
    if (a.empty() && b.empty()) return 1;
    std::size_t common = 0;
    const std::set<std::string> other(b.begin(), b.end());
    for (const std::string& n : a) common += other.count(n);
    return static_cast<double>(common) / static_cast<double>(a.size() + other.size() - common);
}

struct Piece {
    std::size_t face = 0;
    int formPiece = 0;
    Vec3 centre = Vec3::Zero(); ///< at scale 1
    const std::set<std::string>* neighbours = nullptr;
    int number = 0;
};

/// n of "name#n"; 0 where the name does not end so.
int numberIn(const std::string& name) {
    const auto hash = name.rfind('#');
    if (hash == std::string::npos || hash + 1 == name.size() || name.size() - hash > 7) return 0;
    if (name.find_first_not_of("0123456789", hash + 1) != std::string::npos) return 0;
    return std::atoi(name.c_str() + hash + 1);
}

/// The best pair first: likeness, then distance; each piece and each key once.
void matchKeys(std::vector<Piece>& pieces, const std::vector<const PieceKey*>& keys) {
    struct Match {
        double likeness, distance;
        std::size_t piece, key;
    };
    std::vector<Match> matches;
    for (std::size_t p = 0; p < pieces.size(); ++p)
        for (std::size_t k = 0; k < keys.size(); ++k)
            matches.push_back({likeness(*pieces[p].neighbours, keys[k]->neighbours),
                               (Vec3(keys[k]->x, keys[k]->y, keys[k]->z) - pieces[p].centre).norm(), p, k});
    std::stable_sort(matches.begin(), matches.end(), [](const Match& a, const Match& b) {
        return a.likeness != b.likeness ? a.likeness > b.likeness : a.distance < b.distance;
    });
    std::vector<bool> taken(keys.size(), false);
    for (const Match& m : matches) {
        const int number = numberIn(keys[m.key]->name);
        if (taken[m.key] || pieces[m.piece].number != 0 || number <= 0) continue;
        taken[m.key] = true;
        pieces[m.piece].number = number;
    }
}

void numberFreely(std::vector<Piece>& pieces) {
    std::set<int> used;
    for (const Piece& p : pieces) used.insert(p.number);
    int next = 1;
    for (Piece& p : pieces) {
        if (p.number != 0) continue;
        while (used.contains(next)) ++next;
        p.number = next++;
    }
}

} // namespace

std::vector<std::size_t> alongBody(const std::vector<Vec3>& centres) {
    double extent = 0;
    for (const Vec3& c : centres) extent = std::max(extent, c.cwiseAbs().maxCoeff());
    std::vector<std::size_t> order(centres.size());
    std::vector<std::array<int, 3>> place(centres.size());
    for (int axis = 0; axis < 3; ++axis) {
        std::iota(order.begin(), order.end(), 0U);
        std::sort(order.begin(), order.end(),
                  [&](std::size_t a, std::size_t b) { return centres[a][axis] < centres[b][axis]; });
        int step = 0;
        for (std::size_t i = 0; i < order.size(); ++i) {
            if (i > 0 && centres[order[i]][axis] - centres[order[i - 1]][axis] > 1e-7 * extent) ++step;
            place[order[i]][static_cast<std::size_t>(axis)] = step;
        }
    }
    std::iota(order.begin(), order.end(), 0U);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return place[a] < place[b]; });
    return order;
}

FaceOrigin originOf(const std::string& form, const std::string& side) {
    const int piece = numberIn(side);
    return {form, form + "/" + (piece > 0 ? side.substr(0, side.rfind('#')) : side), piece};
}

Vec3 faceCentroid(const Skin& skin, const SkinFace& face) {
    const auto at = [&](int i) { return skin.vertices[static_cast<std::size_t>(i)]; };
    const Vec3 origin = at(face.loops.front().front());
    Vec3 first = Vec3::Zero();
    double area = 0;
    for (const auto& loop : face.loops)
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const Vec3 a = at(loop[i]) - origin, b = at(loop[(i + 1) % loop.size()]) - origin;
            const double twice = face.plane.normal.dot(a.cross(b));
            area += twice / 2;
            first += twice / 6 * (a + b);
        }
    return area > 0 ? Vec3(origin + first / area) : origin;
}

std::vector<PieceKey> namePieces(Skin& skin, const std::vector<FaceOrigin>& origins,
                                 const std::vector<PieceKey>& keys, double scale) {
    std::vector<std::set<std::string>> neighbours(skin.faces.size());
    for (const SkinEdge& e : skin.edges) {
        const auto l = static_cast<std::size_t>(e.left), r = static_cast<std::size_t>(e.right);
        neighbours[l].insert(origins[r].base);
        neighbours[r].insert(origins[l].base);
    }
    std::map<std::string, std::vector<Piece>> bySide;
    for (std::size_t f = 0; f < skin.faces.size(); ++f)
        bySide[origins[f].base].push_back(
            {f, origins[f].piece, faceCentroid(skin, skin.faces[f]) / scale, &neighbours[f], 0});
    std::vector<PieceKey> named;
    for (auto& [base, pieces] : bySide) {
        if (pieces.size() == 1) {
            skin.faces[pieces.front().face].name = base;
            continue;
        }
        std::vector<Vec3> centres;
        for (const Piece& p : pieces) centres.push_back(p.centre);
        std::vector<Piece> along;
        for (const std::size_t i : alongBody(centres)) along.push_back(pieces[i]);
        std::stable_sort(along.begin(), along.end(),
                         [](const Piece& a, const Piece& b) { return a.formPiece < b.formPiece; });
        pieces = std::move(along);
        std::vector<const PieceKey*> own;
        for (const PieceKey& k : keys)
            if (k.name.rfind(base + "#", 0) == 0) own.push_back(&k);
        matchKeys(pieces, own);
        numberFreely(pieces);
        std::stable_sort(pieces.begin(), pieces.end(),
                         [](const Piece& a, const Piece& b) { return a.number < b.number; });
        for (const Piece& p : pieces) {
            skin.faces[p.face].name = base + "#" + std::to_string(p.number);
            PieceKey key;
            key.name = skin.faces[p.face].name;
            key.neighbours.assign(p.neighbours->begin(), p.neighbours->end());
            key.x = p.centre.x();
            key.y = p.centre.y();
            key.z = p.centre.z();
            named.push_back(std::move(key));
        }
    }
    return named;
}

} // namespace slab
