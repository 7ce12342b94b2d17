#pragma once
// Which sheets are still to be had.
#include "core/base/index.h"
#include "core/nesting/construct.h"
#include <algorithm>

namespace slab::nesting {

/// Sheets not opened yet, in the order they are opened: on hand first, then by price for the area.
class Store {
public:
    Store(const NestProblem& problem) : m_problem(problem) {
        for (const NestSheet& s : problem.sheets) {
            m_onHand.push_back(std::max(0, s.onHand));
            m_left.push_back(s.limit < 0 ? std::numeric_limits<int>::max() : s.limit);
        }
    }
    /// Kinds of sheet still to be had for a stock, best first.
    [[nodiscard]] std::vector<std::pair<int, bool>> offers(const std::string& stock) const {
        std::vector<std::pair<int, bool>> out;
        for (int pass = 0; pass < 2; ++pass) {
            std::vector<std::pair<double, int>> ranked;
            for (std::size_t i = 0; i < m_problem.sheets.size(); ++i) {
                const NestSheet& s = m_problem.sheets[i];
                const double size = s.width * s.length;
                if (s.stock != stock || !(size > 0) || (pass == 0 ? m_onHand[i] : m_left[i]) < 1) continue;
                ranked.emplace_back(pass == 0 ? size : s.price / size, static_cast<int>(i));
            }
            std::sort(ranked.begin(), ranked.end());
            for (const auto& [rank, i] : ranked) out.emplace_back(i, pass == 0);
        }
        return out;
    }
    void take(int sheet, bool onHand) { --(onHand ? m_onHand : m_left)[at(sheet)]; }
    void giveBack(int sheet, bool onHand) { ++(onHand ? m_onHand : m_left)[at(sheet)]; }

private:
    const NestProblem& m_problem;
    std::vector<int> m_onHand, m_left;
};

} // namespace slab::nesting
