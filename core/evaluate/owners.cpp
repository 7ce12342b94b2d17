#include "core/evaluate/owners.h"
#include <algorithm>
#include <array>
#include <limits>
#include <string_view>

namespace slab {

namespace {

/// Lowest middle of the edges along a strip: facets stand on the outside of the true curve and touch it
/// there.
/// @param piece  four corners at one station of the belt, then four at the next
void lowerAlong(const ConvexSolid& piece, Vec3& low) {
    const std::size_t half = piece.points.size() / 2;
    for (std::size_t i = 0; i < half; ++i) {
        const Vec3 middle = (piece.points[i] + piece.points[i + half]) / 2;
        if (middle.z() < low.z()) low = middle;
    }
}

struct Lowest {
    Vec3 at = Vec3::Constant(std::numeric_limits<double>::infinity());
    void offer(const Vec3& p) {
        if (p.z() < at.z()) at = p;
    }
    void offer(const ConvexSolid& piece) {
        if (piece.kind == ConvexSolid::Kind::cylinder)
            return offer(lowestOfRims(piece.points[0], piece.radius, piece.points[1], piece.radius));
        for (const Vec3& p : piece.points) offer(p - Vec3(0, 0, piece.radius));
    }
};

bool bent(const Plate& plate, const PartOwner& owner) {
    return owner.kind == "belt" && std::all_of(plate.cells.begin(), plate.cells.end(),
                                               [](const ConvexSolid& c) { return c.points.size() == 8; });
}

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

std::vector<LowPart> lowestOf(const Evaluation& e, const PartOwners& owners) {
    std::vector<LowPart> out;
    const auto add = [&](const std::string& name, const std::string& about, const PartOwner& owner,
                         const Lowest& low) {
        out.push_back({name, about, owner.words(), owner.about, low.at});
    };
    for (const Plate& plate : e.plates->plates) {
        const auto owner = owners.find(plate.form);
        if (owner == owners.end() || plate.face >= 0) continue; // a form may have a mechanism's name
        Lowest low;
        if (bent(plate, owner->second))
            for (const ConvexSolid& piece : plate.cells) lowerAlong(piece, low.at);
        else
            for (const Vec3& p : plate.solid.vertices) low.offer(p);
        add(plate.name, "plate:" + plate.name, owner->second, low);
    }
    for (const BoughtPart& part : boughtParts(*e.mechanisms, *e.body)) {
        const auto owner = owners.find(part.owner);
        if (owner == owners.end()) continue; // a round form: the body's own
        Lowest low;
        for (const ConvexSolid& piece : part.pieces) low.offer(piece);
        add(part.name, owner->second.about, owner->second, low);
    }
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

} // namespace slab
