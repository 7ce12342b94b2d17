#include "core/mechanisms/sweep_changes.h"
#include "core/geometry/polygon.h"
#include <algorithm>
#include <cmath>

namespace slab::mechanisms {

namespace {

using Role = PartRole::Kind;

constexpr double leastTube = 20, leastDrum = 20; ///< mm left
constexpr double onDeck = 0.5;                   ///< mm that a ring may hang over

bool turnsUpright(const Move& m) {
    return !m.slides && std::abs(m.axis.z()) > 0.7;
}

std::vector<std::size_t> carriedBy(const SweepField& field, const std::string& carrier) {
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < field.things.size(); ++i)
        if (field.things[i].kind != Thing::Kind::donor && field.carrierOf(field.things[i]) == carrier)
            out.push_back(i);
    return out;
}

bool isDrum(const Thing& t, const std::string& carrier) {
    return t.mechanism == carrier && (t.role.kind == Role::drum || t.role.kind == Role::drumEnd);
}

void shiftBy(Thing& t, const Vec3& by) {
    for (ConvexSolid& s : t.pieces) s = translated(std::move(s), by);
}

double lowest(const Thing& t) {
    double low = 1e300;
    for (const ConvexSolid& s : t.pieces) low = std::min(low, bounds(s).min.z());
    return low;
}

/// Its rings stay on the deck: every corner over the hull of the deck, as far as it is now.
bool staysOnDeck(const SweepField& field, const std::string& carrier, const Vec3& by) {
    const Move* turn = uprightTurn(field, carrier);
    if (!turn || std::abs(by.normalized().dot(turn->axis)) > 0.7) return true; // its deck goes with it
    const Vec3 u = turn->axis.unitOrthogonal(), v = turn->axis.cross(u);
    const auto seen = [&](const Vec3& p) { return Vec2(u.dot(p), v.dot(p)); };
    for (const Thing& deck : field.things) {
        if (deck.kind != Thing::Kind::plate || !openedFor(field, deck, carrier)) continue;
        std::vector<Vec2> corners;
        for (const ConvexSolid& s : deck.pieces)
            for (const Vec3& p : s.points) corners.push_back(seen(p));
        const Ring hull = convexHull(std::move(corners));
        if (hull.size() < 3) continue;
        for (const Thing& ring : field.things) {
            if (ring.kind != Thing::Kind::part || ring.mechanism != carrier || ring.motion >= 0) continue;
            for (const ConvexSolid& s : ring.pieces)
                for (const Vec3& p : s.points)
                    if (contains(hull, seen(p), onDeck) && !contains(hull, seen(p + by), onDeck))
                        return false;
        }
    }
    return true;
}

/// Where a turntable goes up or down its deck does so too, with the form that it belongs to and what stands
/// on that. @return false if there is no deck: then it would hang in the air
bool takeDeckAlong(Changed& out, const std::string& carrier) {
    const std::vector<Thing>& things = out.field.things;
    std::vector<std::size_t> decks;
    for (std::size_t i = 0; i < things.size(); ++i)
        if (std::any_of(things.begin(), things.end(), [&](const Thing& deck) {
                return openedFor(out.field, deck, carrier) && things[i].kind == Thing::Kind::plate &&
                       things[i].form == deck.form;
            }))
            decks.push_back(i);
    if (decks.empty()) return false;
    constexpr double resting = 0.5; // mm
    const auto rests = [&](const Thing& t) {
        return std::any_of(decks.begin(), decks.end(), [&](std::size_t d) {
            return std::any_of(t.pieces.begin(), t.pieces.end(), [&](const ConvexSolid& a) {
                const Box3 box = bounds(a);
                return std::any_of(
                    things[d].pieces.begin(), things[d].pieces.end(), [&](const ConvexSolid& b) {
                        const Box3 other = bounds(b);
                        if ((other.min - box.max).cwiseMax(box.min - other.max).maxCoeff() > resting)
                            return false;
                        return nearest(a, b).distance <= resting;
                    });
            });
        });
    };
    for (std::size_t i = 0; i < things.size(); ++i)
        if (things[i].kind == Thing::Kind::plate && out.field.carrierOf(things[i]) != carrier &&
            rests(things[i]))
            out.things[i] = 1;
    for (const std::size_t d : decks) out.things[d] = 1;
    return true;
}

bool shift(Changed& out, const std::string& carrier, const Change& c, double x) {
    SweepField& field = out.field;
    const std::vector<std::size_t> own = carriedBy(field, carrier);
    if (!staysOnDeck(field, carrier, x * c.way)) return false;
    if (const Move* turn = uprightTurn(field, carrier); turn && std::abs(c.way.dot(turn->axis)) > 0.7)
        if (!takeDeckAlong(out, carrier)) return false;
    std::vector<Move> moved;
    for (const Motion& m : field.motions)
        if (m.mechanism == carrier && m.moves.size() == 1) moved = m.moves;
    for (const std::size_t i : own) {
        Thing& t = field.things[i];
        const bool mirrored = c.kind == Change::Kind::aside && t.role.starboard;
        const Vec3 by = x * (mirrored ? Vec3(c.way.x(), -c.way.y(), c.way.z()) : c.way);
        shiftBy(t, by);
        out.things[i] = 1;
        if (c.way.z() < 0 && lowest(t) < 0) return false;
        if (c.kind != Change::Kind::aside) continue;
        for (const ConvexSolid& s : t.pieces) // each half on its own side
            if ((mirrored ? -bounds(s).max.y() : bounds(s).min.y()) < 0) return false;
    }
    for (Motion& m : field.motions)
        if (!moved.empty() && !m.moves.empty() && m.moves.back() == moved.back())
            for (Move& move : m.moves) move.at += x * c.way;
    for (std::size_t i = 0; i < field.things.size(); ++i)
        if (openedFor(field, field.things[i], carrier)) out.things[i] = 1;
    out.asOne = c.kind == Change::Kind::shift;
    return true;
}

/// Cheeks grow from their feet.
void raise(Changed& out, const TrunnionThings& t, double x) {
    SweepField& field = out.field;
    const Vec3 by(0, 0, x);
    for (std::size_t i = 0; i < field.things.size(); ++i) {
        Thing& thing = field.things[i];
        if (i == t.tube) {
            shiftBy(thing, by);
        } else if (thing.role.kind == Role::cheek && thing.form == t.name) {
            for (ConvexSolid& s : thing.pieces) {
                const std::vector<Vec3> old = s.points;
                for (const Vec3& p : old) s.points.push_back(p + by);
            }
        } else {
            continue;
        }
        out.things[i] = 1;
    }
    field.motions[static_cast<std::size_t>(t.motion)].moves.front().at += by;
}

/// What a turntable carries, without its own parts and the trunnions on it.
bool standHigher(Changed& out, const std::string& carrier, double x) {
    bool any = false;
    for (std::size_t i = 0; i < out.field.things.size(); ++i) {
        Thing& t = out.field.things[i];
        if (t.kind != Thing::Kind::plate || t.motion < 0 || out.field.carrierOf(t) != carrier) continue;
        shiftBy(t, Vec3(0, 0, x));
        out.things[i] = 1;
        any = true;
    }
    return any;
}

bool shorten(Changed& out, const TrunnionThings& t, bool front, double x) {
    Thing& tube = out.field.things[t.tube];
    const Vec3 pivot = out.field.motions[static_cast<std::size_t>(t.motion)].moves.front().at;
    std::vector<Vec3>& ends = tube.pieces.front().points; // rear, front
    Vec3& end = ends[front ? 1 : 0];
    const double length = (end - pivot).norm();
    if (length - x < leastTube) return false;
    end -= x / length * (end - pivot);
    out.things[t.tube] = 2;
    return true;
}

bool flatten(Changed& out, const std::string& carrier, double x) {
    const Move* turn = uprightTurn(out.field, carrier);
    if (!turn) return false;
    double low = 1e300, high = -1e300;
    const auto height = [&](const Vec3& p) { return turn->axis.dot(p - turn->at); };
    for (const Thing& t : out.field.things)
        if (isDrum(t, carrier))
            for (const ConvexSolid& s : t.pieces)
                for (const Vec3& p : s.points) {
                    low = std::min(low, height(p));
                    high = std::max(high, height(p));
                }
    if (high - low - x < leastDrum) return false;
    for (std::size_t i = 0; i < out.field.things.size(); ++i) {
        Thing& t = out.field.things[i];
        if (!isDrum(t, carrier)) continue;
        const bool whole = t.role.kind == Role::drumEnd;
        out.things[i] = whole ? 1 : 2;
        for (ConvexSolid& s : t.pieces) {
            double top = -1e300;
            for (const Vec3& p : s.points) top = std::max(top, height(p));
            for (Vec3& p : s.points)
                if (whole || top < low + x)
                    p += x * turn->axis;
                else
                    p += std::max(0.0, low + x - height(p)) * turn->axis;
        }
    }
    return true;
}

bool hangs(const SweepField& field, const std::string& carrier) {
    const Move* turn = uprightTurn(field, carrier);
    if (!turn) return false;
    return std::any_of(field.things.begin(), field.things.end(), [&](const Thing& t) {
        return isDrum(t, carrier) && std::any_of(t.pieces.begin(), t.pieces.end(), [&](const ConvexSolid& s) {
                   return std::any_of(s.points.begin(), s.points.end(),
                                      [&](const Vec3& p) { return turn->axis.dot(p - turn->at) < 0; });
               });
    });
}

} // namespace

