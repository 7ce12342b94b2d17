// An older layout for parts that have changed a little: the same sheets, turns and neighbours.
#include "core/base/index.h"
#include "core/nesting/check.h"
#include "core/nesting/separate.h"
#include <algorithm>
#include <memory>

namespace slab {
namespace {

using nesting::Extent;
using nesting::Pt;

Extent extentOf(const NestPart& part, const NestPlace& place) {
    const auto [c, s] = nesting::cosSin(place.rotation);
    Extent box;
    for (const Vec2& p : part.shape.outer) {
        const double y = place.flipped ? -p.y() : p.y();
        box.add(Pt{c * p.x() - s * y + place.x, s * p.x() + c * y + place.y});
    }
    return box;
}

bool alike(const NestProblem& a, const NestProblem& b, const NestResult& result) {
    if (a.parts.size() != b.parts.size() || a.sheets.size() != b.sheets.size() ||
        (a.strip > 0) != (b.strip > 0))
        return false;
    for (std::size_t i = 0; i < a.parts.size(); ++i)
        if (a.parts[i].id != b.parts[i].id || a.parts[i].copies != b.parts[i].copies ||
            a.parts[i].stock != b.parts[i].stock || a.parts[i].shape.outer.size() < 3)
            return false;
    for (const NestLayout& layout : result.layouts) {
        if (a.strip <= 0 && (layout.sheet < 0 || layout.sheet >= static_cast<int>(a.sheets.size())))
            return false;
        for (const NestPlace& p : layout.places)
            if (p.part < 0 || p.part >= static_cast<int>(a.parts.size()) ||
                b.parts[at(p.part)].shape.outer.size() < 3)
                return false;
    }
    return true;
}

/// Placed parts as a problem of single copies, each in the turn that it has.
struct Prepared {
    std::vector<NestPlace> places; ///< by item: where it stood
    NestProblem single;
    nesting::Library library;
    std::unique_ptr<nesting::NoFitCache> cache;
    std::unique_ptr<nesting::Task> task;
    std::vector<nesting::Filled> sheets;
    std::vector<int> homeless; ///< items that their sheet cannot hold any more
    nesting::Recipe recipe;
};

class Reuse {
public:
    Reuse(const NestProblem& problem, const NestProblem& before, const NestResult& old)
        : m_problem(problem), m_before(before), m_old(old) {}

    /// Per sheet: middles kept, else spread by the growth, else pushed apart, else set down anew; what is
    /// then left over goes to any sheet of the result.
    std::optional<NestResult> run() {
        std::vector<std::optional<NestLayout>> kept;
        for (const NestLayout& layout : m_old.layouts) kept.push_back(moved(layout));
        NestResult out = m_old;
        if (std::all_of(kept.begin(), kept.end(), [](const auto& k) { return k.has_value(); })) {
            for (std::size_t k = 0; k < kept.size(); ++k) out.layouts[k] = *kept[k];
        } else if (!rebuild(kept, out)) {
            return std::nullopt;
        }
        total(out);
        for (std::size_t k = 0; k < kept.size(); ++k) // what was kept has been looked at
            if (!kept[k] || out.layouts[k].places.size() != kept[k]->places.size())
                if (!nesting::soundLayout(m_problem, out.layouts[k], out.stripLength)) return std::nullopt;
        if (!nesting::soundTogether(m_problem, out)) return std::nullopt;
        return out;
    }

private:
    [[nodiscard]] const NestPart& part(const NestPlace& p) const { return m_problem.parts[at(p.part)]; }
    [[nodiscard]] double reachOf(const NestLayout& layout) const {
        double reach = 0;
        for (const NestPlace& p : layout.places) reach = std::max(reach, extentOf(part(p), p).maxX);
        return reach;
    }
    [[nodiscard]] double sizeOf(const NestLayout& layout) const {
        if (m_problem.strip > 0) return m_problem.strip * reachOf(layout);
        const NestSheet& s = m_problem.sheets[at(layout.sheet)];
        return s.width * s.length;
    }
    [[nodiscard]] double ownArea(const NestLayout& layout) const {
        double own = 0;
        for (const NestPlace& p : layout.places) own += area(part(p).shape);
        return own;
    }
    void finish(NestLayout& layout) const {
        const double size = sizeOf(layout);
        layout.used = size > 0 ? ownArea(layout) / size : 0;
    }

    void total(NestResult& out) const {
        out.provisional = true;
        out.cost = 0;
        double own = 0, size = 0;
        for (const NestLayout& layout : out.layouts) {
            own += ownArea(layout);
            size += sizeOf(layout);
            if (m_problem.strip > 0)
                out.stripLength = reachOf(layout);
            else if (!layout.onHand)
                out.cost += m_problem.sheets[at(layout.sheet)].price;
        }
        out.density = size > 0 ? own / size : 0;
    }

