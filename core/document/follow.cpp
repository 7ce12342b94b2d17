#include "core/document/follow.h"
#include "core/document/describe.h"
#include "core/document/sides.h"
#include "core/document/texts.h"
#include <algorithm>
#include <map>
#include <set>

namespace slab::detail {
namespace {

/// A plate before and after.
struct Known {
    std::string form, side, newForm, newSide;
    [[nodiscard]] std::string before() const { return form + "/" + side; }
    [[nodiscard]] std::string after() const { return newForm + "/" + newSide; }
    [[nodiscard]] bool renamed() const { return form != newForm || side != newSide; }
};

std::vector<Known> knownPlates(const Project& before, const Project& after) {
    std::vector<Known> all;
    for (std::size_t f = 0; f < before.forms.size(); ++f) {
        const auto forms = handNames(before.forms[f]), newForms = handNames(after.forms[f]);
        const auto sides = sidesOf(before.forms[f]), newSides = sidesOf(after.forms[f]);
        for (std::size_t h = 0; h < forms.size(); ++h)
            for (std::size_t s = 0; s < std::min(sides.size(), newSides.size()); ++s)
                all.push_back({forms[h], sides[s], newForms[h], newSides[s]});
    }
    return all;
}

/// Length of "#12" or "~12" at the end of a name; 0 if there is none.
std::size_t numberTail(std::string_view name, char sign) {
    const std::size_t at = name.rfind(sign);
    if (at == std::string_view::npos || at + 1 == name.size()) return 0;
    return name.find_first_not_of("0123456789", at + 1) == std::string_view::npos ? name.size() - at : 0;
}

class Follower {
public:
    Follower(const Project& before, const Project& after) : m_known(knownPlates(before, after)) {
        for (const Known& k : m_known)
            if (k.renamed()) m_names.emplace(k.before(), k.after());
        for (std::size_t f = 0; f < before.forms.size(); ++f) {
            const auto forms = handNames(before.forms[f]), newForms = handNames(after.forms[f]);
            for (std::size_t h = 0; h < forms.size(); ++h)
                if (forms[h] != newForms[h]) m_forms.emplace(forms[h], newForms[h]);
        }
    }

    [[nodiscard]] bool nothing() const { return m_names.empty() && m_forms.empty(); }

    /// A name without *; its facet and piece numbers stay.
    [[nodiscard]] std::string name(const std::string& text) const {
        std::size_t length = text.size();
        for (const char sign : {' ', '#', '~'}) {
            if (sign != ' ') length -= numberTail(std::string_view(text).substr(0, length), sign);
            const auto found = m_names.find(text.substr(0, length));
            if (found != m_names.end()) return found->second + text.substr(length);
        }
        return ofForm(text);
    }

    /// What takes the place of a pattern: itself, itself in other words, or itself with the new names beside
    /// it.
    [[nodiscard]] std::vector<std::string> pattern(const std::string& text) const {
        if (text.find('*') == std::string::npos) return {name(text)};
        if (const std::string other = ofForm(text); other != text && sameReach(text, other)) return {other};
        if (sameReach(text, text)) return {text};
        for (const Known& k : m_known) {
            if (!k.renamed()) continue;
            const std::string other = reworded(text, k);
            if (other != text && sameReach(text, other)) return {other};
        }
        std::vector<std::string> all;
        const bool used = std::any_of(m_known.begin(), m_known.end(),
                                      [&](const Known& k) { return matches(text, k.after()); });
        if (used) all.push_back(text);
        for (const Known& k : m_known)
            if (reaches(text, k.before()) && !reaches(text, k.after())) all.push_back(k.after());
        if (all.empty()) all.push_back(text);
        return all;
    }

private:
    std::vector<Known> m_known;
    std::map<std::string, std::string> m_names, m_forms;

