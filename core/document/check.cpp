#include "core/document/json.h"
#include "core/units/number.h"
#include <algorithm>
#include <map>

namespace slab::detail {
namespace {

class Check {
public:
    explicit Check(const Project& p) : m_p(p) {}
    std::vector<Error> run() {
        dimensions();
        forms();
        stock();
        openings();
        unique("/donor/solids", m_p.donor.solids, "solid");
        for (std::size_t i = 0; i < m_p.donor.solids.size(); ++i)
            label("/donor/solids/" + std::to_string(i) + "/name", m_p.donor.solids[i].name, "solid", "");
        parts();
        paper();
        return std::move(m_errors);
    }
    std::vector<Error> uses() {
        stockUse("/materials/default", m_p.materials.fallback);
        for (const PlateMaterial& m : m_p.materials.plates)
            stockUse("/materials/plates/" + escaped(m.plates), m.stock);
        return std::move(m_errors);
    }

private:
    const Project& m_p;
    std::vector<Error> m_errors;

    void add(std::string code, std::string message, std::string where, std::string remedy) {
        if (m_errors.size() < kMostErrors)
            m_errors.push_back({std::move(code), std::move(message), std::move(where), std::move(remedy)});
    }

    template <class T>
    void unique(const std::string& list, const std::vector<T>& all, const char* what) {
        std::map<std::string_view, std::size_t> seen;
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (all[i].name.empty()) continue;
            const auto [at, fresh] = seen.emplace(all[i].name, i);
            if (!fresh)
                add("duplicate-name",
                    std::string("The ") + what + " name \"" + all[i].name + "\" is used twice, first at " +
                        list + "/" + std::to_string(at->second) + ".",
                    list + "/" + std::to_string(i) + "/name", "rename one of them");
        }
    }

    /// A name that is shown and used in plate names or patterns: no edge blanks, no signs with a meaning.
    void label(const std::string& where, const std::string& name, const std::string& what,
               std::string_view signs) {
        constexpr std::size_t longest = 200;
        if (name.size() > longest) {
            add("bad-name",
                "The name \"" + shortened(name) + "\" is longer than " + std::to_string(longest) +
                    " letters.",
                where, "use a shorter one");
            return;
        }
        const bool blank = name.empty() || name.front() == ' ' || name.back() == ' ';
        const bool control = std::any_of(name.begin(), name.end(), [](char c) {
            return static_cast<unsigned char>(c) < 0x20U || c == 0x7F;
        });
        if (blank || control || name.find_first_of(signs) != std::string::npos) {
            std::string remedy = "use letters, digits, blanks inside, - and _";
            if (!signs.empty()) remedy += "; not " + std::string(signs);
            add("bad-name", "\"" + shortened(name) + "\" cannot name a " + what + ".", where,
                std::move(remedy));
        }
    }

    void dimensions() {
        unique("/dimensions", m_p.dimensions, "dimension");
        for (std::size_t i = 0; i < m_p.dimensions.size(); ++i)
            if (!isValidName(m_p.dimensions[i].name))
                add("bad-name", "\"" + shortened(m_p.dimensions[i].name) + "\" cannot name a dimension.",
                    "/dimensions/" + std::to_string(i) + "/name",
                    "use a letter first, then letters, digits and _, and no function or unit name");
    }

    void points(const std::string& where, const std::vector<OutlinePoint>& outline, std::size_t least) {
        if (outline.size() < least)
            add(outline.empty() ? "empty-outline" : "too-few-points",
                outline.empty() ? "There are no points here."
                                : "An outline needs at least " + std::to_string(least) + " points.",
                where, "add points");
        unique(where, outline, "point");
        for (std::size_t i = 0; i < outline.size(); ++i)
            if (!outline[i].name.empty())
                label(where + "/" + std::to_string(i) + "/name", outline[i].name, "point", "*#|/");
    }

    void shape(const std::string& where, const ProfileShape& s) { points(where + "/outline", s.outline, 3); }
    void shape(const std::string& where, const PlateShape& s) { points(where + "/outline", s.outline, 3); }
    void shape(const std::string&, const RoundShape&) {}
    void shape(const std::string& where, const TaperShape& s) {
        points(where + "/base", s.base, 3);
        points(where + "/top", s.top, 3);
    }
    void shape(const std::string& where, const FacetShape& s) {
        points(where + "/corners", s.corners, 4);
        if (s.faces.size() < 4)
            add(s.faces.empty() ? "empty-outline" : "too-few-points", "A solid needs at least 4 faces.",
                where + "/faces", "add faces");
        unique(where + "/faces", s.faces, "face");
    }

