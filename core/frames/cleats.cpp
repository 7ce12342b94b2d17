#include "core/frames/cleats.h"
#include "core/frames/cleat_parts.h"
#include "core/frames/cleat_tees.h"
#include <algorithm>
#include <cmath>
#include <map>

namespace slab {

namespace {

using namespace cleats;

/// Does the rule name two plates that meet, and with its first pattern the second?
struct Naming {
    bool named = false, swapped = false;
};
Naming namingOf(const CleatChoice& rule, const std::string& a, const std::string& b) {
    if (matches(rule.a, a) && matches(rule.b, b)) return {true, false};
    return {matches(rule.a, b) && matches(rule.b, a), true};
}

double total(const std::vector<Stretch>& all) {
    double sum = 0;
    for (const Stretch& s : all) sum += s.length();
    return sum;
}

/// What became of the joints that one rule names.
struct Outcome {
    int corners = 0, served = 0; ///< with an inside corner; of these had by an earlier rule
    std::vector<std::string> full,
        skewed;         ///< joints ("a|b") without room; whose corner the bar does not suit
    std::string remedy; ///< of the latter
};

class CleatMaker {
public:
    CleatMaker(const PlateSet& plates, const CleatRoom& room, const UnitStyle& units)
        : m_plates(plates), m_room(room), m_units(units), m_writer(plates), m_had(plates.joints.size(), 0),
          m_tees(teesOf(plates)), m_hadTee(m_tees.size(), 0) {
        for (const Plate& plate : plates.plates) block(plate);
    }

    void follow(const CleatChoice& rule) {
        Outcome outcome;
        for (std::size_t i = 0; i < m_plates.joints.size(); ++i) {
            const JointInfo& joint = m_plates.joints[i];
            const Naming naming = namingOf(rule, joint.a, joint.b);
            if (!naming.named) continue;
            if (auto seat = seatOf(joint, m_plates, naming.swapped)) {
                ++outcome.corners;
                if (m_had[i]) ++outcome.served;
                if (!m_had[i]) fill(rule, *seat, outcome);
                m_had[i] = 1;
            }
        }
        followTees(rule, outcome);
        tellOutcome(rule, outcome);
    }
    CleatSet finish() {
        CleatSet set = m_writer.take();
        set.findings = std::move(m_findings);
        return set;
    }

private:
    /// What stands on a plate has a corner on either side. A rule for everything is for the shell's joints.
    void followTees(const CleatChoice& rule, Outcome& outcome) {
        if (rule.a == "*" && rule.b == "*") return;
        for (std::size_t i = 0; i < m_tees.size(); ++i) {
            const Naming naming = namingOf(rule, m_tees[i].host->name, m_tees[i].standing->name);
            if (!naming.named) continue;
            std::vector<Seat> seats = seatsOf(m_tees[i], naming.swapped);
            if (seats.empty()) continue;
            ++outcome.corners;
            if (m_hadTee[i]) {
                ++outcome.served;
                continue;
            }
            m_hadTee[i] = 1;
            Outcome sides;
            for (Seat& seat : seats) fill(rule, seat, sides);
            if (sides.full.size() + sides.skewed.size() < seats.size()) continue; // one side holds
            if (sides.full.empty()) {
                outcome.skewed.push_back(sides.skewed.front());
                outcome.remedy = sides.remedy;
            } else {
                outcome.full.push_back(sides.full.front());
            }
        }
    }
    void block(const Plate& plate) {
        for (const ConvexSolid& cell : plate.cells) m_obstacles.emplace_back(cell);
    }
    void fill(const CleatChoice& rule, Seat& seat, Outcome& outcome) {
        auto section = cleatSection(rule.width, rule.depth, seat.dihedral, !rule.stock.empty());
        const std::string joint = seat.a->name + "|" + seat.b->name;
        if (!section) {
            outcome.remedy = section.error().remedy;
            return outcome.skewed.push_back(joint);
        }
        seat.section = std::move(*section);
        // Beyond an inner step too little of the face may be left to hold.
        if (seat.startA > seat.section.onA / 2 || seat.startB > seat.section.onB / 2) {
            outcome.remedy = "Take a wider bar, or plates of one thickness there.";
            return outcome.skewed.push_back(joint);
        }
        if (lay(rule, seat) == 0) outcome.full.push_back(joint);
    }

