#include "core/frames/lap_words.h"
#include "core/frames/way_words.h"
#include <algorithm>

namespace slab::frames {

namespace {

Box2 boxOf(const Piece& piece) {
    Box2 box = bounds(piece.regions.front().outer);
    for (const Polygon& p : piece.regions) box = united(box, bounds(p.outer));
    return box;
}

std::string listed(const std::vector<std::string>& names) {
    std::string words;
    for (std::size_t i = 0; i < names.size(); ++i)
        words += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
    return words;
}

class Namer {
public:
    Namer(const std::vector<Piece>& pieces, const std::vector<std::string>& names, const UnitStyle& units)
        : m_pieces(pieces), m_names(names), m_units(units) {}
    [[nodiscard]] std::string operator()(std::size_t piece) const {
        if (piece < m_names.size() && !m_names[piece].empty()) return shortBoard(m_names[piece]);
        const Piece& own = m_pieces[piece];
        const auto alike = std::count_if(m_pieces.begin(), m_pieces.end(), [&](const Piece& p) {
            return p.choice == own.choice && !p.regions.empty();
        });
        if (alike < 2) return own.choice->name;
        const Box2 box = boxOf(own);
        const Vec3 at = own.choice->place.toBody(Vec2((box.min + box.max) / 2));
        return "the piece of " + own.choice->name + " round x " + printLength(at.x(), m_units) + ", y " +
               printLength(at.y(), m_units) + ", z " + printLength(at.z(), m_units) + " (" +
               printLength(box.size().x(), m_units) + " × " + printLength(box.size().y(), m_units) + ")";
    }

private:
    const std::vector<Piece>& m_pieces;
    const std::vector<std::string>& m_names;
    const UnitStyle& m_units;
};

} // namespace

void tellLocked(const std::vector<Piece>& pieces, const Locked& locked, const UnitStyle& units,
                std::vector<Finding>& findings, const std::vector<std::string>& names) {
    const Namer name(pieces, names, units);
    const FrameChoice& c = *pieces[locked.piece].choice;
    std::vector<std::string> others, all, about{"frame:" + c.name};
    for (const std::size_t i : locked.with) {
        others.push_back(name(i));
        const std::string other = "frame:" + pieces[i].choice->name;
        if (std::find(about.begin(), about.end(), other) == about.end()) about.push_back(other);
    }
    about.push_back("document:/frames/" + std::to_string(c.index));
    const std::string own = name(locked.piece);
    all = others;
    all.push_back(own);
    Finding f{Severity::stop, "frame-order", {}, std::move(about), {}, {}};
    if (locked.ring) {
        f.message =
            "Frame " + c.name + ": " + listed(all) +
            " go together in no order: each would have to go in after another of them, which bars its "
            "way.";
        f.remedy =
            "Move one of " + listed(all) +
            " so that it crosses fewer of the others, or make one in two pieces that meet at a crossing.";
    } else {
        f.message = "Frame " + c.name + ": " + listed(all) +
                    " go together in no order: whichever goes in last would have to slide onto the others in "
                    "different directions at once.";
        f.remedy = "Turn " + own + " so that its laps are parallel, let it end before " +
                   (others.empty()       ? "the others"
                    : others.size() == 1 ? others[0]
                                         : "one of the others") +
                   ", or make it in two pieces.";
    }
    f.message += own == c.name ? " It is left out." : " Left out is " + own + ".";
    const Box2 box = boxOf(pieces[locked.piece]);
    const Vec3 at = c.place.toBody(Vec2((box.min + box.max) / 2));
    f.at = std::array<double, 3>{at.x(), at.y(), at.z()};
    findings.push_back(std::move(f));
}

} // namespace slab::frames
