#include "core/survey/squeeze.h"
#include "core/evaluate/stages.h"
#include "core/fit/pieces.h"
#include "core/mechanisms/rounds.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

Vec3 stretched(const Vec3& p, const Vec3& by) {
    return p.cwiseProduct(by);
}

void stretch(Polyhedron& solid, const Vec3& by) {
    for (Vec3& v : solid.vertices) v = stretched(v, by);
    for (PolyFace& face : solid.faces) {
        face.plane.normal = face.plane.normal.cwiseQuotient(by).normalized();
        const int first = face.loops.front().front();
        face.plane.offset = face.plane.normal.dot(solid.vertices[static_cast<std::size_t>(first)]);
    }
}

void stretch(FreePlate& plate, const Vec3& by) {
    const Frame old = plate.frame;
    Frame frame;
    frame.origin = stretched(old.origin, by);
    const Vec3 u = stretched(old.axes.col(0), by).normalized();
    const Vec3 w = Vec3(old.axes.col(2)).cwiseQuotient(by).normalized();
    frame.axes << u, w.cross(u), w;
    const auto move = [&](Ring& ring) {
        for (Vec2& p : ring) p = frame.toPlane(stretched(old.toBody(p), by));
    };
    move(plate.outline.outer);
    for (Ring& hole : plate.outline.holes) move(hole);
    plate.frame = frame;
}

/// The shell at one scale, ready to be stretched and tried.
class Stretcher {
public:
    Stretcher(const Project& project, double scale, const Job& job) : m_project(project), m_job(job) {
        std::vector<Finding> told;
        m_scope = resolveScope(project, scale, told);
        m_forms = resolveForms(project, m_scope);
        m_donor = resolveDonor(project, m_scope);
    }
    [[nodiscard]] bool anybody() const { return !m_donor.solids.empty() && !m_forms.solids.empty(); }

    /// Does it fit with the body so much larger along one axis? Its size along that axis, if so.
    [[nodiscard]] std::optional<double> fits(int axis, double factor) const {
        Vec3 by = Vec3::Ones();
        by[axis] = factor;
        ResolvedForms forms = m_forms;
        for (FormSolid& s : forms.solids) stretch(s.solid, by);
        for (FreePlate& p : forms.plates) stretch(p, by);
        for (RoundPart& r : forms.rounds) {
            r.base = stretched(r.base, by);
            r.top = stretched(r.top, by);
        }
        const Materials& materials = m_project.materials;
        const Body body = joinForms(
            forms,
            [&](const std::string& a, const std::string& b) {
                return stockFor(materials, a) == stockFor(materials, b);
            },
            m_project.pieces, m_job);
        std::vector<Finding> told;
        const PlateRules rules = resolveRules(m_project, m_scope, body, told);
        const PlateSet plates = withRounds(buildPlates(body, rules, m_job), body.rounds);
        if (m_job.stopped() || plates.plates.empty()) return std::nullopt;
        std::vector<FitSolid> solids = m_donor.solids;
        if (m_project.donor.best_place) {
            const Vec3 shift(bestPlace(solids, plates), 0, 0);
            for (FitSolid& s : solids) s.shape = translated(s.shape, shift);
        }
        const FitResult fit = liveFit(solids, plates);
        if (fit.state != FitState::fits) return std::nullopt;
        return body.bounds.size()[axis];
    }

    /// The least stretch along one axis that fits; nothing if the greatest does not.
    [[nodiscard]] std::optional<Squeeze> least(int axis) const {
        auto size = fits(axis, squeezeMost);
        if (!size) return std::nullopt;
        double bad = 1, good = squeezeMost;
        while (good - bad > squeezeStep && !m_job.stopped()) {
            const double middle = (good + bad) / 2;
            if (const auto there = fits(axis, middle)) {
                good = middle;
                size = there;
            } else {
                bad = middle;
            }
        }
        return Squeeze{axis, good, *size * (1 - 1 / good)};
    }

private:
    const Project& m_project;
    const Job& m_job;
    Scope m_scope;
    ResolvedForms m_forms;
    DonorSet m_donor;
};

} // namespace

double roundedUp(double factor) {
    return 1 + std::ceil((factor - 1) * 1000 - 1e-9) / 1000;
}

std::vector<Squeeze> squeezes(const Project& project, double scale, const Job& job) {
    const Stretcher body(project, scale, job);
    std::vector<Squeeze> out;
    if (!body.anybody()) return out;
    for (int axis = 0; axis < 3 && !job.stopped(); ++axis)
        if (const auto found = body.least(axis)) out.push_back(*found);
    std::stable_sort(out.begin(), out.end(),
                     [](const Squeeze& a, const Squeeze& b) { return a.factor < b.factor; });
    return out;
}

std::vector<std::string> squeezeWords(const std::vector<Squeeze>& found, double scale,
                                      const UnitStyle& units) {
    const std::string at = printExact(std::round(scale * 1e4) / 1e4, Unit::none);
    if (found.empty())
        return {"Longer, wider or higher alone, by up to a quarter, the shell does not clear donor and rider "
                "at " +
                at + " either; tried without mechanisms."};
    std::vector<std::string> out;
    for (const Squeeze& s : found) {
        const char* word = s.axis == 0 ? "Longer" : s.axis == 1 ? "Wider" : "Higher";
        const double percent = std::round((roundedUp(s.factor) - 1) * 1000) / 10;
        out.push_back(std::string(word) + " alone by " + printExact(percent, Unit::none) + " % (" +
                      printFine(s.more, units) + ") at " + at +
                      ", the shell would clear donor and rider; tried without mechanisms.");
    }
    return out;
}

} // namespace slab
