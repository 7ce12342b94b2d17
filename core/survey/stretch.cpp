#include "core/survey/stretch.h"
#include "core/formula/formula.h"
#include "core/plates/openings.h"
#include "core/plates/outline.h"
#include <array>
#include <cmath>

namespace slab {

namespace {

constexpr double square = 1e-9; ///< cosine; two directions that differ less are at right angles

/// Turns as the document has them: roll about x, then pitch about y, then yaw about z.
struct Turns {
    double roll = 0, pitch = 0, yaw = 0;
    [[nodiscard]] Mat3 matrix() const {
        return (Eigen::AngleAxisd(yaw, Vec3::UnitZ()) * Eigen::AngleAxisd(pitch, Vec3::UnitY()) *
                Eigen::AngleAxisd(roll, Vec3::UnitX()))
            .toRotationMatrix();
    }
    static Turns of(const Mat3& m) {
        const double level = std::hypot(m(0, 0), m(1, 0));
        if (level < 1e-12) return {std::atan2(-m(1, 2), m(1, 1)), std::atan2(-m(2, 0), level), 0};
        return {std::atan2(m(2, 1), m(2, 2)), std::atan2(-m(2, 0), level), std::atan2(m(1, 0), m(0, 0))};
    }
};

Text angleText(double radians) {
    return std::abs(radians) < 1e-11 ? Text{} : printExact(radians, Unit::deg);
}

/// Turns one direction into another about what is at right angles to both. Stretching turns by less than half
/// a turn.
Mat3 shortestTurn(const Vec3& from, const Vec3& to) {
    const Vec3 axis = from.cross(to);
    const double across = axis.norm();
    if (across < 1e-15 * to.norm()) return Mat3::Identity();
    return Eigen::AngleAxisd(std::atan2(across, from.dot(to)), axis / across).toRotationMatrix();
}

class Stretching {
public:
    Stretching(const Project& project, const Evaluation& made, const Vec3& by)
        : m_made(made), m_by(by), m_out(project) {
        for (const Dimension& d : project.dimensions)
            if (d.space == Space::build) m_built.push_back(d.name);
    }

    Expected<Project> all() {
        for (Form& f : m_out.forms)
            if (auto done = form(f); !done) return tl::make_unexpected(done.error());
        for (Opening& o : m_out.openings) opening(o);
        for (PieceKey& p : m_out.pieces) p.x *= m_by.x(), p.y *= m_by.y(), p.z *= m_by.z();
        for (Seam& s : m_out.seams) scale(s.at, alongPanel(s.plate));
        for (Rib& r : m_out.frames) scale(r.station, m_by[r.axis == "y" ? 1 : r.axis == "z" ? 2 : 0]);
        for (Turntable& t : m_out.mechanisms.turntables) place(t.at);
        for (Trunnion& t : m_out.mechanisms.trunnions) {
            place(t.at);
            scale(t.front, m_by.x());
            scale(t.rear, m_by.x());
        }
        for (Belt& b : m_out.mechanisms.belts) {
            place(b.at);
            scale(b.width, m_by.y());
            for (BeltWheel& w : b.wheels) scale(w.x, m_by.x()), scale(w.z, m_by.z());
        }
        return std::move(m_out);
    }

private:
    void scale(Text& text, double by) const { text = multiplied(text, by, m_built); }
    void place(Placement& at) {
        scale(at.x, m_by.x());
        scale(at.y, m_by.y());
        scale(at.z, m_by.z());
    }
    [[nodiscard]] double angle(const Text& text) const {
        if (text.empty()) return 0;
        const auto value = evaluate(text, *m_made.scope, Space::subject, Kind::angle);
        return value ? value->value : 0;
    }

