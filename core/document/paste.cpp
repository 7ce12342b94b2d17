#include "core/document/clip.h"
#include "core/document/copy.h"
#include "core/document/json.h"
#include "core/document/reach.h"
#include "core/document/sides.h"
#include <algorithm>
#include <set>

namespace slab {
namespace {

using detail::FormPlates;
using detail::keptApart;
using detail::rankIn;
using detail::sheetIn;

template <class T>
const T* namedIn(const std::vector<T>& all, const std::string& name) {
    const auto at = std::find_if(all.begin(), all.end(), [&](const T& one) { return one.name == name; });
    return at == all.end() ? nullptr : &*at;
}

/// "hull" -> "hull 2", or the next number that `taken` leaves free; a number that is there counts on.
template <class Taken>
std::string freshName(const std::string& name, const char* between, Taken taken) {
    std::string stem = name;
    const std::size_t digits = stem.find_last_not_of("0123456789");
    const std::string sign(between);
    if (digits != std::string::npos && digits + 1 < stem.size() && digits >= sign.size() &&
        stem.compare(digits + 1 - sign.size(), sign.size(), sign) == 0)
        stem.resize(digits + 1 - sign.size());
    if (stem.size() > 56) stem.resize(56); // a dimension has at most 64 letters
    for (int number = 2;; ++number)
        if (std::string tried = stem + sign + std::to_string(number); !taken(tried)) return tried;
}

/// Applies one renaming to the clip.
Expected<void> rename(Project& clip, const Edit& edit) {
    auto next = edit.apply(clip);
    if (!next) return tl::make_unexpected(std::move(next.error()));
    clip = std::move(*next);
    return {};
}

class Paste {
public:
    Paste(const Project& into, Project clip) : m_next(into), m_clip(std::move(clip)) {}

    Expected<Project> run() {
        const Project before = m_next;
        for (const auto step : {&Paste::dimensions, &Paste::sheets, &Paste::forms, &Paste::openings})
            if (auto done = (this->*step)(); !done) return tl::make_unexpected(std::move(done.error()));
        m_own = detail::platesOf(m_clip.forms);
        m_others = detail::platesOf(m_next.forms);
        materials();
        ranks();
        edges();
        for (Opening& o : m_clip.openings) {
            std::vector<std::string> plates;
            for (const std::string& pattern : o.plates)
                for (std::string& one : keptApart(pattern, m_own, m_others)) plates.push_back(std::move(one));
            o.plates = std::move(plates);
        }
        append(m_next.dimensions, m_clip.dimensions);
        append(m_next.stock.sheets, m_clip.stock.sheets);
        append(m_next.forms, m_clip.forms);
        append(m_next.openings, m_clip.openings);
        append(m_next.seams, m_clip.seams);
        for (PieceKey& key : m_clip.pieces)
            if (!namedIn(m_next.pieces, key.name)) m_next.pieces.push_back(std::move(key));
        if (auto sound = detail::stillSound(before, m_next); !sound)
            return tl::make_unexpected(std::move(sound.error()));
        return std::move(m_next);
    }

private:
    Project m_next, m_clip;
    std::vector<FormPlates> m_own, m_others;

    template <class T>
    static void append(std::vector<T>& to, const std::vector<T>& more) {
        to.insert(to.end(), more.begin(), more.end());
    }

    /// Does the name mean the same size in both, at any scale?
    [[nodiscard]] bool sameDimension(const std::string& name) const {
        for (const double scale : {1.0, 0.375}) {
            const Scope ours = detail::scopeOf(m_next, scale), theirs = detail::scopeOf(m_clip, scale);
            const auto a = ours.values.find(name), b = theirs.values.find(name);
            if (a == ours.values.end() || b == theirs.values.end() ||
                !detail::sameQuantity(a->second, b->second))
                return false;
        }
        return true;
    }

    Expected<void> dimensions() {
        std::set<std::string> shared;
        std::vector<std::string> other;
        for (const Dimension& d : m_clip.dimensions)
            if (namedIn(m_next.dimensions, d.name)) {
                if (sameDimension(d.name))
                    shared.insert(d.name);
                else
                    other.push_back(d.name);
            }
        for (const std::string& name : other) {
            const std::string fresh = freshName(name, "_", [&](const std::string& tried) {
                return namedIn(m_next.dimensions, tried) || namedIn(m_clip.dimensions, tried);
            });
            if (auto done = rename(m_clip, renameDimension(name, fresh)); !done) return done;
        }
        // What only a shared dimension needed is not brought along.
        std::erase_if(m_clip.dimensions, [&](const Dimension& d) { return shared.contains(d.name); });
        detail::dropUnusedDimensions(m_clip);
        return {};
    }