    [[nodiscard]] static bool barsAny(const Swept& swept, const std::vector<Stretch>& left,
                                      const ConvexSolid& solid, double room) {
        if (!plates::boxesMeet(swept.box, bounds(solid), room)) return false;
        return std::any_of(left.begin(), left.end(), [&](const Stretch& s) {
            const Nearest n = nearest(swept.seat.stick(s), solid);
            return n.meets || n.distance < room;
        });
    }
    /// Takes what donor, rider and movers need off a seat.
    /// @return those that cost more than 1 mm of it
    std::vector<const FitSolid*> keepClear(const Swept& swept, std::vector<Stretch>& taken) const {
        std::vector<const FitSolid*> near;
        const Seat& seat = swept.seat;
        const bool moves =
            m_room.isCarried && (m_room.isCarried(seat.a->name) || m_room.isCarried(seat.b->name));
        for (const FitSolid& solid : moves ? m_room.carried : m_room.solids) {
            const double room = solid.clearance + solid.bulge;
            const std::vector<Stretch> left = freeIn(swept.range, taken);
            if (!barsAny(swept, left, solid.shape, room)) continue; // or a neighbouring pose has barred it
            const auto s = nearTo(swept, solid.shape, room);
            if (!s) continue;
            taken.push_back(*s);
            const bool told = std::any_of(near.begin(), near.end(),
                                          [&](const FitSolid* n) { return n->name == solid.name; });
            if (!told && total(left) > total(freeIn(swept.range, taken)) + 1) near.push_back(&solid);
        }
        return near;
    }
    /// @return pieces made
    int lay(const CleatChoice& rule, const Seat& seat) {
        const double more = 3 * (seat.a->thickness + seat.b->thickness); // behind a valley faces run on
        const Stretch range{-more, seat.length + more};
        std::vector<Stretch> taken;
        addUncovered(seat, range, false, taken);
        addUncovered(seat, range, true, taken);
        const Swept swept(seat, range);
        for (; m_laid < m_writer.parts().size(); ++m_laid) block(m_writer.parts()[m_laid]);
        for (Obstacle& obstacle : m_obstacles)
            if (const auto s = takenBy(swept, obstacle)) taken.push_back(*s);
        const double before = total(freeIn(range, taken));
        std::vector<const FitSolid*> near = keepClear(swept, taken);
        const std::vector<Stretch> free = freeIn(range, taken);
        int made = 0;
        for (const Stretch& s : free) {
            const Stretch left{s.from + rule.endGap, s.to - rule.endGap};
            if (left.length() < rule.width) continue;
            made += rule.block ? layBlocks(rule, seat, left) : laySticks(rule, seat, left);
        }
        if (!near.empty()) tellGivesWay(rule, seat, near, before - total(free));
        return made;
    }
    int laySticks(const CleatChoice& rule, const Seat& seat, const Stretch& s) {
        int made = 0;
        for (double from = s.from; s.to - from > 1e-6; ++made) {
            const double left = s.to - from;
            double next = left > rule.barLength + 1e-6 ? rule.barLength : left;
            if (left > next && left - next < 4 * rule.width) next = left / 2; // no short end piece
            m_writer.add(rule, seat, {from, from + next}, 0);
            from += next;
        }
        return made;
    }
    int layBlocks(const CleatChoice& rule, const Seat& seat, const Stretch& s) {
        const double span = s.length() - rule.length;
        if (span < 0) return 0;
        const double wanted = std::ceil(span / rule.spacing - 1e-9),
                     most = std::floor(span / rule.length + 1e-9);
        const int count = 1 + static_cast<int>(std::min(wanted, most));
        const double pitch = count > 1 ? span / (count - 1) : 0;
        for (int i = 0; i < count; ++i) {
            const double from = count > 1 ? s.from + i * pitch : s.from + span / 2;
            m_writer.add(rule, seat, {from, from + rule.length}, pitch);
        }
        return count;
    }