const Move* uprightTurn(const SweepField& field, const std::string& carrier) {
    for (const Motion& m : field.motions)
        if (m.mechanism == carrier && m.moves.size() == 1 && turnsUpright(m.moves.front()))
            return &m.moves.front();
    return nullptr;
}

std::vector<TrunnionThings> trunnionsOn(const SweepField& field, const std::string& carrier) {
    std::vector<TrunnionThings> out;
    for (std::size_t i = 0; i < field.things.size(); ++i) {
        const Thing& t = field.things[i];
        if (t.role.kind == Role::tube && t.motion >= 0 && field.carrierOf(t) == carrier)
            out.push_back({t.mechanism, i, t.motion});
    }
    return out;
}

bool openedFor(const SweepField& field, const Thing& plate, const std::string& carrier) {
    if (plate.kind != Thing::Kind::plate) return false;
    return std::any_of(field.opened.begin(), field.opened.end(), [&](const auto& o) {
        if (o.first != plate.name) return false;
        if (o.second == carrier) return true;
        const auto trunnions = trunnionsOn(field, carrier); // few plates come so far
        return std::any_of(trunnions.begin(), trunnions.end(),
                           [&](const TrunnionThings& t) { return t.name == o.second; });
    });
}

std::vector<Change> changesOf(const SweepField& field, const std::string& carrier) {
    std::vector<Change> out;
    using Kind = Change::Kind;
    for (const TrunnionThings& t : trunnionsOn(field, carrier)) {
        out.push_back({Kind::pivot, t.name});
        out.push_back({Kind::front, t.name});
        out.push_back({Kind::rear, t.name});
    }
    if (hangs(field, carrier)) out.push_back({Kind::depth, carrier});
    if (uprightTurn(field, carrier)) out.push_back({Kind::stand, carrier});
    for (const Vec3& way : {Vec3(1, 0, 0), Vec3(-1, 0, 0), Vec3(0, 0, 1), Vec3(0, 0, -1)})
        out.push_back({Kind::shift, carrier, way});
    const Move* turn = uprightTurn(field, carrier); // off the middle to one side its load would be so too
    const bool middle = turn && std::abs(turn->at.y()) < 1;
    const bool mirrored = std::any_of(field.things.begin(), field.things.end(), [&](const Thing& t) {
        return t.mechanism == carrier && t.role.kind == Role::strip && t.role.starboard;
    });
    if (!middle)
        for (const double y : {1.0, -1.0})
            out.push_back({mirrored ? Kind::aside : Kind::shift, carrier, {0, y, 0}});
    return out;
}