    [[nodiscard]] static bool sameSheet(const Project& a, const SheetStock& x, const Project& b,
                                        const SheetStock& y) {
        if (x.kind != y.kind || x.turns != y.turns || x.flip != y.flip) return false;
        const auto same = [&](const Text& s, const Text& t) {
            const auto u = evaluate(s, detail::scopeOf(a, 1), Space::build, Kind::length);
            const auto v = evaluate(t, detail::scopeOf(b, 1), Space::build, Kind::length);
            return u && v ? detail::sameQuantity(*u, *v) : s == t;
        };
        return same(x.width, y.width) && same(x.length, y.length) && same(x.thickness, y.thickness);
    }

    Expected<void> sheets() {
        std::vector<std::string> other;
        std::set<std::string> shared;
        for (const SheetStock& sheet : m_clip.stock.sheets)
            if (const SheetStock* there = namedIn(m_next.stock.sheets, sheet.name)) {
                if (sameSheet(m_clip, sheet, m_next, *there))
                    shared.insert(sheet.name);
                else
                    other.push_back(sheet.name);
            }
        for (const std::string& name : other) {
            const std::string fresh = freshName(name, " ", [&](const std::string& tried) {
                return namedIn(m_next.stock.sheets, tried) || namedIn(m_clip.stock.sheets, tried);
            });
            if (auto done = rename(m_clip, renameStock(name, fresh)); !done) return done;
        }
        std::erase_if(m_clip.stock.sheets,
                      [&](const SheetStock& sheet) { return shared.contains(sheet.name); });
        return {};
    }

    /// Free when neither the form nor one of its hands has the name of another form or hand.
    [[nodiscard]] bool formTaken(const std::string& name, bool mirror, const std::vector<Form>& forms) const {
        Form tried;
        tried.name = name;
        tried.mirror = mirror;
        auto mine = detail::handNames(tried);
        mine.push_back(name);
        for (const Form& form : forms) {
            auto hands = detail::handNames(form);
            hands.push_back(form.name);
            for (const std::string& hand : hands)
                if (std::find(mine.begin(), mine.end(), hand) != mine.end()) return true;
        }
        return false;
    }

    Expected<void> forms() {
        for (std::size_t i = 0; i < m_clip.forms.size(); ++i) {
            const std::string name = m_clip.forms[i].name;
            const bool mirror = m_clip.forms[i].mirror;
            if (formTaken(name, mirror, m_next.forms)) {
                const std::string fresh = freshName(name, " ", [&](const std::string& tried) {
                    return formTaken(tried, mirror, m_next.forms) || formTaken(tried, mirror, m_clip.forms);
                });
                if (auto done = rename(m_clip, renameForm(name, fresh)); !done) return done;
            }
        }
        stepAside();
        return {};
    }

    /// A form that would stand on an equal one goes forward until it is seen.
    void stepAside() {
        Project there = m_next;
        detail::writeUnits(there);
        for (Form& form : m_clip.forms) {
            const Text x = form.at.x;
            const auto hidden = [&] {
                return std::any_of(there.forms.begin(), there.forms.end(), [&](const Form& other) {
                    return other.shape == form.shape && other.at == form.at;
                });
            };
            for (int step = 100; hidden(); step += 100)
                form.at.x = (x.empty() || x == "0" ? "" : "(" + x + ") + ") + std::to_string(step) + " mm";
        }
    }

    Expected<void> openings() {
        for (Opening& o : m_clip.openings)
            if (namedIn(m_next.openings, o.name))
                o.name = freshName(o.name, " ", [&](const std::string& tried) {
                    return namedIn(m_next.openings, tried) || namedIn(m_clip.openings, tried);
                });
        return {};
    }

    template <class Same>
    [[nodiscard]] bool everyPlate(Same same) const {
        return std::all_of(m_own.begin(), m_own.end(), [&](const FormPlates& plates) {
            return std::all_of(plates.names.begin(), plates.names.end(), same);
        });
    }

    /// Has a plate a copied entry of its own, or does it take the copied fallback?
    [[nodiscard]] bool listed(const std::string& plate) const {
        return std::any_of(m_clip.materials.plates.begin(), m_clip.materials.plates.end(),
                           [&](const PlateMaterial& m) { return matches(m.plates, plate); });
    }

