#pragma once
#include <algorithm>
#include <cstddef>
#include <numeric>
#include <vector>

namespace slab {

/// Disjoint sets of 0 … count − 1 (union–find). The least member of a set stands for it, so that the result
/// does not depend on the order of joining.
class DisjointSets {
public:
    explicit DisjointSets(std::size_t count) : m_parent(count) {
        std::iota(m_parent.begin(), m_parent.end(), 0U);
    }
    /// The least member of the set that holds i.
    [[nodiscard]] std::size_t find(std::size_t i) {
        while (m_parent[i] != i) i = m_parent[i] = m_parent[m_parent[i]];
        return i;
    }
    void join(std::size_t a, std::size_t b) {
        a = find(a);
        b = find(b);
        m_parent[std::max(a, b)] = std::min(a, b);
    }

private:
    std::vector<std::size_t> m_parent;
};

} // namespace slab