    /// With the form's new name, whatever its side.
    [[nodiscard]] std::string ofForm(const std::string& text) const {
        const std::size_t slash = text.find('/');
        const auto found = m_forms.find(text.substr(0, slash));
        if (found == m_forms.end()) return text;
        return found->second + (slash == std::string::npos ? std::string() : text.substr(slash));
    }

    /// The plate itself, or the facets that its curve makes of it.
    static bool reaches(const std::string& pattern, const std::string& plate) {
        return matches(pattern, plate) || matches(pattern, plate + "~1");
    }

    [[nodiscard]] bool sameReach(const std::string& before, const std::string& after) const {
        return std::all_of(m_known.begin(), m_known.end(), [&](const Known& k) {
            return matches(before, k.before()) == matches(after, k.after()) &&
                   matches(before, k.before() + "~1") == matches(after, k.after() + "~1");
        });
    }

    static std::string swapped(const std::string& text, const std::string& from, const std::string& to) {
        const std::size_t at = from == to ? std::string::npos : text.find(from);
        return at == std::string::npos ? text : text.substr(0, at) + to + text.substr(at + from.size());
    }

    static std::string reworded(const std::string& text, const Known& k) {
        const std::size_t slash = text.find('/');
        const std::string form = text.substr(0, slash);
        const std::string side = slash == std::string::npos ? std::string() : text.substr(slash);
        // A mirrored form is named without its hand, too.
        std::string newForm = swapped(form, k.form, k.newForm);
        for (const char* hand : {" port", " starboard"})
            if (newForm == form && k.form.ends_with(hand) && k.newForm.ends_with(hand)) {
                const std::size_t tail = std::string_view(hand).size();
                newForm = swapped(form, k.form.substr(0, k.form.size() - tail),
                                  k.newForm.substr(0, k.newForm.size() - tail));
            }
        return newForm + swapped(side, "/" + k.side, "/" + k.newSide);
    }
};

void followList(const Follower& follower, std::vector<std::string>& patterns) {
    std::vector<std::string> all;
    for (const std::string& text : patterns)
        for (std::string& one : follower.pattern(text)) all.push_back(std::move(one));
    patterns = std::move(all);
}

void followMaterials(const Follower& follower, Materials& materials) {
    std::vector<PlateMaterial> all;
    std::set<std::string> taken;
    for (const PlateMaterial& m : materials.plates)
        for (std::string& one : follower.pattern(m.plates))
            if (taken.insert(one).second) all.push_back({std::move(one), m.stock});
    materials.plates = std::move(all);
}

void followEdges(const Follower& follower, std::vector<EdgeJoint>& edges) {
    std::vector<EdgeJoint> all;
    for (const EdgeJoint& e : edges)
        for (const std::string& a : follower.pattern(e.a))
            for (const std::string& b : follower.pattern(e.b)) {
                all.push_back(e);
                all.back().a = a;
                all.back().b = b;
            }
    edges = std::move(all);
}

} // namespace

void followPlates(const Project& before, Project& after) {
    const Follower follower(before, after);
    if (follower.nothing()) return;
    followList(follower, after.joints.order);
    followMaterials(follower, after.materials);
    followEdges(follower, after.joints.edges);
    for (Opening& o : after.openings) {
        if (!o.plate.empty()) o.plate = follower.pattern(o.plate).back();
        followList(follower, o.plates);
    }
    for (CleatRule& c : after.cleats) {
        c.a = follower.pattern(c.a).back();
        c.b = follower.pattern(c.b).back();
    }
    for (Seam& m : after.seams) m.plate = follower.pattern(m.plate).back();
    for (Module& m : after.modules) followList(follower, m.plates);
    for (Turntable& t : after.mechanisms.turntables) followList(follower, t.carries);
    for (CutPanel& c : after.cut) c.panel = follower.name(c.panel);
    for (PieceKey& k : after.pieces) {
        k.name = follower.name(k.name);
        for (std::string& n : k.neighbours) n = follower.name(n);
    }
}

} // namespace slab::detail
