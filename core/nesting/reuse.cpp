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

/// All placed parts as a problem of single copies, each in the turn that it has.
struct Prepared {
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
        if (!checkNest(m_problem, out).empty()) return std::nullopt;
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

    bool rebuild(const std::vector<std::optional<NestLayout>>& kept, NestResult& out) {
        Prepared work;
        for (const NestLayout& layout : m_old.layouts)
            for (const NestPlace& p : layout.places) {
                NestPart single = part(p);
                single.copies = 1;
                single.rotations = {p.rotation};
                single.flip = p.flipped;
                work.single.parts.push_back(std::move(single));
            }
        work.single.strip = m_problem.strip;
        work.single.sheets = m_problem.sheets;
        work.library = nesting::makeLibrary(work.single, {1, true});
        work.cache = std::make_unique<nesting::NoFitCache>(work.library);
        work.task =
            std::make_unique<nesting::Task>(nesting::makeTask(work.single, work.library, *work.cache));
        for (const nesting::Item& item : work.task->items) {
            const auto& turns = work.library.byPart[at(item.part)];
            if (turns.empty()) return false;
            work.recipe.turn.push_back(static_cast<int>(turns.size()) - 1); // flipped comes second
        }
        int first = 0;
        for (std::size_t k = 0; k < kept.size(); ++k) {
            fill(work, m_old.layouts[k], kept[k] ? &*kept[k] : nullptr, first);
            first += static_cast<int>(m_old.layouts[k].places.size());
        }
        if (!settle(work)) return false;
        write(work, out);
        return true;
    }

    /// Bodies of one sheet: as kept, or pushed apart, or set down.
    void fill(Prepared& work, const NestLayout& old, const NestLayout* keptHere, int first) const {
        std::vector<nesting::Body> bodies;
        for (std::size_t i = 0; i < old.places.size(); ++i) {
            NestPlace p = keptHere ? keptHere->places[i] : old.places[i];
            if (!keptHere) centre(old.sheet, 1, p);
            const int item = first + static_cast<int>(i);
            bodies.push_back({item, work.library.byPart[at(item)].back(), 0, {p.x, p.y}});
        }
        nesting::Filled filled;
        filled.sheet = old.sheet;
        filled.onHand = old.onHand;
        filled.bound.assign(work.library.oriented.size(), -std::numeric_limits<double>::infinity());
        if (keptHere || pushApart(work, old, bodies)) {
            for (const nesting::Body& b : bodies) {
                filled.placed.push_back({b.item, b.oriented, b.at});
                filled.used += work.library.oriented[at(b.oriented)].area;
            }
        } else {
            nesting::RegionScratch scratch;
            const auto left = [&](const nesting::Body& b) {
                return b.at.x + work.library.oriented[at(b.oriented)].box.minX;
            };
            std::stable_sort(bodies.begin(), bodies.end(),
                             [&](const auto& a, const auto& b) { return left(a) < left(b); });
            for (const nesting::Body& b : bodies)
                if (!nesting::putOn(*work.task, work.recipe, filled, b.item, scratch))
                    work.homeless.push_back(b.item);
        }
        work.sheets.push_back(std::move(filled));
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

    bool settle(Prepared& work) const {
        nesting::RegionScratch scratch;
        return std::all_of(work.homeless.begin(), work.homeless.end(), [&](int item) {
            const std::string& stock = work.single.parts[at(item)].stock;
            return std::any_of(work.sheets.begin(), work.sheets.end(), [&](nesting::Filled& f) {
                return (m_problem.strip > 0 || m_problem.sheets[at(f.sheet)].stock == stock) &&
                       nesting::putOn(*work.task, work.recipe, f, item, scratch);
            });
        });
    }

    void write(const Prepared& work, NestResult& out) const {
        std::vector<NestPlace> old;
        for (const NestLayout& layout : m_old.layouts)
            old.insert(old.end(), layout.places.begin(), layout.places.end());
        for (std::size_t k = 0; k < work.sheets.size(); ++k) {
            out.layouts[k].places.clear();
            for (const nesting::Placed& p : work.sheets[k].placed) {
                NestPlace place = old[at(p.item)];
                place.x = p.at.x;
                place.y = p.at.y;
                out.layouts[k].places.push_back(place);
            }
            finish(out.layouts[k]);
        }
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