    /// Factors along a form's own axes; turns it as the stretch does.
    Expected<Vec3> ownFactors(Form& f) {
        const Turns turns{angle(f.at.roll), angle(f.at.pitch), angle(f.at.yaw)};
        const Mat3 own = turns.matrix(), all = m_by.asDiagonal() * own;
        const Vec3 factors = all.colwise().norm();
        const bool flat = std::holds_alternative<PlateShape>(f.shape);
        Mat3 turned;
        if (std::holds_alternative<RoundShape>(f.shape)) { // only its axis counts
            turned = shortestTurn(own.col(2), all.col(2)) * own;
        } else {
            const auto skewed = [&](int a, int b) {
                return std::abs(all.col(a).dot(all.col(b))) > square * factors[a] * factors[b];
            };
            if (skewed(0, 1) || (!flat && (skewed(1, 2) || skewed(0, 2))))
                return fail("stretch-skews", "Form " + f.name + " stands turned, and would become skewed.",
                            f.name, "Set its angles to quarter turns, or stretch it by hand first.");
            const Vec3 u = all.col(0) / factors[0], v = all.col(1) / factors[1];
            turned << u, v, u.cross(v);
        }
        if ((turned - own).norm() > 1e-9) {
            const Turns now = Turns::of(turned);
            f.at.roll = angleText(now.roll);
            f.at.pitch = angleText(now.pitch);
            f.at.yaw = angleText(now.yaw);
        }
        return factors;
    }

    void point(OutlinePoint& p, const Vec3& by) const {
        scale(p.x, by.x());
        scale(p.y, by.y());
        scale(p.z, by.z());
        scale(p.half_width, by.y());
    }
    /// @param across  the outline's second axis: 1 or 2
    void curves(std::vector<Curve>& all, const std::vector<OutlinePoint>& before, const Vec3& by,
                int across) {
        for (Curve& c : all) {
            scale(c.x, by.x());
            scale(c.y, by.y());
            scale(c.z, by.z());
            for (OutlinePoint& p : c.through) point(p, by);
            if (!c.bulge.empty()) scale(c.bulge, bulgeFactor(c, before, by, across));
        }
    }
    /// How far the highest point of an arc goes from its chord: along its normal, seen after the stretch.
    [[nodiscard]] double bulgeFactor(const Curve& c, const std::vector<OutlinePoint>& points, const Vec3& by,
                                     int across) const {
        const Vec2 in(by.x(), by[across]);
        const auto at = [&](const std::string& name) -> std::optional<Vec2> {
            for (const OutlinePoint& p : points)
                if (p.name == name) return Vec2(length(p.x), length(across == 1 ? p.y : p.z));
            return std::nullopt;
        };
        const auto a = at(c.from), b = at(c.to);
        if (!a || !b || (*b - *a).norm() < 1e-9) return std::sqrt(in.x() * in.y());
        const Vec2 chord = (*b - *a).normalized(), normal(-chord.y(), chord.x());
        const Vec2 now = in.cwiseProduct(chord).normalized();
        return std::abs(cross2(now, Vec2(in.cwiseProduct(normal))));
    }
    [[nodiscard]] double length(const Text& text) const {
        if (text.empty()) return 0;
        const auto value = evaluate(text, *m_made.scope, Space::subject, Kind::length);
        return value ? value->value : 0;
    }

    Expected<void> form(Form& f) {
        const auto by = ownFactors(f);
        if (!by) return tl::make_unexpected(by.error());
        place(f.at);
        if (auto* s = std::get_if<ProfileShape>(&f.shape)) {
            curves(s->curves, s->outline, *by, 2);
            for (OutlinePoint& p : s->outline) point(p, *by);
        } else if (auto* t = std::get_if<TaperShape>(&f.shape)) {
            curves(t->curves, t->base, *by, 1);
            for (OutlinePoint& p : t->base) point(p, *by);
            for (OutlinePoint& p : t->top) point(p, *by);
            scale(t->base_z, by->z());
            scale(t->top_z, by->z());
        } else if (auto* p = std::get_if<PlateShape>(&f.shape)) {
            curves(p->curves, p->outline, *by, 1);
            for (OutlinePoint& q : p->outline) point(q, *by);
        } else if (auto* r = std::get_if<RoundShape>(&f.shape)) {
            scale(r->length, by->z());
        } else if (auto* c = std::get_if<FacetShape>(&f.shape)) {
            for (OutlinePoint& q : c->corners) point(q, *by);
        }
        return {};
    }

