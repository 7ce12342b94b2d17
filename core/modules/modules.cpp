#include "core/modules/modules.h"
#include "core/plates/mass.h"
#include "core/units/units.h"
#include <algorithm>
#include <map>
#include <set>

namespace slab {

namespace {

/// "port", and what belongs to it: "port/strip", "port/exit lid".
bool goesWith(const std::string& plate, const std::string& host) {
    return plate.size() > host.size() && plate.starts_with(host) && plate[host.size()] == '/';
}

class Measurer {
public:
    Measurer(const ModuleStuff& stuff, const UnitStyle& units)
        : m_plates(stuff.plates), m_stock(stuff.stock), m_bought(stuff.bought), m_units(units),
          m_owner(m_plates.plates.size(), -1), m_ownerOfBought(m_bought.size(), -1) {}

    void share(const std::vector<Module>& modules) {
        const auto& all = m_plates.plates;
        for (std::size_t i = 0; i < modules.size(); ++i) {
            bool any = false;
            const auto give = [&](int& owner, const std::string& name, const std::string& what) {
                any = true;
                if (owner < 0)
                    owner = static_cast<int>(i);
                else
                    shared(modules[static_cast<std::size_t>(owner)], modules[i], name, what);
            };
            for (std::size_t p = 0; p < all.size(); ++p)
                if (takes(modules[i], all[p].name)) give(m_owner[p], all[p].name, "plate:" + all[p].name);
            for (std::size_t b = 0; b < m_bought.size(); ++b)
                if (names(modules[i], m_bought[b])) give(m_ownerOfBought[b], m_bought[b].name, about(i));
            if (!any && !(all.empty() && m_bought.empty()))
                find(Severity::look, "module-empty", "Module " + modules[i].name + " takes no plate",
                     {about(i)}, "Correct the plates' names, or take the module out.");
        }
        for (std::size_t p = 0; p < all.size(); ++p)
            for (std::size_t host = 0; host < all.size() && m_owner[p] < 0; ++host)
                if (goesWith(all[p].name, all[host].name)) m_owner[p] = m_owner[host];
        for (std::size_t b = 0; b < m_bought.size(); ++b) {
            int& owner = m_ownerOfBought[b];
            if (owner >= 0) continue;
            const bool carried = !m_bought[b].on.empty() && !hasPlates(m_bought[b].owner);
            owner = carried ? ownerOfCarrier(m_bought[b].on) : ownerOfPlatesOf(m_bought[b].owner);
        }
    }

    void measure(const std::vector<Module>& modules, const std::vector<PassageSize>& passages) {
        for (int i = 0; i <= static_cast<int>(modules.size()); ++i) {
            const bool rest = i == static_cast<int>(modules.size());
            const ModuleInfo info = one(rest ? "" : modules[static_cast<std::size_t>(i)].name, rest ? -1 : i);
            if (info.plates.empty() && info.bought.empty()) continue;
            m_out.modules.push_back(info);
            ModuleInfo& made = m_out.modules.back();
            if (!rest) ties(made, i);
            const std::vector<Vec3> corners = cornersOf(rest ? -1 : i);
            for (const PassageSize& passage : passages) tryPassage(made, passage, corners, rest ? -1 : i);
        }
    }

    ModuleSet take() { return std::move(m_out); }

private:
    static bool takes(const Module& module, const std::string& plate) {
        return std::any_of(module.plates.begin(), module.plates.end(),
                           [&](const std::string& pattern) { return matches(pattern, plate); });
    }
    /// By the part's own name, or that of its mechanism or form: "monitor", or "monitor/*".
    static bool names(const Module& module, const BoughtPart& part) {
        return takes(module, part.name) || takes(module, part.owner) || takes(module, part.owner + "/");
    }
    /// The first module that has plates of that mechanism; -1 = none.
    [[nodiscard]] int ownerOfPlatesOf(const std::string& mechanism) const {
        for (std::size_t p = 0; p < m_plates.plates.size(); ++p)
            if (m_plates.plates[p].form == mechanism && m_owner[p] >= 0) return m_owner[p];
        return -1;
    }
    [[nodiscard]] bool hasPlates(const std::string& mechanism) const {
        return std::any_of(m_plates.plates.begin(), m_plates.plates.end(),
                           [&](const Plate& p) { return p.form == mechanism; });
    }
    [[nodiscard]] int ownerOfCarrier(const std::string& mechanism) const {
        for (std::size_t b = 0; b < m_bought.size(); ++b)
            if (m_bought[b].owner == mechanism && m_ownerOfBought[b] >= 0) return m_ownerOfBought[b];
        return ownerOfPlatesOf(mechanism);
    }
    static std::string about(std::size_t module) { return "document:/modules/" + std::to_string(module); }

    void find(Severity severity, const char* code, std::string message, std::vector<std::string> what,
              std::string remedy) {
        m_out.findings.push_back(
            {severity, code, std::move(message), std::move(what), std::move(remedy), {}});
    }

