#include "core/frames/put_together.h"
#include "core/frames/lap_words.h"
#include <algorithm>

namespace slab::frames {

namespace {

constexpr double touching = 1e-6; ///< mm
constexpr double beside = 0.5;    ///< mm behind the end of a slot, where its board is

bool holds(const std::vector<Polygon>& regions, const Vec2& p) {
    return std::any_of(regions.begin(), regions.end(), [&](const Polygon& r) { return contains(r, p); });
}

std::string boardAt(const std::vector<std::vector<MadeBoard>>& made, const std::string& frame,
                    const Vec3& at) {
    for (const auto& boards : made)
        for (const MadeBoard& board : boards)
            if (board.piece.choice->name == frame &&
                holds(board.piece.regions, board.piece.choice->place.toPlane(at)))
                return board.name;
    return {};
}

/// Takes the unit out that a board was cut from.
void takeOut(const Piece& piece, std::vector<Board>& uncut) {
    for (Board& board : uncut) {
        if (board.choice != piece.choice) continue;
        for (Unit& unit : board.units)
            if (!intersect(unit.regions, piece.regions).empty()) {
                unit = {};
                ++board.leftOut;
            }
    }
}

} // namespace

std::vector<std::string> boardNames(const std::vector<Piece>& pieces,
                                    const std::vector<std::vector<MadeBoard>>& made) {
    std::vector<std::string> names;
    for (const Piece& piece : pieces) {
        double most = 0;
        names.emplace_back();
        for (const auto& boards : made)
            for (const MadeBoard& board : boards) {
                if (board.piece.choice != piece.choice) continue;
                double common = 0;
                for (const Polygon& p : intersect(piece.regions, board.piece.regions)) common += area(p);
                if (common <= most) continue;
                most = common;
                names.back() = board.name;
            }
    }
    return names;
}

std::optional<Held> putTogether(const std::vector<std::vector<MadeBoard>>& made, FrameSet& slots,
                                std::vector<Board>& uncut) {
    std::vector<Piece> pieces;
    std::vector<std::string> names;
    for (const auto& boards : made)
        for (const MadeBoard& board : boards)
            if (board.plate) {
                pieces.push_back(board.piece);
                names.push_back(board.name);
            }
    const Assembly assembly = assemblyOf(pieces);
    if (!assembly.locked.empty()) {
        const Locked locked = lockedIn(pieces, assembly.locked);
        takeOut(pieces[locked.piece], uncut);
        return Held{std::move(pieces), locked};
    }
    for (FrameCrossing& c : slots.crossings) {
        c.boardA = boardAt(made, c.a, c.at - (c.apart / 2 + beside) * c.along);
        c.boardB = boardAt(made, c.b, c.at + (c.apart / 2 + beside) * c.along);
    }
    for (const Way& way : assembly.order) {
        FrameStep step{names[way.piece], pieces[way.piece].choice->name, way.from, {}};
        for (const FrameCrossing& c : slots.crossings)
            for (const auto& [own, other] : {std::pair{c.boardA, c.boardB}, std::pair{c.boardB, c.boardA}})
                if (own == step.board && c.apart < touching &&
                    std::any_of(slots.order.begin(), slots.order.end(),
                                [&](const FrameStep& s) { return s.board == other; }) &&
                    std::find(step.onto.begin(), step.onto.end(), other) == step.onto.end())
                    step.onto.push_back(other);
        slots.order.push_back(std::move(step));
    }
    return {};
}

} // namespace slab::frames