    /// How much longer the stretch makes what lies along a direction.
    [[nodiscard]] double along(const Vec3& way) const { return m_by.cwiseProduct(way).norm(); }
    [[nodiscard]] const Plate* plateNamed(const std::string& name) const {
        for (const Plate& p : m_made.plates->plates)
            if (p.name == name) return &p;
        return nullptr;
    }
    /// A panel is cut along its longer side.
    [[nodiscard]] double alongPanel(const std::string& name) const {
        const Plate* p = plateNamed(name);
        if (!p || p->boundary.outer.size() < 3) return 1;
        const Vec2 size = bounds(p->boundary.outer).size();
        return along(p->frame.axes.col(size.x() >= size.y() ? 0 : 1));
    }

    void opening(Opening& o) {
        scale(o.x, m_by.x());
        scale(o.y, m_by.y());
        scale(o.z, m_by.z());
        Mat3 axes = Mat3::Identity();
        if (const Plate* host = plateNamed(o.plate))
            axes = host->frame.axes;
        else if (!o.plate.empty())
            return; // nothing to say where it lies
        else if (const auto way = directionOf(o.direction))
            axes = plates::panelFrame(*way, {}).axes;
        scale(o.u, along(axes.col(0)));
        scale(o.v, along(axes.col(1)));
    }
    static std::optional<Vec3> directionOf(const std::string& word) {
        if (word.empty()) return std::nullopt;
        const double sign = word.front() == '-' ? -1 : 1;
        switch (word.back()) {
        case 'x':
            return Vec3(sign, 0, 0);
        case 'y':
            return Vec3(0, sign, 0);
        case 'z':
            return Vec3(0, 0, sign);
        default:
            return std::nullopt;
        }
    }

    const Evaluation& m_made;
    Vec3 m_by;
    Project m_out;
    std::vector<std::string> m_built; ///< names that stand for lengths of the build
};

} // namespace

Expected<Project> stretched(const Project& project, const Evaluation& made, const Vec3& by) {
    if (!by.allFinite() || !(by.minCoeff() > 0) ||
        by.maxCoeff() > (1 + likenessLimit) * by.minCoeff() * (1 + 1e-12))
        return fail("stretch-range",
                    "One direction may be stretched against another by " +
                        printExact(std::round(100 * likenessLimit), Unit::none) +
                        " % at most, or it is no longer like its subject.",
                    {}, "Choose less, or another scale.");
    if (!made.scope || !made.plates)
        return fail("stretch-range", "There is nothing worked out yet to stretch.", {}, "Wait for the body.");
    return Stretching(project, made, by).all();
}

namespace {

std::string stretchWords(const Vec3& by) {
    constexpr std::array<const char*, 3> more{"longer", "wider", "higher"},
        less{"shorter", "narrower", "lower"};
    std::string words;
    for (std::size_t k = 0; k < 3; ++k) {
        const double f = by[static_cast<Eigen::Index>(k)];
        if (f == 1) continue;
        words += (words.empty() ? "Make it " : ", ") +
                 printExact(std::round(std::abs(f - 1) * 1000) / 10, Unit::none) + " % " +
                 (f > 1 ? more[k] : less[k]);
    }
    return words.empty() ? "Stretch" : words;
}

} // namespace

Edit stretchSubject(const Evaluation& made, const Vec3& by, const Text& scale) {
    return {stretchWords(by), {}, [made, by, scale](const Project& p) {
                auto out = stretched(p, made, by);
                if (out && !scale.empty()) out->scale = scale;
                return out;
            }};
}

} // namespace slab