std::optional<Changed> changed(const SweepField& field, const std::string& carrier, const Change& change,
                               double x) {
    Changed out{field, std::vector<char>(field.things.size(), 0), false};
    switch (change.kind) {
    case Change::Kind::shift:
    case Change::Kind::aside:
        if (!shift(out, carrier, change, x)) return {};
        return out;
    case Change::Kind::stand:
        if (!standHigher(out, carrier, x)) return {};
        return out;
    case Change::Kind::depth:
        if (!flatten(out, carrier, x)) return {};
        return out;
    default:
        break;
    }
    for (const TrunnionThings& t : trunnionsOn(field, carrier)) {
        if (t.name != change.mechanism) continue;
        if (change.kind == Change::Kind::pivot) {
            raise(out, t, x);
            return out;
        }
        if (shorten(out, t, change.kind == Change::Kind::front, x)) return out;
    }
    return {};
}

Changed withRange(const SweepField& field, const Move& move, double from, double to) {
    Changed out{field, std::vector<char>(field.things.size(), 0), false};
    std::vector<char> touched(field.motions.size(), 0);
    for (std::size_t i = 0; i < out.field.motions.size(); ++i)
        for (Move& m : out.field.motions[i].moves)
            if (m == move) {
                m.endless = false;
                m.from = from;
                m.to = to;
                touched[i] = 1;
            }
    for (std::size_t i = 0; i < field.things.size(); ++i)
        if (const int m = field.things[i].motion; m >= 0)
            out.things[i] = touched[static_cast<std::size_t>(m)] ? 2 : 0;
    return out;
}

} // namespace slab::mechanisms
