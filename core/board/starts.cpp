#include "core/board/starts.h"
#include "core/board/start_maker.h"
#include "core/document/copy.h"
#include "core/donor/kinds.h"
#include "core/evaluate/evaluate.h"
#include <algorithm>
#include <array>
#include <functional>
#include <string_view>

namespace slab {

namespace {

using detail::StartMaker;

/// Extent along x of what is inside, with the margin, moved so that the body's rear end is at 0.
struct Span {
    double rear = 0; ///< of the room, in donor axes
    double length = 0;
};
Span spanOf(const StartMaker& m, const Box3& box, double more = 0) {
    const double gap = m.margin() + more;
    return {box.min.x() - gap, box.max.x() - box.min.x() + 2 * gap};
}

void box(StartMaker& m) {
    const Box3 all = m.inside();
    const Span span = spanOf(m, all);
    m.dimension("body_length", span.length);
    const double width = m.dimension("body_width", 2 * (StartMaker::half(all) + m.margin()));
    const double roof = m.dimension("roof_height", all.max.z() + m.margin());
    const double floor = m.dimension("floor_height", 60, "lower edge above the ground");
    m.placeDonor(-span.rear);
    const auto plan = StartMaker::rectangle("0", "body_length", "body_width / 2");
    m.taper("box", plan, plan, "floor_height", "roof_height");
    m.leaveOpen("box/base");
    m.project.joints.order = {"box/top", "box/back", "box/front", "box/port", "box/starboard"};
    m.exit("box/back", width, roof - floor);
    m.sight({"box/front"}, 0.6 * width);
}

void boat(StartMaker& m) {
    const Box3 all = m.inside();
    const double roofZ = all.max.z() + m.margin(), deckZ = 0.5 * roofZ;
    constexpr double lean = 60, rake = 120, shelf = 60;
    const Box3 high = m.inside(deckZ - m.margin());
    const Span span = spanOf(m, all, 100); // the wheelhouse stands clear of the transom
    const double beam = m.dimension("beam", 2 * std::max(StartMaker::half(all) + m.margin(),
                                                         StartMaker::half(high) + m.margin() + lean + shelf));
    m.dimension("bow_start", span.length, "where the keel begins to narrow");
    m.dimension("bow_length", 0.55 * beam, "from there to the stem head, beside the flare");
    m.dimension("keel_height", 60, "lower edge above the ground");
    m.dimension("deck_height", deckZ);
    const double roof = m.dimension("roof_height", roofZ);
    m.project.dimensions.push_back(
        {"flare", "0.4", Space::subject, "lean of the bow's sides: forward for each unit up", {}});
    m.project.dimensions.push_back(
        {"bow_taper", "0.6", Space::subject, "half-width lost for each unit forward", {}});
    const double aft = high.min.x() - m.margin() - lean - span.rear;
    m.dimension("house_aft", std::max(30.0, aft - 10));
    m.dimension("house_length", high.max.x() - high.min.x() + 2 * m.margin() + lean + rake + 50);
    m.dimension("house_width", 2 * (StartMaker::half(high) + m.margin() + lean));
    m.dimension("house_lean", lean, "of the wheelhouse's sides inward");
    m.dimension("house_rake", rake, "of its front");
    m.dimension("overlap", 60, "how far the wheelhouse reaches below the deck");
    m.placeDonor(-span.rear);
    const std::string flared = "flare * (deck_height - keel_height)";
    m.profile("hull", {{"keel", "", "0", "keel_height", "beam / 2"},
                       {"bilge", "keel", "bow_start", "keel_height", "beam / 2"},
                       {"forefoot", "bow", "bow_start + 0.6 * bow_length", "keel_height",
                        "beam / 2 - bow_taper * 0.6 * bow_length"},
                       {"stem head", "deck", "bow_start + " + flared + " + bow_length", "deck_height",
                        "beam / 2 - bow_taper * bow_length"},
                       {"shoulder", "deck", "bow_start + " + flared, "deck_height", "beam / 2"},
                       {"transom", "", "0", "deck_height", "beam / 2"}});
    const auto base = StartMaker::rectangle("0", "house_length", "house_width / 2");
    const auto top =
        StartMaker::rectangle("house_lean", "house_length - house_rake", "house_width / 2 - house_lean");
    m.taper("wheelhouse", base, top, "deck_height - overlap", "roof_height");
    m.project.forms.back().at.x = "house_aft";
    m.leaveOpen("hull/keel");
    m.project.joints.order = {"hull/deck",        "wheelhouse/top",  "hull/transom",
                              "wheelhouse/front", "wheelhouse/back", "hull/bow"};
    m.exit("wheelhouse/back", beam - 2 * (lean + shelf), roof - deckZ);
    m.sight({"wheelhouse/front"}, 0.5 * beam);
}

void cab(StartMaker& m) {
    const Box3 all = m.inside();
    const double roofZ = all.max.z() + m.margin();
    constexpr double rake = 200, noseRake = 60, least = 300;
    // The lowest bonnet under which what lies ahead of the windscreen still has room.
    double bonnetZ = 0.45 * roofZ;
    while (bonnetZ < 0.75 * roofZ &&
           m.inside(bonnetZ - m.margin()).max.x() + m.margin() + rake > all.max.x() + m.margin() - least)
        bonnetZ += 20;
    const Box3 high = m.inside(bonnetZ - m.margin());
    const Span span = spanOf(m, all);
    const double screen = high.max.x() + m.margin() + rake - span.rear;
    m.dimension("cab_length", screen, "to the foot of the windscreen");
    m.dimension("bonnet_length", std::max(least, span.length + noseRake - screen));
    const double width = m.dimension("body_width", 2 * (StartMaker::half(all) + m.margin()));
    const double roof = m.dimension("roof_height", roofZ);
    m.dimension("bonnet_height", bonnetZ);
    const double floor = m.dimension("floor_height", 60, "lower edge above the ground");
    m.dimension("windscreen_rake", rake);
    m.dimension("nose_rake", noseRake);
    m.placeDonor(-span.rear);
    const std::string half = "body_width / 2", nose = "cab_length + bonnet_length";
    m.profile("cab", {{"floor", "", "0", "floor_height", half},
                      {"nose", "", nose, "floor_height", half},
                      {"bonnet", "", nose + " - nose_rake", "bonnet_height", half},
                      {"windscreen", "", "cab_length", "bonnet_height", half},
                      {"roof", "", "cab_length - windscreen_rake", "roof_height", half},
                      {"back", "", "0", "roof_height", half}});
    m.leaveOpen("cab/floor");
    m.project.joints.order = {"cab/roof",       "cab/bonnet", "cab/back",     "cab/nose",
                              "cab/windscreen", "cab/port",   "cab/starboard"};
    m.exit("cab/back", width, roof - floor);
    m.sight({"cab/windscreen"}, 0.6 * width);
}

void tower(StartMaker& m) {
    const Box3 all = m.inside();
    constexpr double flare = 80, overhang = 70;
    const Span span = spanOf(m, all, flare);
    m.dimension("tower_length", span.length, "at the foot");
    const double width =
        m.dimension("tower_width", 2 * (StartMaker::half(all) + m.margin() + flare), "at the foot");
    const double shaft = m.dimension("shaft_height", all.max.z() + m.margin() + 60);
    const double floor = m.dimension("floor_height", 60, "lower edge above the ground");
    m.dimension("batter", flare, "how far the walls lean in over their height");
    m.dimension("overhang", overhang, "of the crown");
    m.dimension("crown_height", 240);
    m.dimension("overlap", 40, "how far the crown reaches down over the shaft");
    m.placeDonor(-span.rear);
    m.taper("shaft", StartMaker::rectangle("0", "tower_length", "tower_width / 2"),
            StartMaker::rectangle("batter", "tower_length - batter", "tower_width / 2 - batter"),
            "floor_height", "shaft_height");
    const auto crown = StartMaker::rectangle("batter - overhang", "tower_length - batter + overhang",
                                             "tower_width / 2 - batter + overhang");
    m.taper("crown", crown, crown, "shaft_height - overlap", "shaft_height - overlap + crown_height");
    m.leaveOpen("shaft/base");
    m.project.joints.order = {"crown/top", "crown/base", "*/back", "*/front", "*/port", "*/starboard"};
    m.exit("shaft/back", width - 2 * flare, shaft - floor);
    m.sight({"shaft/front"}, 0.5 * width);
}

/// Eight-sided plan: a rectangle whose corners are cut off.
StartMaker::Plan octagon(const std::string& back, const std::string& front, const std::string& half,
                         const std::string& cut) {
    const std::string other = "-(" + half + ")";
    return {{"starboard", back + " + " + cut, other}, {"front starboard", front + " - " + cut, other},
            {"front", front, other + " + " + cut},    {"front port", front, half + " - " + cut},
            {"port", front + " - " + cut, half},      {"back port", back + " + " + cut, half},
            {"back", back, half + " - " + cut},       {"back starboard", back, other + " + " + cut}};
}

void capsule(StartMaker& m) {
    const Box3 all = m.inside();
    const double roofZ = all.max.z() + m.margin(), waistZ = 0.62 * roofZ;
    constexpr double cut = 160, inset = 90;
    // Beside a cut corner the room must end (cut + √2 margin) / 2 from the rectangle's sides.
    const double gap = (cut + 1.4143 * m.margin()) / 2 + 1, upper = inset + gap;
    const Box3 high = m.inside(waistZ - m.margin());
    const double rear = std::min(all.min.x() - gap, high.min.x() - upper);
    const double front = std::max(all.max.x() + gap, high.max.x() + upper);
    m.dimension("body_length", front - rear);
    const double width =
        m.dimension("body_width", 2 * std::max(StartMaker::half(all) + gap, StartMaker::half(high) + upper));
    m.dimension("waist_height", waistZ);
    m.dimension("roof_height", roofZ);
    const double floor = m.dimension("floor_height", 60, "lower edge above the ground");
    m.dimension("corner", cut, "cut off at the four corners");
    m.dimension("inset", inset, "of the roof on all sides");
    m.placeDonor(-rear);
    const auto wide = octagon("0", "body_length", "body_width / 2", "corner");
    m.taper("tub", wide, wide, "floor_height", "waist_height");
    m.taper("cap", wide, octagon("inset", "body_length - inset", "body_width / 2 - inset", "corner"),
            "waist_height", "roof_height");
    m.leaveOpen("tub/base");
    m.project.joints.order = {"cap/top"};
    m.exit("tub/back", width - 2 * cut, waistZ - floor);
    m.sight({"cap/front"}, 0.4 * (width - 2 * cut - 2 * inset));
}

struct Start {
    StartKind words;
    void (*make)(StartMaker&);
};
const std::vector<Start>& starts() {
    static const std::vector<Start> all = {
        {{"box", "Box", "Four walls and a roof round donor and rider."}, box},
        {{"boat", "Boat", "A hull with a flared bow, and a wheelhouse over the rider."}, boat},
        {{"cab", "Cab and bonnet", "A high cab with a windscreen and a lower bonnet ahead of it."}, cab},
        {{"tower", "Tower", "Walls that lean inward and a crown that stands out over them."}, tower},
        {{"capsule", "Capsule", "Eight sides, drawn in towards the roof."}, capsule},
    };
    return all;
}

} // namespace

const std::vector<StartKind>& startKinds() {
    static const std::vector<StartKind> kinds = [] {
        std::vector<StartKind> all;
        for (const Start& s : starts()) all.push_back(s.words);
        return all;
    }();
    return kinds;
}

namespace {

constexpr std::array startUnits{"mm", "cm", "m", "in", "ft"};

bool isStartUnit(const std::string& units) {
    return std::find(startUnits.begin(), startUnits.end(), units) != startUnits.end();
}

Expected<Project> startRound(const std::string& kind, const std::string& units, const Project& donor) {
    const auto& all = starts();
    const auto start =
        std::find_if(all.begin(), all.end(), [&](const Start& s) { return s.words.kind == kind; });
    if (start == all.end())
        return fail("unknown-start", "There is no ready body \"" + kind + "\".", {},
                    "Use box, boat, cab, tower or capsule.");
    if (!isStartUnit(units))
        return fail("unknown-unit", "\"" + units + "\" is no unit of length.", {},
                    "Use mm, cm, m, in or ft.");
    // Sheet and a little air to begin with; more where a slanted plate comes nearer than its corners do.
    constexpr double first = 30, more = 15, most = 200;
    for (double margin = first;; margin += more) {
        StartMaker maker(start->words.label, units, donor, margin);
        start->make(maker);
        const Evaluation e = Evaluator().evaluate(maker.project, Effort::fitOnly);
        const bool empty = !e.donor || e.donor->solids.empty();
        if (empty || margin > most || (e.fit && e.fit->state == FitState::fits)) return maker.project;
    }
}

} // namespace

Expected<Project> startProject(const std::string& kind, const std::string& units, const std::string& donor) {
    const auto donors = donorKinds();
    if (std::find(donors.begin(), donors.end(), donor) == donors.end()) {
        std::string words;
        for (const std::string& known : donors) words += (words.empty() ? "" : ", ") + known;
        return fail("unknown-donor", "There is no donor \"" + donor + "\".", {}, "Use one of " + words + ".");
    }
    Project room;
    room.donor.kind = donor;
    room.donor.leave_out = roomOutside(donor);
    if (donor == "none") room.rider.table = "none";
    if (const double age = usualAge(donor); age > 0) {
        room.rider.table = "child";
        room.rider.age = std::to_string(static_cast<int>(age));
    }
    room.clearance.fallback = units == "in" || units == "ft" ? "3/4 in" : "20 mm";
    return startRound(kind, units, room);
}

Expected<Project> startProject(const std::string& kind, const std::string& units, const Project& like) {
    constexpr std::string_view own = "donor_";
    Project donor = donorAlone(like);
    donor.donor.at.x.clear(); // the start says where it stands
    donor.donor.best_place = false;
    const std::vector<Dimension> named = donor.dimensions;
    for (const Dimension& d : named) {
        if (d.name.starts_with(own)) continue;
        auto renamed = renameDimension(d.name, std::string(own) + d.name).apply(donor);
        if (!renamed) return renamed;
        donor = std::move(*renamed);
    }
    return startRound(kind, units, donor);
}

} // namespace slab