    std::optional<NestLayout> moved(const NestLayout& old) const {
        double growth = 1;
        for (const NestPlace& p : old.places) {
            const Extent was = extentOf(m_before.parts[at(p.part)], p), is = extentOf(part(p), p);
            growth = std::max({growth, (is.maxX - is.minX) / (was.maxX - was.minX),
                               (is.maxY - is.minY) / (was.maxY - was.minY)});
        }
        for (const double spread : {1.0, growth}) {
            NestLayout out = old;
            for (NestPlace& p : out.places) centre(old.sheet, spread, p);
            finish(out);
            if (nesting::soundLayout(m_problem, out, reachOf(out))) return out;
            if (growth <= 1) break;
        }
        return std::nullopt;
    }

    /// Middle kept (spread from the sheet's corner), pulled back onto the sheet.
    void centre(int sheet, double spread, NestPlace& p) const {
        const Extent was = extentOf(m_before.parts[at(p.part)], p), is = extentOf(part(p), p);
        const bool strip = m_problem.strip > 0;
        const double trim = strip ? 0 : m_problem.sheets[at(sheet)].trim;
        const double length = strip ? 1e12 : m_problem.sheets[at(sheet)].length;
        const double width = strip ? m_problem.strip : m_problem.sheets[at(sheet)].width;
        const auto shift = [&](double was0, double was1, double is0, double is1, double size) {
            const double middle = trim + ((was0 + was1) / 2 - trim) * spread;
            const double by = middle - (is0 + is1) / 2;
            return std::max(trim - is0, std::min(by, size - trim - is1));
        };
        p.x += shift(was.minX, was.maxX, is.minX, is.maxX, length);
        p.y += shift(was.minY, was.maxY, is.minY, is.maxY, width);
    }

    /// Only sheets that are not sound any more are set anew; the others take what those cannot hold.
    bool rebuild(const std::vector<std::optional<NestLayout>>& kept, NestResult& out) {
        std::vector<std::size_t> broken, sound;
        std::vector<NestPlace> places;
        for (std::size_t k = 0; k < kept.size(); ++k) {
            (kept[k] ? sound : broken).push_back(k);
            const NestLayout& old = m_old.layouts[k];
            if (kept[k])
                out.layouts[k] = *kept[k];
            else
                places.insert(places.end(), old.places.begin(), old.places.end());
        }
        Prepared work;
        if (!prepare(std::move(places), work)) return false;
        int first = 0;
        for (const std::size_t k : broken) {
            fill(work, m_old.layouts[k], first);
            first += static_cast<int>(m_old.layouts[k].places.size());
        }
        settle(work);
        for (std::size_t i = 0; i < broken.size(); ++i) write(work, work.sheets[i], out.layouts[broken[i]]);
        return work.homeless.empty() || rehouse(work, sound, out);
    }

    /// What found no place goes on the sheets that had stayed sound.
    bool rehouse(const Prepared& crowded, const std::vector<std::size_t>& sound, NestResult& out) {
        std::vector<NestPlace> places;
        for (const std::size_t k : sound)
            places.insert(places.end(), out.layouts[k].places.begin(), out.layouts[k].places.end());
        const std::size_t housed = places.size();
        for (const int item : crowded.homeless) places.push_back(crowded.places[at(item)]);
        Prepared work;
        if (!prepare(std::move(places), work)) return false;
        int first = 0;
        for (const std::size_t k : sound) {
            const NestLayout& layout = out.layouts[k];
            work.sheets.push_back(filled(work, layout, bodiesOf(work, layout, first)));
            first += static_cast<int>(layout.places.size());
        }
        for (std::size_t i = housed; i < work.places.size(); ++i)
            work.homeless.push_back(static_cast<int>(i));
        settle(work);
        for (std::size_t i = 0; i < sound.size(); ++i) write(work, work.sheets[i], out.layouts[sound[i]]);
        return work.homeless.empty();
    }

    /// The part as it lies: a mirrored one becomes one that is not.
    [[nodiscard]] NestPart singleOf(const NestPlace& place) const {
        NestPart single = part(place);
        single.copies = 1;
        single.rotations = {place.rotation};
        single.flip = false;
        if (!place.flipped) return single;
        const auto mirror = [](Ring& ring) {
            for (Vec2& p : ring) p.y() = -p.y();
            std::reverse(ring.begin(), ring.end());
        };
        mirror(single.shape.outer);
        for (Ring& hole : single.shape.holes) mirror(hole);
        return single;
    }

