// A layout that follows a drag, stock by stock: sheets of one have no say in those of another.
#include "core/base/index.h"
#include "core/base/parallel.h"
#include "core/nesting/nest.h"
#include <algorithm>
#include <map>

namespace slab {
namespace {

/// What of a problem is of one stock.
struct Share {
    NestProblem problem;
    std::vector<int> parts, sheets; ///< indices in the whole problem
};

/// In the order of each stock's first part.
std::vector<Share> sharesOf(const NestProblem& problem) {
    std::vector<Share> shares;
    std::map<std::string_view, std::size_t> known;
    for (std::size_t i = 0; i < problem.parts.size(); ++i) {
        const NestPart& part = problem.parts[i];
        const auto [it, fresh] = known.try_emplace(part.stock, shares.size());
        if (fresh) shares.emplace_back();
        shares[it->second].parts.push_back(static_cast<int>(i));
        shares[it->second].problem.parts.push_back(part);
    }
    for (std::size_t i = 0; i < problem.sheets.size(); ++i) {
        const auto share = known.find(problem.sheets[i].stock);
        if (share == known.end()) continue;
        shares[share->second].sheets.push_back(static_cast<int>(i));
        shares[share->second].problem.sheets.push_back(problem.sheets[i]);
    }
    return shares;
}

int placeIn(const std::vector<int>& list, int value) {
    const auto it = std::find(list.begin(), list.end(), value);
    return it == list.end() ? -1 : static_cast<int>(it - list.begin());
}

/// What of a result belongs to a share.
NestResult cutOut(const NestResult& all, const Share& share) {
    NestResult own;
    for (const NestLayout& layout : all.layouts) {
        const int sheet = placeIn(share.sheets, layout.sheet);
        if (sheet < 0) continue;
        NestLayout& kept = own.layouts.emplace_back(layout);
        kept.sheet = sheet;
        for (NestPlace& p : kept.places) p.part = placeIn(share.parts, p.part);
    }
    for (const auto& [part, copy] : all.unplaced)
        if (const int at = placeIn(share.parts, part); at >= 0) own.unplaced.emplace_back(at, copy);
    return own;
}

void add(NestResult& all, NestResult own, const Share& share) {
    for (NestLayout& layout : own.layouts) {
        layout.sheet = share.sheets[at(layout.sheet)];
        for (NestPlace& p : layout.places) p.part = share.parts[at(p.part)];
        all.layouts.push_back(std::move(layout));
    }
    for (const auto& [part, copy] : own.unplaced) all.unplaced.emplace_back(share.parts[at(part)], copy);
    all.cost += own.cost;
    all.refusals += own.refusals;
}

double densityOf(const NestProblem& problem, const NestResult& result) {
    double used = 0, size = 0;
    for (const NestLayout& layout : result.layouts) {
        const NestSheet& s = problem.sheets[at(layout.sheet)];
        used += layout.used * s.width * s.length;
        size += s.width * s.length;
    }
    return size > 0 ? used / size : 0;
}

NestResult followOne(const NestProblem& problem, const NestProblem& before, const NestResult& result,
                     const NestOptions& options, const Job& job) {
    // Parts that found no place at a larger scale may find one now: such a layout is made again.
    if (result.unplaced.empty())
        if (auto kept = reuse(problem, before, result)) return std::move(*kept);
    return nest(problem, options, job);
}

} // namespace

NestResult follow(const NestProblem& problem, const NestProblem& before, const NestResult& result,
                  const NestOptions& options, const Job& job) {
    NestResult all;
    if (problem.strip > 0 || before.strip > 0) {
        all = followOne(problem, before, result, options, job);
    } else {
        const std::vector<Share> shares = sharesOf(problem), earlier = sharesOf(before);
        std::vector<NestResult> own(shares.size());
        shareOut(shares.size(), [&](std::size_t i) {
            const auto same = std::find_if(earlier.begin(), earlier.end(), [&](const Share& s) {
                return s.problem.parts.front().stock == shares[i].problem.parts.front().stock;
            });
            own[i] = same == earlier.end()
                         ? nest(shares[i].problem, options, job)
                         : followOne(shares[i].problem, same->problem, cutOut(result, *same), options, job);
        });
        for (std::size_t i = 0; i < shares.size(); ++i) add(all, std::move(own[i]), shares[i]);
        all.density = densityOf(problem, all);
    }
    all.provisional = true;
    return all;
}

} // namespace slab
