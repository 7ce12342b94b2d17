#include "core/evaluate/owners.h"
#include <algorithm>
#include <array>
#include <string_view>

namespace slab {

namespace {

/// Names of what cuts plates and is no opening, with their words.
PartOwners cutters(const Project& project) {
    PartOwners out;
    for (const auto& [form, owner] : partOwners(project))
        if (owner.kind != "frame") out.emplace(form, owner);
    for (const Form& form : project.forms)
        if (std::holds_alternative<RoundShape>(form.shape))
            for (const char* side : {"", " port", " starboard"})
                out.emplace(form.name + side,
                            PartOwner{"form", form.name + side, "form:" + form.name + side});
    for (const Opening& opening : project.openings) out.erase(opening.name);
    return out;
}

struct Swap {
    std::string_view code, words, instead; ///< in the remedy; "*" stands for the owner
};
constexpr std::array<Swap, 6> swaps{
    {{"opening-takes-plate", "Make the opening smaller, move it,", "Make * smaller, move it,"},
     {"opening-loosens-piece", "Make the opening smaller, move it,", "Make * smaller, move it,"},
     {"opening-near-edge", ", or open it through the edge.",
      ": move *, make it smaller, or the plate larger."},
     {"openings-near", ", or make one opening of both.",
      ": move * or the other, or make one of them smaller."},
     {"opening-misses", "take the opening out.", "take * out."},
     {"opening-cuts-joint", "beside the opening, or move it.", "beside it, or move *."}}};

/// What stands behind an opening's name; one name may begin with another.
constexpr std::array<std::string_view, 5> follows{" leaves only ", " in ", " is larger ", " cuts ",
                                                  " takes "};

/// Every "opening NAME" of the message, at its beginning or within.
void nameOwner(std::string& message, const std::string& name, const PartOwner& owner) {
    for (const bool first : {true, false}) {
        const std::string from = (first ? "Opening " : "opening ") + name;
        for (std::size_t at = message.find(from); at != std::string::npos; at = message.find(from, at)) {
            const std::size_t end = at + from.size();
            const std::string_view rest = std::string_view(message).substr(end);
            const bool whole = std::any_of(follows.begin(), follows.end(),
                                           [&](std::string_view f) { return rest.starts_with(f); });
            const std::string to = (first ? "The opening of " : "the opening of ") + owner.words();
            if (whole) message.replace(at, from.size(), to);
            at += whole ? to.size() : from.size();
        }
    }
}

} // namespace

PartOwners partOwners(const Project& project) {
    PartOwners out;
    const auto add = [&](const auto& list, const std::string& kind) {
        for (const auto& entry : list)
            out.emplace(entry.name, PartOwner{kind, entry.name, "mechanism:" + entry.name});
    };
    add(project.mechanisms.turntables, "turntable");
    add(project.mechanisms.trunnions, "trunnion");
    add(project.mechanisms.linkages, "linkage");
    add(project.mechanisms.belts, "belt");
    for (const Rib& rib : project.frames)
        out.emplace("frames/" + rib.name, PartOwner{"frame", rib.name, "frame:" + rib.name});
    return out;
}

std::vector<Finding> inOwnersWords(std::vector<Finding> found, const Project& project) {
    const PartOwners owners = cutters(project);
    for (Finding& f : found) {
        const auto swap =
            std::find_if(swaps.begin(), swaps.end(), [&](const Swap& s) { return s.code == f.code; });
        if (swap == swaps.end()) continue;
        bool worded = false;
        for (std::string& about : f.about) {
            const std::size_t colon = about.find(':');
            const std::string kind = about.substr(0, colon), name = about.substr(colon + 1);
            const auto owner = kind == "opening" || kind == "form" ? owners.find(name) : owners.end();
            if (owner == owners.end()) continue;
            about = owner->second.about;
            nameOwner(f.message, name, owner->second);
            const std::size_t at = worded ? std::string::npos : f.remedy.find(swap->words);
            worded = true;
            if (at == std::string::npos) continue;
            std::string instead(swap->instead);
            instead.replace(instead.find('*'), 1, owner->second.words());
            f.remedy.replace(at, swap->words.size(), instead);
        }
    }
    return found;
}

std::vector<Finding> toldOnce(std::vector<Finding> fit, const std::vector<Finding>& swept) {
    std::erase_if(fit, [&](const Finding& f) {
        return std::any_of(swept.begin(), swept.end(), [&](const Finding& s) {
            return s.code.starts_with("sweep-") && s.severity >= f.severity &&
                   std::all_of(f.about.begin(), f.about.end(), [&](const std::string& about) {
                       return std::find(s.about.begin(), s.about.end(), about) != s.about.end();
                   });
        });
    });
    return fit;
}

} // namespace slab
