#include "core/mechanisms/carries.h"
#include "core/mechanisms/reading.h"
#include <algorithm>

namespace slab::mechanisms {

namespace {

/// "a", "a and b", "a and 3 more".
std::string some(const std::vector<std::string>& names) {
    if (names.size() == 1) return names.front();
    return names.front() + " and " +
           (names.size() == 2 ? names.back() : std::to_string(names.size() - 1) + " more");
}

class CarriesCheck {
public:
    CarriesCheck(const MechanismInput& in, MechanismSet& set)
        : m_in(in), m_set(set), m_tables(in.project.mechanisms.turntables) {}

    void run() {
        for (std::size_t i = 0; i < m_tables.size(); ++i) {
            if (m_tables[i].off || !motionOf(m_tables[i].name)) continue;
            Reading read(m_in, m_set, "turntables", i, m_tables[i].name);
            for (std::size_t k = 0; k < m_tables[i].carries.size(); ++k)
                if (!ownStand(read, m_tables[i], k)) others(read, m_tables[i], k);
            for (std::size_t j = 0; j < m_tables.size(); ++j)
                if (j != i && !m_tables[j].off) standsOn(read, m_tables[i], m_tables[j]);
            for (std::size_t j = 0; j < i; ++j)
                if (!m_tables[j].off && motionOf(m_tables[j].name)) twice(read, m_tables[i], m_tables[j]);
        }
    }

private:
    [[nodiscard]] std::optional<int> motionOf(const std::string& mechanism) const {
        for (const CarriedPlates& c : m_set.carried)
            if (c.mechanism == mechanism) return c.motion;
        return {};
    }
    /// Plates that are opened for a table: its rings lie on one.
    [[nodiscard]] std::vector<std::string> decksOf(const std::string& table) const {
        for (const ResolvedOpening& o : m_set.openings)
            if (o.name == table) return o.plates;
        return {};
    }
    static bool carries(const Turntable& table, const std::string& name) {
        return std::any_of(table.carries.begin(), table.carries.end(),
                           [&](const std::string& pattern) { return matches(pattern, name); });
    }
    static std::string fieldOf(std::size_t entry) { return "carries/" + std::to_string(entry); }

    /// @return true after a finding
    bool ownStand(Reading& read, const Turntable& table, std::size_t entry) {
        const std::string& pattern = table.carries[entry];
        std::vector<std::string> named;
        for (std::size_t p = 0; p < m_set.parts.size(); ++p)
            if (m_set.parts[p].form == table.name && m_set.roles[p].kind == PartRole::Kind::ring &&
                matches(pattern, m_set.parts[p].name))
                named.push_back(m_set.parts[p].name);
        for (const std::string& deck : decksOf(table.name))
            if (matches(pattern, deck)) named.push_back(deck);
        if (named.empty()) return false;
        read.report(Severity::stop, "carries-own-stand",
                    "it is to carry \"" + pattern + "\", which names what it stands on itself (" +
                        some(named) + ")",
                    fieldOf(entry), "Name only what stands on its drum and turns with it.");
        return true;
    }

    /// Parts of mechanisms that do not turn with it.
    void others(Reading& read, const Turntable& table, std::size_t entry) {
        const std::string& pattern = table.carries[entry];
        std::string of;
        std::vector<std::string> named;
        for (const Plate& part : m_set.parts) {
            if (part.form == table.name || !matches(pattern, part.name)) continue;
            if (!of.empty() && part.form != of) continue;
            const bool along = std::any_of(m_set.carried.begin(), m_set.carried.end(), [&](const auto& c) {
                return c.mechanism == part.form && c.motion == motionOf(table.name);
            });
            if (along) continue;
            of = part.form;
            named.push_back(part.name);
        }
        if (named.empty()) return;
        const auto& trunnions = m_in.project.mechanisms.trunnions;
        const bool tube =
            std::any_of(trunnions.begin(), trunnions.end(), [&](const auto& t) { return t.name == of; });
        read.report(Severity::stop, "carries-mechanism",
                    "it is to carry \"" + pattern + "\", which names parts of " + of + " (" + some(named) +
                        "), which do not turn with it",
                    fieldOf(entry),
                    tube ? "Let " + of +
                               " turn with it by its own entry, or name only what stands on the drum."
                         : "Name only forms that stand on its drum.");
    }

    /// The rings of another table do not turn along with the plate that they lie on.
    void standsOn(Reading& read, const Turntable& table, const Turntable& other) {
        for (const std::string& deck : decksOf(other.name)) {
            if (!carries(table, deck)) continue;
            read.report(Severity::stop, "carries-deck",
                        "it is to carry " + deck + ", on which " + other.name +
                            " stands: a turntable does not turn with another",
                        "carries", "Take " + deck + " out of what it carries, or move " + other.name + ".");
            return;
        }
    }

    /// What two tables are to carry turns with the first.
    void twice(Reading& read, const Turntable& table, const Turntable& first) {
        std::vector<std::string> named;
        const auto look = [&](const auto& all) {
            for (const auto& one : all)
                if (carries(table, one.name) && carries(first, one.name)) named.push_back(one.name);
        };
        look(m_in.body.skin.faces);
        look(m_in.body.plates);
        look(m_in.body.rounds);
        if (named.empty()) return;
        read.report(Severity::look, "carried-twice",
                    "it is to carry " + some(named) + ", which " + first.name + " carries already: " +
                        (named.size() == 1 ? "it turns with " : "they turn with ") + first.name,
                    "carries",
                    "Take " + std::string(named.size() == 1 ? "it" : "them") + " out of one of the two.");
    }

    const MechanismInput& m_in;
    MechanismSet& m_set;
    const std::vector<Turntable>& m_tables;
};

} // namespace

void checkCarries(const MechanismInput& in, MechanismSet& set) {
    CarriesCheck(in, set).run();
}

} // namespace slab::mechanisms