    /// @return false if some part cannot be laid at all
    bool prepare(std::vector<NestPlace> places, Prepared& work) const {
        for (const NestPlace& p : places) work.single.parts.push_back(singleOf(p));
        work.places = std::move(places);
        work.single.strip = m_problem.strip;
        work.single.sheets = m_problem.sheets;
        work.library = nesting::makeLibrary(work.single, {1, true});
        work.cache = std::make_unique<nesting::NoFitCache>(work.library);
        work.task =
            std::make_unique<nesting::Task>(nesting::makeTask(work.single, work.library, *work.cache));
        return std::none_of(work.library.byPart.begin(), work.library.byPart.end(),
                            [](const auto& turns) { return turns.empty(); });
    }

    [[nodiscard]] std::vector<nesting::Body> bodiesOf(const Prepared& work, const NestLayout& layout,
                                                      int first) const {
        std::vector<nesting::Body> bodies;
        for (const NestPlace& p : layout.places) {
            const int item = first + static_cast<int>(bodies.size());
            bodies.push_back({item, work.library.byPart[at(item)].front(), 0, {p.x, p.y}});
        }
        return bodies;
    }

    [[nodiscard]] nesting::Filled filled(const Prepared& work, const NestLayout& layout,
                                         const std::vector<nesting::Body>& bodies) const {
        nesting::Filled sheet = nesting::emptySheet(*work.task, layout.sheet, layout.onHand);
        for (const nesting::Body& b : bodies) {
            sheet.placed.push_back({b.item, b.oriented, b.at});
            sheet.used += work.library.oriented[at(b.oriented)].area;
        }
        return sheet;
    }

    /// Bodies of one sheet: pushed apart, or set down.
    void fill(Prepared& work, const NestLayout& old, int first) const {
        NestLayout centred = old;
        for (NestPlace& p : centred.places) centre(old.sheet, 1, p);
        std::vector<nesting::Body> bodies = bodiesOf(work, centred, first);
        if (pushApart(work, old, bodies)) {
            work.sheets.push_back(filled(work, old, bodies));
            return;
        }
        nesting::Filled sheet = nesting::emptySheet(*work.task, old.sheet, old.onHand);
        nesting::RegionScratch scratch;
        const auto left = [&](const nesting::Body& b) {
            return b.at.x + work.library.oriented[at(b.oriented)].box.minX;
        };
        std::stable_sort(bodies.begin(), bodies.end(),
                         [&](const auto& a, const auto& b) { return left(a) < left(b); });
        for (const nesting::Body& b : bodies)
            if (!nesting::putOn(*work.task, work.recipe, sheet, b.item, scratch))
                work.homeless.push_back(b.item);
        work.sheets.push_back(std::move(sheet));
    }

    bool pushApart(const Prepared& work, const NestLayout& old, std::vector<nesting::Body>& bodies) const {
        constexpr int passes = 3;
        if (m_problem.strip > 0) return false;
        const NestSheet& s = m_problem.sheets[at(old.sheet)];
        nesting::Separator separator(*work.task, 1);
        separator.load(bodies, {{s.trim, s.trim, s.length - s.trim, s.width - s.trim, s.stock}});
        for (const nesting::Body& b : bodies)
            if (!separator.fits(b.oriented, 0)) return false;
        for (int i = 0; i < passes && separator.severity() > 0; ++i) (void)separator.pass();
        if (separator.severity() > 0) return false;
        bodies = separator.bodies();
        return true;
    }

    void settle(Prepared& work) const {
        nesting::RegionScratch scratch;
        std::erase_if(work.homeless, [&](int item) {
            const std::string& stock = work.single.parts[at(item)].stock;
            return std::any_of(work.sheets.begin(), work.sheets.end(), [&](nesting::Filled& f) {
                return (m_problem.strip > 0 || m_problem.sheets[at(f.sheet)].stock == stock) &&
                       nesting::putOn(*work.task, work.recipe, f, item, scratch);
            });
        });
    }

    void write(const Prepared& work, const nesting::Filled& sheet, NestLayout& out) const {
        out.places.clear();
        for (const nesting::Placed& p : sheet.placed) {
            NestPlace place = work.places[at(p.item)];
            place.x = p.at.x;
            place.y = p.at.y;
            out.places.push_back(place);
        }
        finish(out);
    }

    const NestProblem& m_problem;
    const NestProblem& m_before;
    const NestResult& m_old;
};

} // namespace

std::optional<NestResult> reuse(const NestProblem& problem, const NestProblem& before,
                                const NestResult& result) {
    if (!alike(problem, before, result)) return std::nullopt;
    return Reuse(problem, before, result).run();
}

} // namespace slab