    void materials() {
        const auto agrees = [&](const std::string& plate) {
            return sheetIn(m_next.materials, plate) == sheetIn(m_clip.materials, plate);
        };
        const auto special = [&](const PlateMaterial& m) { return m.plates.find('#') != std::string::npos; };
        const bool pieces =
            std::any_of(m_clip.materials.plates.begin(), m_clip.materials.plates.end(), special);
        if (everyPlate(agrees) && !pieces) return;
        std::vector<PlateMaterial> all;
        for (const PlateMaterial& m : m_clip.materials.plates)
            for (std::string& one : keptApart(m.plates, m_own, m_others))
                all.push_back({std::move(one), m.stock});
        if (m_others.empty() && m_next.materials.fallback.empty())
            m_next.materials.fallback = m_clip.materials.fallback;
        for (const FormPlates& plates : m_own) {
            const bool caught = std::any_of(plates.names.begin(), plates.names.end(), [&](const auto& name) {
                return !listed(name) && sheetIn(m_next.materials, name) != m_clip.materials.fallback;
            });
            // No sheet was chosen where they come from: they take this document's.
            if (caught && !m_clip.materials.fallback.empty())
                all.push_back({plates.form + "/*", m_clip.materials.fallback});
        }
        std::set<std::string> taken;
        std::erase_if(all, [&](const PlateMaterial& m) { return !taken.insert(m.plates).second; });
        // One of the same words that is there reaches no plate of this document: it gives way.
        std::erase_if(m_next.materials.plates,
                      [&](const PlateMaterial& m) { return taken.contains(m.plates); });
        append(all, m_next.materials.plates);
        m_next.materials.plates = std::move(all);
    }

    /// Do two orders rank the pasted plates alike among themselves?
    [[nodiscard]] bool ranksAgree() const {
        std::vector<std::pair<int, int>> ranks; // in this document, as copied
        for (const FormPlates& plates : m_own)
            for (const std::string& name : plates.names)
                ranks.emplace_back(rankIn(m_next.joints.order, name), rankIn(m_clip.joints.order, name));
        std::sort(ranks.begin(), ranks.end());
        for (std::size_t i = 1; i < ranks.size(); ++i) {
            const bool tie = ranks[i].first == ranks[i - 1].first;
            if (tie ? ranks[i].second != ranks[i - 1].second : ranks[i].second <= ranks[i - 1].second)
                return false;
        }
        return true;
    }

    void ranks() {
        if (m_others.empty()) m_next.joints.fallback = m_clip.joints.fallback;
        if (m_clip.joints.fallback == JointKind::mitre && m_next.joints.fallback != JointKind::mitre)
            m_clip.joints.order.clear(); // all alike
        if (ranksAgree()) return;
        std::vector<std::string> all;
        for (const std::string& pattern : m_clip.joints.order)
            for (std::string& one : keptApart(pattern, m_own, m_others)) all.push_back(std::move(one));
        const int last = static_cast<int>(m_clip.joints.order.size());
        const int lastHere = static_cast<int>(m_next.joints.order.size());
        for (const FormPlates& plates : m_own) {
            const bool caught = std::any_of(plates.names.begin(), plates.names.end(), [&](const auto& name) {
                return rankIn(m_clip.joints.order, name) == last &&
                       rankIn(m_next.joints.order, name) < lastHere;
            });
            if (caught) all.push_back(plates.form + "/*");
        }
        append(all, m_next.joints.order);
        m_next.joints.order = std::move(all);
    }

    void edges() {
        std::vector<EdgeJoint> all;
        for (const EdgeJoint& e : m_clip.joints.edges)
            for (const std::string& a : keptApart(e.a, m_own, m_others))
                for (const std::string& b : keptApart(e.b, m_own, m_others)) {
                    all.push_back(e);
                    all.back().a = a;
                    all.back().b = b;
                }
        append(all, m_next.joints.edges);
        m_next.joints.edges = std::move(all);
    }
};

} // namespace

Edit pasteForms(std::string text, std::string label) {
    Edit edit{std::move(label), {}, {}};
    edit.apply = [text = std::move(text)](const Project& p) -> Expected<Project> {
        auto clip = detail::readClip(text);
        if (!clip) return tl::make_unexpected(std::move(clip.error()));
        return Paste(p, std::move(*clip)).run();
    };
    return edit;
}

Edit duplicateForms(std::vector<std::string> names) {
    Edit edit{names.size() == 1 ? "Duplicate " + names.front() : "Duplicate forms", {}, {}};
    edit.apply = [names = std::move(names)](const Project& p) -> Expected<Project> {
        const auto text = copyForms(p, names);
        if (!text) return tl::make_unexpected(text.error());
        return pasteForms(*text).apply(p);
    };
    return edit;
}

} // namespace slab
