#include "core/sight/ranges.h"
#include <algorithm>

namespace slab::sight {

std::vector<Range> without(const std::vector<Range>& ranges, const Range& taken) {
    std::vector<Range> out;
    for (const Range& range : ranges) {
        if (taken.to <= range.from || taken.from >= range.to) {
            out.push_back(range);
            continue;
        }
        if (taken.from > range.from) out.push_back({range.from, taken.from});
        if (taken.to < range.to) out.push_back({taken.to, range.to});
    }
    return out;
}

std::vector<Range> joined(std::vector<Range> ranges, double least) {
    std::sort(ranges.begin(), ranges.end(), [](const Range& a, const Range& b) { return a.from < b.from; });
    std::vector<Range> out;
    for (const Range& range : ranges) {
        if (!out.empty() && range.from <= out.back().to + least)
            out.back().to = std::max(out.back().to, range.to);
        else
            out.push_back(range);
    }
    return out;
}

} // namespace slab::sight
