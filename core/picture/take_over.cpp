// A donor size measured on pictures becomes the document's.
#include "core/donor/generic.h"
#include "core/picture/edits.h"
#include "core/picture/typed.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr const char* noteStart = "Two standard errors of ";

Unit unitOfDocument(const Project& p) {
    const auto unit = parseUnit(p.units);
    return unit ? *unit : Unit::mm;
}

Scope scopeOf(const Project& p) {
    std::vector<NamedFormula> named;
    for (const Dimension& d : p.dimensions) named.push_back({d.name, d.value, d.space});
    const auto scale = parseRatio(p.scale);
    return evaluateAll(named, scale && *scale > 0 ? *scale : 1, unitOfDocument(p)).scope;
}

void setChange(Project& p, const std::string& size, Text value) {
    for (NamedText& c : p.donor.changes)
        if (c.name == size) {
            c.value = std::move(value);
            return;
        }
    p.donor.changes.push_back({size, std::move(value)});
}

/// −1 for a size that lies behind the axle now.
double signOf(const Project& p, const DonorSize& size) {
    if (!isPosition(size.name)) return 1;
    double value = size.value;
    for (const NamedText& c : p.donor.changes)
        if (c.name == size.name)
            if (const auto q = evaluate(c.value, scopeOf(p), Space::build, Kind::length)) value = q->value;
    return value < 0 ? -1 : 1;
}

/// Solids whose shape follows the size: what a change by its uncertainty moves.
std::vector<FitSolid> movedSolids(const Project& p, const std::string& size, double value, double by) {
    Project other = p;
    setChange(other, size, printExact(value + by, Unit::mm));
    const Scope scope = scopeOf(p);
    const DonorSet before = resolveDonor(p, scope), after = resolveDonor(other, scope);
    std::vector<FitSolid> moved;
    for (const FitSolid& s : before.solids) {
        const auto same = std::find_if(after.solids.begin(), after.solids.end(),
                                       [&](const FitSolid& t) { return t.name == s.name; });
        if (same == after.solids.end() || !(same->shape == s.shape)) moved.push_back(s);
    }
    return moved;
}

void widenText(Text& text, const std::string& by) {
    const auto names = namesIn(text);
    if (std::find(names.begin(), names.end(), by) == names.end()) text += " + " + by;
}

class Widener {
public:
    Widener(Project& p, std::string name) : m_p(p), m_name(std::move(name)) {
        if (m_p.clearance.fallback.find_first_not_of(' ') != std::string::npos)
            m_usual = m_p.clearance.fallback;
        const auto usual = evaluate(m_usual, scopeOf(p), Space::build, Kind::length);
        m_usualValue = usual ? usual->value : 20;
    }
    void widen(const std::vector<FitSolid>& moved, const DonorSet& all) {
        const auto count = [&](const std::vector<FitSolid>& solids) {
            return std::count_if(solids.begin(), solids.end(),
                                 [&](const FitSolid& s) { return s.group == "rider" && !entry(s.name); });
        };
        const bool wholeRider = count(moved) > 0 && count(moved) == count(all.solids);
        if (wholeRider) {
            if (m_p.rider.clearance.empty()) m_p.rider.clearance = usualByName();
            widenText(m_p.rider.clearance, m_name);
        }
        for (const FitSolid& s : moved) {
            if (NamedText* own = entry(s.name))
                widenText(own->value, m_name);
            else if (!(wholeRider && s.group == "rider"))
                m_p.clearance.solids.push_back({s.name, base(s) + " + " + m_name});
        }
    }

private:
    Project& m_p;
    std::string m_name;
    Text m_usual = "20 mm";
    double m_usualValue = 20;

    NamedText* entry(const std::string& solid) {
        for (NamedText& c : m_p.clearance.solids)
            if (c.name == solid || "donor/" + c.name == solid) return &c;
        return nullptr;
    }
    /// The clearance as it is now: by name where it is the usual one.
    [[nodiscard]] Text base(const FitSolid& s) {
        if (s.group == "rider" && !m_p.rider.clearance.empty()) return m_p.rider.clearance;
        return std::abs(s.clearance - m_usualValue) < 1e-9 ? usualByName()
                                                           : printExact(s.clearance, unitOfDocument(m_p));
    }
    /// The usual clearance gets a name, so that sums with it follow when it is changed.
    Text usualByName() {
        const auto isName = [&](const Dimension& d) { return d.name == m_usual; };
        if (std::any_of(m_p.dimensions.begin(), m_p.dimensions.end(), isName)) return m_usual;
        std::vector<std::string> taken;
        for (const Dimension& d : m_p.dimensions) taken.push_back(d.name);
        const std::string name = freeName("usual_clearance", taken);
        m_p.dimensions.push_back({name,
                                  m_usual,
                                  Space::build,
                                  "What has no clearance of its own stays as far from the plates.",
                                  {}});
        m_p.clearance.fallback = m_usual = name;
        return name;
    }
};

Expected<void> setUncertainty(Project& p, const std::string& name, const MeasuredSize& size) {
    Dimension d{name,
                typedLength(2 * size.value.error, size.value.error / 2, unitOfDocument(p), true),
                Space::build,
                noteStart + size.label + " as measured on pictures.",
                {}};
    for (Dimension& old : p.dimensions) {
        if (old.name != name) continue;
        if (old.note.rfind(noteStart, 0) != 0)
            return fail("duplicate-name", "The name " + name + " is taken by another dimension.",
                        "/dimensions", "Rename that dimension.");
        old.value = d.value;
        return {};
    }
    p.dimensions.push_back(std::move(d));
    return {};
}

} // namespace

Edit takeOver(const MeasuredSize& size, bool widen) {
    Edit edit{"Take over " + size.label, {}, {}};
    edit.apply = [size, widen](const Project& p) -> Expected<Project> {
        const auto sizes = donorSizes(p.donor.kind);
        const auto known =
            std::find_if(sizes.begin(), sizes.end(), [&](const DonorSize& s) { return s.name == size.size; });
        if (known == sizes.end())
            return fail("picture-size-unknown", "The donor has no size called \"" + size.size + "\".",
                        "/donor", "Choose one of the donor's sizes.");
        Project next = p;
        const double sign = signOf(p, *known);
        Text text = typedLength(size.value.value, size.value.error, unitOfDocument(p));
        if (sign < 0) text = "-" + text;
        setChange(next, size.size, text);
        if (!widen) return next;
        const std::string name = size.size + "_uncertainty";
        if (auto done = setUncertainty(next, name, size); !done) return tl::make_unexpected(done.error());
        const DonorSet all = resolveDonor(next, scopeOf(next));
        const double by = std::max(2 * size.value.error, 1.0);
        const auto moved = movedSolids(next, size.size, sign * size.value.value, by);
        Widener(next, name).widen(moved, all);
        return next;
    };
    return edit;
}

} // namespace slab