    void tell(Severity severity, const std::string& code, const CleatChoice& rule, const std::string& message,
              const std::string& remedy) {
        m_findings.push_back({severity,
                              code,
                              "Cleat rule " + rule.name + ": " + message + ".",
                              {"cleat:" + rule.name, "document:/cleats/" + std::to_string(rule.index)},
                              remedy,
                              {}});
    }
    void tellJoints(Severity severity, const std::string& code, const CleatChoice& rule,
                    const std::vector<std::string>& joints,
                    const std::pair<std::string, std::string>& words) {
        std::string first = joints.front();
        first.replace(first.find('|'), 1, " and ");
        const std::string more =
            joints.size() > 1 ? ", and " + std::to_string(joints.size() - 1) + " more" : std::string();
        tell(severity, code, rule, words.first + " between " + first + more, words.second);
        for (const std::string& joint : joints) m_findings.back().about.push_back("edge:" + joint);
    }
    void tellOutcome(const CleatChoice& rule, const Outcome& o) {
        if (o.corners == 0)
            return tell(Severity::look, "cleat-misses", rule,
                        "no joint that it names has an inside corner below 180°, and nothing that it names "
                        "stands within " +
                            printFine(cleats::glueGap, m_units) + " of another plate",
                        "Correct the names of the two plates, or see that they meet: a frame's gap may be " +
                            printFine(cleats::glueGap, m_units) + " at most, and a joint must not be open.");
        if (o.served == o.corners)
            return tell(Severity::look, "cleat-twice", rule,
                        "earlier rules have all the joints that it names",
                        "Move it up in the list, or take it out.");
        if (!o.skewed.empty())
            tellJoints(Severity::look, "cleat-corner", rule, o.skewed,
                       {"its bar does not suit the corner", o.remedy});
        if (!o.full.empty())
            tellJoints(Severity::note, "cleat-no-room", rule, o.full,
                       {"nothing of it finds room",
                        "Where that matters, use a smaller bar, a smaller end gap or shorter blocks."});
    }
    void tellGivesWay(const CleatChoice& rule, const Seat& seat, const std::vector<const FitSolid*>& near,
                      double lost) {
        std::string names;
        for (const FitSolid* solid : near) names += (names.empty() ? "" : ", ") + solid->name;
        tell(Severity::note, "cleat-in-the-way", rule,
             "between " + seat.a->name + " and " + seat.b->name + " it leaves out " +
                 printLength(lost, m_units) + " to keep clear of " + names,
             "See that the rest of the joint holds; a smaller bar or blocks there may find room.");
        auto& about = m_findings.back().about;
        for (const FitSolid* solid : near) about.push_back("solid:" + solid->name);
        about.push_back("edge:" + seat.a->name + "|" + seat.b->name);
    }

    const PlateSet& m_plates;
    const CleatRoom& m_room;
    UnitStyle m_units;
    PieceWriter m_writer;
    std::vector<Obstacle> m_obstacles;
    std::size_t m_laid = 0;  ///< pieces that are among them
    std::vector<char> m_had; ///< by joint: a rule has it
    std::vector<Tee> m_tees;
    std::vector<char> m_hadTee;
    std::vector<Finding> m_findings;
};

} // namespace

CleatSet makeCleats(const std::vector<CleatChoice>& rules, const PlateSet& plates, const CleatRoom& room,
                    const UnitStyle& units) {
    CleatMaker maker(plates, room, units);
    for (const CleatChoice& rule : rules) maker.follow(rule);
    return maker.finish();
}

PlateSet withCleats(const PlateSet& plates, const CleatSet& cleats) {
    PlateSet all = plates;
    std::map<std::string, std::size_t> byName;
    for (std::size_t i = 0; i < all.plates.size(); ++i) byName.emplace(all.plates[i].name, i);
    for (const Contact& mark : cleats.marks) all.plates.own(byName.at(mark.on)).contacts.push_back(mark);
    all.plates.append(cleats.parts);
    return all;
}

} // namespace slab