    void shared(const Module& first, const Module& second, const std::string& part, const std::string& what) {
        if (!m_told.insert(first.name + "/" + second.name).second) return;
        find(Severity::look, "module-shared",
             part + " is in module " + first.name + " and in module " + second.name + "; the first has it",
             {what}, "Take it out of one of the two.");
    }

    /// Masses and their centre; volumes where no mass is known.
    struct Sum {
        double mass = 0, volume = 0;
        Vec3 moment = Vec3::Zero(), plain = Vec3::Zero();
        void add(double kilograms, double cubic, const Vec3& centre) {
            mass += kilograms;
            moment += kilograms * centre;
            volume += cubic;
            plain += cubic * centre;
        }
        /// Without densities as if all were of one stuff.
        [[nodiscard]] Vec3 centre() const {
            return mass > 0 ? Vec3(moment / mass) : volume > 0 ? Vec3(plain / volume) : Vec3::Zero();
        }
    };

    ModuleInfo one(const std::string& name, int owner) const {
        ModuleInfo info;
        info.name = name;
        Sum sum;
        bool any = false;
        const auto grow = [&](const Box3& box) {
            info.bounds = any ? united(info.bounds, box) : box;
            any = true;
        };
        for (std::size_t p = 0; p < m_plates.plates.size(); ++p) {
            const Plate& plate = m_plates.plates[p];
            if (m_owner[p] != owner || plate.solid.vertices.empty()) continue;
            grow(slab::bounds(plate.solid));
            info.plates.push_back(plate.name);
            const double mass = massOf(plate, m_stock);
            sum.add(mass, plate.volume, centreOf(plate.solid));
            const std::string sheet = "what is cut from " + plate.stock;
            if (!(mass > 0) &&
                std::find(info.unweighed.begin(), info.unweighed.end(), sheet) == info.unweighed.end())
                info.unweighed.push_back(sheet);
        }
        for (std::size_t b = 0; b < m_bought.size(); ++b) {
            const BoughtPart& part = m_bought[b];
            if (m_ownerOfBought[b] != owner) continue;
            grow(slab::bounds(part));
            info.bought.push_back(part.name);
            if (!part.mass) info.unweighed.push_back(part.name);
            sum.add(part.mass.value_or(0), 0, part.centre);
        }
        info.mass = sum.mass;
        info.centre = sum.centre();
        info.box = leastBox(cornersOf(owner));
        return info;
    }

    [[nodiscard]] std::vector<Vec3> cornersOf(int owner) const {
        std::vector<Vec3> corners;
        for (std::size_t p = 0; p < m_plates.plates.size(); ++p) {
            const auto& points = m_plates.plates[p].solid.vertices;
            if (m_owner[p] == owner) corners.insert(corners.end(), points.begin(), points.end());
        }
        for (std::size_t b = 0; b < m_bought.size(); ++b) {
            if (m_ownerOfBought[b] != owner) continue;
            const std::vector<Vec3> points = cornersRound(m_bought[b]);
            corners.insert(corners.end(), points.begin(), points.end());
        }
        return corners;
    }

    [[nodiscard]] int ownerOf(const std::string& plate) const {
        for (std::size_t p = 0; p < m_plates.plates.size(); ++p)
            if (m_plates.plates[p].name == plate) return m_owner[p];
        return -2; // left out
    }

    void ties(ModuleInfo& info, int owner) {
        // By what stands where: alike pieces on one plate are told once.
        std::map<std::pair<std::string, std::string>, std::set<std::string>> stands;
        for (const JointInfo& joint : m_plates.joints) {
            const int a = ownerOf(joint.a), b = ownerOf(joint.b);
            if (joint.kind == JointKind::open || a == -2 || b == -2 || (a == owner) == (b == owner)) continue;
            const auto tie = a == owner ? std::pair(joint.a, joint.b) : std::pair(joint.b, joint.a);
            if (std::find(info.ties.begin(), info.ties.end(), tie) == info.ties.end())
                info.ties.push_back(tie);
        }
        for (const Plate& host : m_plates.plates)
            for (const Contact& contact : host.contacts) {
                const int a = ownerOf(host.name), b = ownerOf(contact.plate);
                if (a != -2 && b != -2 && (a == owner) != (b == owner))
                    stands[{firstOf(contact.plate), host.name}].insert(contact.plate);
            }
        if (!info.ties.empty()) tied(info, owner);
        for (const auto& [key, pieces] : stands) {
            const std::string &plate = *pieces.begin(), &host = key.second;
            const std::size_t count = pieces.size();
            const std::string more =
                count > 1 ? ", and " + std::to_string(count - 1) + " more like it," : std::string();
            find(Severity::note, "module-stands",
                 plate + more + (count > 1 ? " stand on " : " stands on ") + host +
                     ", across the border of module " + info.name,
                 {about(static_cast<std::size_t>(owner)), "plate:" + plate, "plate:" + host},
                 "Fasten it there so that it comes off: screws or pins, no glue.");
        }
    }
    /// Of several pieces that belong to one plate ("port/sill cleat#3") the first; else the plate itself.
    [[nodiscard]] std::string firstOf(const std::string& plate) const {
        const std::size_t slash = plate.rfind('/'), number = plate.rfind('#');
        if (slash == std::string::npos || number == std::string::npos || number < slash) return plate;
        const std::string first = plate.substr(0, number);
        return ownerOf(plate.substr(0, slash)) != -2 && ownerOf(first) != -2 ? first : plate;
    }