    void forms() {
        unique("/forms", m_p.forms, "form");
        for (std::size_t i = 0; i < m_p.forms.size(); ++i) {
            const std::string where = "/forms/" + std::to_string(i);
            label(where + "/name", m_p.forms[i].name, "form", "/*#|");
            std::visit([&](const auto& s) { shape(where, s); }, m_p.forms[i].shape);
        }
    }

    bool sheetNamed(const std::string& name) const {
        return std::any_of(m_p.stock.sheets.begin(), m_p.stock.sheets.end(),
                           [&](const SheetStock& s) { return s.name == name; });
    }

    void stockUse(const std::string& where, const std::string& name) {
        if (name.empty() || sheetNamed(name)) return;
        std::string known;
        for (const SheetStock& s :
             std::span(m_p.stock.sheets).first(std::min<std::size_t>(12, m_p.stock.sheets.size())))
            known += (known.empty() ? "" : ", ") + s.name;
        add("unknown-stock", "There is no sheet named \"" + shortened(name) + "\" in the stock.", where,
            known.empty() ? "add it under stock/sheets"
                          : "use one of " + known + ", or add it under stock/sheets");
    }

    void stock() {
        unique("/stock/sheets", m_p.stock.sheets, "sheet");
        for (std::size_t i = 0; i < m_p.stock.sheets.size(); ++i)
            label("/stock/sheets/" + std::to_string(i) + "/name", m_p.stock.sheets[i].name, "sheet", "|");
    }

    void openings() {
        unique("/openings", m_p.openings, "opening");
        for (std::size_t i = 0; i < m_p.openings.size(); ++i) {
            const Opening& o = m_p.openings[i];
            const std::string where = "/openings/" + std::to_string(i);
            label(where + "/name", o.name, "opening", "|");
            if (o.shape == OpeningShape::polygon) points(where + "/outline", o.outline, 3);
        }
    }

    template <class T>
    void named(const std::string& list, const std::vector<T>& all, const char* what) {
        unique(list, all, what);
        for (std::size_t i = 0; i < all.size(); ++i)
            label(list + "/" + std::to_string(i) + "/name", all[i].name, what, "/*#|");
    }

    void parts() {
        named("/frames", m_p.frames, "frame");
        named("/cleats", m_p.cleats, "cleat rule");
        named("/modules", m_p.modules, "module");
        named("/passages", m_p.passages, "passage");
        named("/route", m_p.route, "part of the route");
        named("/passengers", m_p.passengers, "passenger");
        named("/ride/ballast", m_p.ride.ballast, "ballast");
        named("/ride/shell_wheels", m_p.ride.wheels, "wheel");
        named("/donor/wheels", m_p.donor.wheels, "wheel");
        named("/donor/service_points", m_p.donor.service, "service point");
        named("/stock/rounds", m_p.stock.rounds, "round part");
        named("/mechanisms/turntables", m_p.mechanisms.turntables, "turntable");
        named("/mechanisms/trunnions", m_p.mechanisms.trunnions, "trunnion");
        named("/mechanisms/linkages", m_p.mechanisms.linkages, "linkage");
        named("/mechanisms/belts", m_p.mechanisms.belts, "belt");
        for (std::size_t i = 0; i < m_p.mechanisms.belts.size(); ++i)
            named("/mechanisms/belts/" + std::to_string(i) + "/wheels", m_p.mechanisms.belts[i].wheels,
                  "wheel");
        named("/pictures", m_p.pictures, "picture");
        named("/dimension_lines", m_p.lines, "dimension line");
    }

    void paper() {
        const std::string& p = m_p.paper;
        if (p == "A4" || p == "A3" || p == "Letter" || p == "Tabloid") return;
        const bool roll = p.starts_with("roll ");
        const auto width = parseLength(roll ? std::string_view(p).substr(5) : std::string_view{}, Unit::mm);
        if (!roll || !width || *width <= 0)
            add("unknown-value", "\"" + shortened(p) + "\" is not a paper that is known here.", "/paper",
                "use Letter, A4, A3, Tabloid or a roll with its width, such as roll 36 in");
    }
};

} // namespace

std::vector<Error> checkProject(const Project& project) {
    return Check(project).run();
}

std::vector<Error> checkUses(const Project& project) {
    return Check(project).uses();
}

Expected<void> stillSound(const Project& before, const Project& after) {
    const auto errorsOf = [](const Project& p) {
        auto errors = checkProject(p);
        for (Error& e : checkUses(p)) errors.push_back(std::move(e));
        return errors;
    };
    auto errors = errorsOf(after);
    if (errors.empty()) return {};
    const auto old = errorsOf(before);
    for (Error& e : errors) {
        bool known = false;
        for (const Error& o : old) known = known || (o.code == e.code && o.message == e.message);
        if (!known) return tl::make_unexpected(std::move(e));
    }
    return {};
}

} // namespace slab::detail
