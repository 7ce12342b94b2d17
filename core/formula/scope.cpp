#include "core/formula/formula.h"
#include "core/units/number.h"
#include <algorithm>
#include <map>

namespace slab {
namespace {

enum class State { waiting, open, done, failed };

/// Works out every name after the names that it needs, without recursion: a chain may be thousands long.
class Order {
public:
    Order(const std::vector<NamedFormula>& named, ScopeResult& result) : m_named(named), m_result(result) {
        m_state.assign(named.size(), State::waiting);
        m_needs.resize(named.size());
        for (std::size_t i = 0; i < named.size(); ++i) enter(i);
    }
    void run() {
        for (std::size_t i = 0; i < m_named.size(); ++i)
            if (m_state[i] == State::waiting) visit(i);
    }

private:
    const std::vector<NamedFormula>& m_named;
    ScopeResult& m_result;
    std::vector<State> m_state;
    std::vector<std::vector<std::string>> m_needs;
    std::map<std::string, std::size_t, std::less<>> m_index;
    std::vector<std::pair<std::size_t, std::size_t>> m_path; ///< name, next need to look at

    void report(std::size_t i, Error error) {
        m_state[i] = State::failed;
        m_result.errors.emplace_back(m_named[i].name, std::move(error));
    }

    void enter(std::size_t i) {
        const NamedFormula& n = m_named[i];
        if (!isValidName(n.name)) {
            report(i, {"bad-name",
                       "\"" + n.name + "\" cannot be a name.",
                       {},
                       "use a letter first, then letters, digits and _, and no function or unit name"});
        } else if (!m_index.emplace(n.name, i).second) {
            report(i, {"duplicate-name", "The name " + n.name + " is used twice.", {}, "rename one of them"});
        }
        m_needs[i] = namesIn(n.text);
    }

    std::string place(std::size_t i, const std::string& need) const {
        const std::string& text = m_named[i].text;
        for (std::size_t at = text.find(need); at != std::string::npos; at = text.find(need, at + 1))
            if (renamed(text.substr(0, at + need.size()), need, "") != text.substr(0, at + need.size()))
                return columnOf(text, at);
        return "column 1";
    }

    void cycle(std::size_t from) {
        std::size_t first = 0;
        while (m_path[first].first != from) ++first;
        std::string loop;
        for (std::size_t i = first; i < m_path.size(); ++i) loop += m_named[m_path[i].first].name + " needs ";
        loop += m_named[from].name;
        for (std::size_t i = first; i < m_path.size(); ++i) {
            const std::size_t next = i + 1 < m_path.size() ? m_path[i + 1].first : from;
            report(m_path[i].first,
                   {"cycle", "This goes round in a circle: " + loop + ".",
                    place(m_path[i].first, m_named[next].name), "give one of them a value of its own"});
        }
    }

    void work(std::size_t i) {
        for (const std::string& need : m_needs[i]) {
            const auto at = m_index.find(need);
            if (at == m_index.end() || m_state[at->second] != State::failed) continue;
            report(i, {"depends-on-error", "This needs " + need + ", which has no value.", place(i, need),
                       "correct " + need + " first"});
            return;
        }
        const auto quantity = evaluateAny(m_named[i].text, m_result.scope, m_named[i].space);
        if (!quantity) return report(i, quantity.error());
        m_state[i] = State::done;
        m_result.scope.values[m_named[i].name] = *quantity;
    }

    void visit(std::size_t start) {
        m_path.assign(1, {start, 0});
        m_state[start] = State::open;
        while (!m_path.empty()) {
            auto& [i, next] = m_path.back();
            if (m_state[i] == State::failed) { // part of a loop found below it
                m_path.pop_back();
                continue;
            }
            if (next >= m_needs[i].size()) {
                const std::size_t done = i;
                m_path.pop_back();
                work(done);
                continue;
            }
            const auto at = m_index.find(m_needs[i][next++]);
            if (at == m_index.end()) continue;
            if (m_state[at->second] == State::open) {
                cycle(at->second);
            } else if (m_state[at->second] == State::waiting) {
                m_state[at->second] = State::open;
                m_path.emplace_back(at->second, 0);
            }
        }
    }
};

} // namespace

ScopeResult evaluateAll(const std::vector<NamedFormula>& named, double scale, Unit unit) {
    ScopeResult result;
    result.scope.scale = scale;
    result.scope.unit = unit;
    Order(named, result).run();
    std::stable_sort(result.errors.begin(), result.errors.end(), [&](const auto& a, const auto& b) {
        const auto order = [&](const std::string& name) {
            return std::find_if(named.begin(), named.end(),
                                [&](const NamedFormula& n) { return n.name == name; });
        };
        return order(a.first) < order(b.first);
    });
    for (const auto& [name, error] : result.errors)
        if (!result.scope.values.contains(name)) result.scope.broken.insert(name);
    return result;
}

} // namespace slab
