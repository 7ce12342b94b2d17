#include "tests/evaluate/finding_truth.h"
#include "core/document/edit.h"
#include <algorithm>
#include <regex>
#include <set>

namespace slab::test {
namespace {

template <class List>
bool named(const List& all, const std::string& name) {
    return std::any_of(all.begin(), all.end(), [&](const auto& one) { return one.name == name; });
}

bool isPlate(const Evaluation& e, const std::string& name) {
    return e.plates && named(e.plates->plates, name);
}

bool isForm(const Project& p, const std::string& name) {
    return std::any_of(p.forms.begin(), p.forms.end(), [&](const Form& f) {
        return f.name == name || (f.mirror && (f.name + " port" == name || f.name + " starboard" == name));
    });
}

bool isMechanism(const Project& p, const std::string& name) {
    const Mechanisms& m = p.mechanisms;
    return named(m.turntables, name) || named(m.trunnions, name) || named(m.linkages, name) ||
           named(m.belts, name);
}

/// A face of the skin that has no plate (left out), or lost it.
bool isFace(const Evaluation& e, const std::string& name) {
    return e.body &&
           std::any_of(e.body->skin.faces.begin(), e.body->skin.faces.end(), [&](const SkinFace& face) {
               return face.name == name ||
                      std::find(face.aliases.begin(), face.aliases.end(), name) != face.aliases.end();
           });
}

/// Does "kind:name" name something that is there?
bool resolves(const std::string& about, const Project& p, const Evaluation& e) {
    const std::size_t colon = about.find(':');
    if (colon == std::string::npos) return false;
    const std::string kind = about.substr(0, colon), name = about.substr(colon + 1);
    if (kind == "document") return name.empty() || valueAt(p, name).has_value();
    if (kind == "plate" || kind == "panel")
        return isPlate(e, name) || isFace(e, name) || isForm(p, name.substr(0, name.find('/')));
    if (kind == "form") return isForm(p, name);
    if (kind == "dimension") return named(p.dimensions, name);
    if (kind == "opening") // a round form and a mechanism cut theirs under their own names
        return named(p.openings, name) || isForm(p, name) || isMechanism(p, name);
    if (kind == "stock") return named(p.stock.sheets, name);
    if (kind == "solid")
        return (e.donor && named(e.donor->solids, name)) || named(p.donor.solids, name) ||
               (name.starts_with("donor/") && named(p.donor.solids, name.substr(6))) ||
               (e.mechanisms && named(e.mechanisms->solids, name));
    if (kind == "edge") {
        const std::size_t bar = name.find('|');
        return bar != std::string::npos &&
               (isPlate(e, name.substr(0, bar)) || isFace(e, name.substr(0, bar))) &&
               (isPlate(e, name.substr(bar + 1)) || isFace(e, name.substr(bar + 1)));
    }
    if (kind == "frame") return named(p.frames, name);
    if (kind == "cleat") return named(p.cleats, name);
    if (kind == "module") return named(p.modules, name);
    if (kind == "picture") return named(p.pictures, name);
    if (kind == "line") return named(p.lines, name);
    if (kind == "mechanism") return isMechanism(p, name);
    return false;
}

/// Findings whose very point is that the document names something which is not there.
bool tellsOfAbsence(const std::string& code) {
    static const std::set<std::string> codes = {
        "unknown-stock",    "cut-panel-gone",     "matches-no-plate", "joint-matches-no-edge",
        "carries-no-plate", "donor-unknown-size", "mechanism-stock"};
    return codes.contains(code);
}

/// A plate that a form has; parts of mechanisms are named after these.
bool isOfForm(const Project& p, const Plate& plate) {
    return isForm(p, plate.name.substr(0, plate.name.find('/')));
}

/// Says that something is missing which is there.
std::string falseAbsence(const Finding& f, const Project& p, const Evaluation& e) {
    for (const std::string& about : f.about) {
        const std::string name = about.substr(about.find(':') + 1);
        if (f.code == "unknown-stock" && about.starts_with("stock:") && e.stock && e.stock->find(name))
            return "misses sheet " + name + ", which can be used";
        if (f.code == "cut-panel-gone" && about.starts_with("panel:") && isPlate(e, name))
            return "misses " + name + ", which is there";
        if ((f.code == "matches-no-plate" || f.code == "carries-no-plate") && about.starts_with("plate:") &&
            e.plates &&
            std::any_of(e.plates->plates.begin(), e.plates->plates.end(), [&](const Plate& plate) {
                return matches(name, plate.name) && (f.code != "matches-no-plate" || isOfForm(p, plate));
            }))
            return "says of " + name + " that it matches nothing";
    }
    return {};
}

std::string badWords(const Finding& f) {
    static const std::regex internal(
        R"(\b(nan|-?inf|nullptr|null|std::|assert|TopoDS|BRep\w*|BOPAlgo\w*|Standard_\w+|exception|undefined|bool|vector|0x[0-9a-f]+)\b|  |\bindex\b|-1\b[^ ]*face)",
        std::regex::icase);
    // What the builder typed is quoted back as it is.
    const std::string message = std::regex_replace(f.message, std::regex("\"[^\"]*\""), "\"\"");
    for (const std::string& text : {message, f.remedy})
        if (std::smatch found; std::regex_search(text, found, internal))
            return "says \"" + found.str() + "\"";
    if (f.message.empty()) return "says nothing";
    if (f.message.find(f.code) != std::string::npos && f.code.find('-') != std::string::npos)
        return "says its code";
    if (f.severity != Severity::note && f.remedy.empty()) return "gives no remedy";
    return {};
}

std::string badFigures(const Finding& f, const Evaluation& e) {
    if ((f.code == "fit-hits" || f.code == "fit-tight") && e.fit) {
        const FitState state = f.code == "fit-hits" ? FitState::hits : FitState::tight;
        const bool there = std::any_of(e.fit->pairs.begin(), e.fit->pairs.end(), [&](const FitPair& p) {
            return p.state == state && f.about.size() > 1 && f.about[0] == "solid:" + p.solid &&
                   (f.about[1] == "plate:" + p.plate || f.about[1] == "form:" + p.plate);
        });
        if (!there) return "no such pair in the fit";
    }
    if (f.at)
        for (const double x : *f.at)
            if (!std::isfinite(x)) return "stands nowhere";
    return {};
}

} // namespace

std::string untruth(const Finding& f, const Project& p, const Evaluation& e) {
    if (auto bad = badWords(f); !bad.empty()) return bad;
    if (auto bad = badFigures(f, e); !bad.empty()) return bad;
    if (auto bad = falseAbsence(f, p, e); !bad.empty()) return bad;
    if (f.about.empty()) return "is about nothing";
    bool any = false;
    for (const std::string& about : f.about) {
        const bool there = resolves(about, p, e);
        any = any || there;
        if (!there && f.severity == Severity::stop && !tellsOfAbsence(f.code))
            return "names " + about + ", which is not there";
    }
    return any || tellsOfAbsence(f.code) ? "" : "names only what is not there";
}

} // namespace slab::test