    void tied(const ModuleInfo& info, int owner) {
        constexpr std::size_t told = 4;
        std::string words;
        std::vector<std::string> what{about(static_cast<std::size_t>(owner))};
        for (std::size_t i = 0; i < info.ties.size(); ++i) {
            const auto& [own, other] = info.ties[i];
            if (i < told) words += (i == 0 ? "" : ", ") + own + " to " + other;
            what.push_back("edge:" + own + "|" + other);
        }
        if (info.ties.size() > told) words += " and " + std::to_string(info.ties.size() - told) + " more";
        find(Severity::look, "module-tied",
             "Module " + info.name + " does not come off: glued joints hold it (" + words + ")",
             std::move(what), "Make these joints open, or the form a standing one.");
    }

    void tryPassage(ModuleInfo& info, const PassageSize& passage, const std::vector<Vec3>& corners,
                    int owner) {
        const bool rest = owner < 0;
        ModulePassing passing{passage.name, bestPassing(corners, passage.width, passage.height)};
        if (!passing.passes()) {
            const std::string who = !rest                      ? "Module " + info.name
                                    : m_out.modules.size() > 1 ? "What the modules leave"
                                                               : "The body";
            find(Severity::look, "passage-too-small",
                 who + " does not pass " + passage.name + ": turned in its best way it needs " +
                     printLength(passing.way.needs.x(), m_units) + " × " +
                     printLength(passing.way.needs.y(), m_units) + ", " +
                     printFine(-passing.way.margin, m_units) + " too much",
                 {rest ? "document:/passages" : about(static_cast<std::size_t>(owner))},
                 "Let more of it come off as modules, or lower the scale.");
        }
        info.passings.push_back(std::move(passing));
    }

    const PlateSet& m_plates;
    const StockSet& m_stock;
    const std::vector<BoughtPart>& m_bought;
    const UnitStyle& m_units;
    std::vector<int> m_owner; ///< by plate: index of its module, -1 = none
    std::vector<int> m_ownerOfBought;
    std::set<std::string> m_told;
    ModuleSet m_out;
};

} // namespace

ModuleSet measureModules(const ModuleStuff& stuff, const std::vector<Module>& modules,
                         const std::vector<PassageSize>& passages, const UnitStyle& units) {
    Measurer measurer(stuff, units);
    measurer.share(modules);
    measurer.measure(modules, passages);
    return measurer.take();
}

std::vector<PassageSize> resolvePassages(const Project& project, const Scope& scope,
                                         std::vector<Finding>& findings) {
    std::vector<PassageSize> out;
    for (std::size_t i = 0; i < project.passages.size(); ++i) {
        const Passage& passage = project.passages[i];
        const std::string place = "document:/passages/" + std::to_string(i);
        PassageSize size{passage.name, 0, 0};
        bool sound = true;
        for (const auto& [text, value, field] : {std::tuple(&passage.width, &size.width, "/width"),
                                                 std::tuple(&passage.height, &size.height, "/height")}) {
            const auto read = evaluate(*text, scope, Space::build, Kind::length);
            if (read) {
                *value = read->value;
                continue;
            }
            sound = false;
            Finding f = findingOf(read.error(), Severity::look, {place + field});
            f.message = "Passage " + passage.name + ": " + f.message;
            findings.push_back(std::move(f));
        }
        if (!sound) continue;
        if (size.width > 0 && size.height > 0)
            out.push_back(std::move(size));
        else
            findings.push_back({Severity::look,
                                "passage-size",
                                "Passage " + passage.name + " has no size",
                                {place},
                                "Type its clear width and height, as your tape says.",
                                {}});
    }
    return out;
}

Vec3 centreOf(const Polyhedron& solid) {
    const std::vector<Vec3> corners = triangulate(solid);
    if (corners.empty()) return Vec3::Zero();
    const Vec3 base = corners.front(); // near by, so that little is lost to rounding
    double six = 0;
    Vec3 moment = Vec3::Zero();
    for (std::size_t i = 0; i + 2 < corners.size(); i += 3) {
        const Vec3 a = corners[i] - base, b = corners[i + 1] - base, c = corners[i + 2] - base;
        const double volume = a.dot(b.cross(c));
        six += volume;
        moment += volume * (a + b + c) / 4;
    }
    return std::abs(six) > 0 ? Vec3(base + moment / six) : base;
}

} // namespace slab
