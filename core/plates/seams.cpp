#include "core/plates/seams.h"
#include "core/plates/lap_strips.h"
#include "core/plates/seam_lines.h"
#include "core/plates/seam_panels.h"
#include "core/plates/seam_strips.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>
#include <map>

namespace slab {

namespace {

using namespace plates;

/// How a panel's other hand lies on it, and what was cut there.
struct Done {
    Panel whole;
    Splitting split; ///< pieces in their order
    bool found = false;
};

/// Takes points of the hand `from` to those of the other hand `onto`, and lines back.
struct Mirrored {
    Turn turn; ///< after reflecting in the v axis
    [[nodiscard]] Vec2 there(const Vec2& p) const { return turn(Vec2(-p.x(), p.y())); }
    [[nodiscard]] Vec2 back(const Vec2& q) const {
        const Vec2 d = q - turn.to;
        const Vec2 p = turn.from + Vec2(turn.c * d.x() + turn.s * d.y(), turn.c * d.y() - turn.s * d.x());
        return {-p.x(), p.y()};
    }
    [[nodiscard]] CutLine back(const CutLine& line) const {
        const Vec2 foot = back(Vec2(line.normal * line.offset));
        const Vec2 beyond = back(Vec2(line.normal * (line.offset + 1)));
        CutLine out;
        out.normal = (beyond - foot).normalized();
        out.offset = out.normal.dot(foot);
        return out;
    }
};

Vec2 centreOf(const CutPiece& piece) {
    return centroid({piece.outer.outer.points, {}});
}

class SeamSplitter {
public:
    SeamSplitter(const PlateSet& plates, const StockSet& stock, const std::vector<SeamChoice>& seams,
                 const UnitStyle& units)
        : m_plates(plates), m_stock(stock), m_seams(seams), m_units(units), m_used(seams.size(), 0),
          m_around(plates.plates) {
        m_mark = 1 + highestMark(plates);
    }

    SplitPanels run(std::vector<Panel> panels) {
        for (Panel& panel : panels) take(std::move(panel));
        for (std::size_t i = 0; i < m_seams.size(); ++i)
            if (!m_used[i])
                find({Severity::look,
                      "seam-no-panel",
                      "The seam through \"" + m_seams[i].plate + "\" cuts no panel",
                      about(m_seams[i]),
                      "Correct the plate's name, move the seam onto the panel, or take it out.",
                      {}});
        cutStrips();
        return std::move(m_out);
    }

private:
    static std::vector<std::string> about(const SeamChoice& seam) {
        std::vector<std::string> out{"plate:" + seam.plate};
        if (!seam.entry.empty()) out.insert(out.begin(), "document:" + seam.entry);
        return out;
    }
    void find(Finding f) { m_out.findings.push_back(std::move(f)); }

    /// Seams that the builder placed in the first of the panel's plates that has any.
    std::vector<const SeamChoice*> choicesFor(const Panel& panel) {
        std::vector<const SeamChoice*> out;
        for (const std::string& plate : panel.plates) {
            for (std::size_t i = 0; i < m_seams.size(); ++i) {
                if (!matches(m_seams[i].plate, plate)) continue;
                m_used[i] = 1;
                if (out.empty() || matches(out.front()->plate, plate)) out.push_back(&m_seams[i]);
            }
            if (!out.empty()) break;
        }
        return out;
    }

    void take(Panel panel) {
        const auto choices = choicesFor(panel);
        const SheetRoom room = roomOf(m_stock, panel.stock);
        const CutPiece whole = wholePiece(panel);
        const bool large = !fitsSheet(cloudOf(whole), room);
        if ((!large && choices.empty()) || panel.boundary.outer.size() < 3)
            return m_out.panels.push_back(std::move(panel));
        if (!panel.folds.empty()) {
            find({Severity::look,
                  "blank-too-large",
                  panel.name + (large ? " is one blank of several plates and larger than its sheet"
                                      : " is one blank of several plates: no seam is cut through it"),
                  {"panel:" + panel.name, "plate:" + panel.plates.front()},
                  large ? "Choose a mitre or a cover at one of its folds, so that it becomes two panels."
                        : "Take the seam out, or choose a mitre or a cover at one of its folds.",
                  {}});
            return m_out.panels.push_back(std::move(panel));
        }
        cut(std::move(panel), choices, room);
    }

    void cut(Panel panel, const std::vector<const SeamChoice*>& choices, const SheetRoom& room) {
        StripRules strip = stripFor(panel, choices);
        Splitting split;
        split.pieces.push_back(wholePiece(panel));
        std::vector<Ring>& stands = split.pieces.front().stands;
        for (Ring& frame : framesBehind(panel, m_plates)) stands.push_back(std::move(frame));
        int seam = 0;
        for (const SeamChoice* choice : choices) {
            const std::size_t before = split.cuts.size();
            const CutLine line = seamLine(*choice, panel);
            const bool there = std::any_of(split.cuts.begin(), split.cuts.end(), [&](const MadeCut& made) {
                return sameLine(made.line, line, panel);
            });
            if (!there) cutAll(split, line, seam++);
            if (split.cuts.size() == before) missed(*choice, panel, there);
        }
        const std::size_t placed = split.cuts.size();
        const Done* other = nullptr;
        for (const auto& [name, done] : m_done)
            if (name == panel.mirrorOf && done.found && choices.empty()) other = &done;
        const bool mirrored = other && mirror(panel, *other, split);
        if (!mirrored) {
            Splitting rest;
            for (const CutPiece& piece : split.pieces) {
                const SearchRules rules{room, std::max(strip.width, usualStrip / 2) / 2, seam};
                Splitting more = searchSplit(piece, rules);
                std::move(more.pieces.begin(), more.pieces.end(), std::back_inserter(rest.pieces));
                for (MadeCut& made : more.cuts) {
                    seam = std::max(seam, made.seam + 1);
                    split.cuts.push_back(std::move(made));
                }
                split.lost += more.lost;
            }
            split.pieces = std::move(rest.pieces);
            orderPieces(split.pieces, panel);
        }
        if (split.pieces.size() < 2) return m_out.panels.push_back(std::move(panel));
        tell(panel, split, placed);
        emit(panel, split, strip, placed);
        std::string name = panel.name;
        m_done.emplace_back(std::move(name), Done{std::move(panel), std::move(split), placed == 0});
    }

    /// @param there  an earlier seam has cut it there already
    void missed(const SeamChoice& choice, const Panel& panel, bool there) {
        auto all = about(choice);
        all.push_back("panel:" + panel.name);
        if (there)
            return find({Severity::look,
                         "seam-twice",
                         "A seam through " + panel.name + " lies where an earlier one has cut it already",
                         std::move(all),
                         "Move it, or take it out.",
                         {}});
        find({Severity::look,
              "seam-misses",
              "The seam through " + panel.name + " lies beyond its outline",
              std::move(all),
              "Move it onto the panel (at is measured from its middle), or take it out.",
              {}});
    }

    StripRules stripFor(const Panel& panel, const std::vector<const SeamChoice*>& choices) {
        StripRules rules{usualStrip, panel.stock, panel.thickness};
        if (choices.empty()) return rules;
        rules.width = choices.front()->strip;
        const std::string& wanted = choices.front()->stripStock;
        if (const Sheet* sheet = wanted.empty() ? nullptr : m_stock.find(wanted)) {
            rules.stock = sheet->name;
            rules.thickness = sheet->thickness;
        } else if (!wanted.empty()) {
            find({Severity::look,
                  "unknown-stock",
                  "The butt strips of " + panel.name + " are to be cut from \"" + wanted +
                      "\", which is not a usable sheet in the stock; drawn in " + panel.stock +
                      " until then.",
                  about(*choices.front()),
                  "Add that sheet to the stock, or choose another one for the strip.",
                  {}});
        }
        return rules;
    }

    /// Cuts the panel like its other hand. @return false if that does not come out with the same pieces
    static bool mirror(const Panel& panel, const Done& other, Splitting& split) {
        const auto match = congruent(shapeOf(panel, true), shapeOf(other.whole, false));
        if (!match) return false;
        const Mirrored way{match->turn};
        Splitting made = split;
        for (const MadeCut& cut : other.split.cuts)
            cutAll(made, way.back(cut.line), cut.seam, way.back(cut.middle()));
        if (made.pieces.size() != other.split.pieces.size()) return false;
        std::vector<CutPiece> ordered;
        for (const CutPiece& wanted : other.split.pieces) {
            const auto nearest = std::min_element(
                made.pieces.begin(), made.pieces.end(), [&](const CutPiece& a, const CutPiece& b) {
                    return (way.there(centreOf(a)) - centreOf(wanted)).norm() <
                           (way.there(centreOf(b)) - centreOf(wanted)).norm();
                });
            ordered.push_back(*nearest);
        }
        made.pieces = std::move(ordered);
        split = std::move(made);
        return true;
    }

    void tell(const Panel& panel, const Splitting& split, std::size_t placed) {
        const std::vector<std::string> what{"panel:" + panel.name, "plate:" + panel.plates.front()};
        if (split.cuts.size() > placed)
            find({Severity::note,
                  "panel-split",
                  panel.name + " is larger than its sheet: split into " +
                      std::to_string(split.pieces.size()) + " pieces",
                  what,
                  "Place a seam of your own in it to have the cut elsewhere.",
                  {}});
        const double keep = usualStrip / 2, between = leastBetweenSeams(split);
        if (between < keep - 0.5)
            find({Severity::look,
                  "seams-near",
                  "Seams of " + panel.name + " leave a piece between them that is only " +
                      printFine(between, m_units) + " wide; " + printLength(keep, m_units) + " is wanted",
                  what,
                  "Move them apart, turn one of them, or take one out.",
                  {}});
        const CutPiece whole = wholePiece(panel);
        for (const MadeCut& cut : split.cuts) {
            if (cut.room.opening <= 0)
                find({Severity::look, "seam-through-opening",
                      "A seam of " + panel.name + " runs through an opening", what,
                      "Move the seam or the opening, or use a larger sheet.", bodyPoint(panel, cut)});
            else if (std::min(cut.room.opening, cut.room.corner) < keep - 0.5 &&
                     !(between < keep - 0.5 && lineRoom(whole, cut.line).corner >= keep - 0.5 &&
                       cut.room.opening >= keep - 0.5)) // else the corner is the other seam's
                find({Severity::look, "seam-near-corner",
                      "A seam of " + panel.name + " comes within " +
                          printFine(std::min(cut.room.opening, cut.room.corner), m_units) + " of " +
                          (cut.room.opening < cut.room.corner ? "an opening" : "a corner") + "; " +
                          printLength(keep, m_units) + " is wanted",
                      what, "Move the seam, or use a larger sheet.", bodyPoint(panel, cut)});
            if (cut.room.stand < keep - 0.5)
                find({Severity::look, "seam-under-plate",
                      "A seam of " + panel.name + " runs " +
                          (cut.room.stand <= 0
                               ? std::string("under a plate that stands")
                               : "within " + printFine(cut.room.stand, m_units) + " of a plate that stands") +
                          " along it: its butt strip has no room there",
                      what, "Move the seam or the plate, or use a larger sheet.", bodyPoint(panel, cut)});
        }
        if (split.lost > 1)
            find({Severity::look,
                  "seam-sliver",
                  "A seam of " + panel.name + " leaves a sliver of its inside face with nothing over it",
                  what,
                  "Move the seam a little.",
                  {}});
    }

    [[nodiscard]] std::optional<std::array<double, 3>> bodyPoint(const Panel& panel,
                                                                 const MadeCut& cut) const {
        for (const Plate& plate : m_plates.plates)
            if (plate.name == panel.plates.front()) {
                const Vec3 p = plate.frame.toBody(cut.middle());
                return std::array<double, 3>{p.x(), p.y(), p.z()};
            }
        return {};
    }

    void emit(const Panel& panel, const Splitting& split, const StripRules& rules, std::size_t placed) {
        std::vector<Panel> pieces = piecePanels(panel, split, m_mark);
        const std::vector<CopyPlace> copies = copyPlaces(panel, m_plates);
        std::map<std::string, int> count;
        for (std::size_t i = 0; i < split.cuts.size(); ++i) {
            const MadeCut& cut = split.cuts[i];
            SeamCut out;
            out.panel = panel.name;
            out.plates = panel.plates;
            out.found = i >= placed;
            std::tie(out.at, out.turn) = seamPlace(cut.line, panel);
            out.clear = std::min(cut.room.corner, cut.room.opening);
            for (const auto& [from, to] : cut.outer) {
                out.length += to - from;
                const Vec2 foot = cut.line.normal * cut.line.offset;
                out.lines.emplace_back(foot + cut.line.along() * from, foot + cut.line.along() * to);
            }
            for (std::size_t c = 0; c < copies.size(); ++c)
                for (MadeStrip& made : stripsBehind(cut, copies[c], rules, m_around)) {
                    const int number = ++count[made.plate.name];
                    const std::string host = made.plate.name;
                    made.plate.name += "/strip" + (number > 1 ? " " + std::to_string(number) : "");
                    made.copy = c;
                    made.plate.rests = {{host, true, true, m_mark}};
                    mark(pieces, made);
                    ++m_mark;
                    out.strips.push_back(made.plate.name);
                    m_around.push_back(made.plate);
                    m_out.strips.push_back(std::move(made.plate));
                }
            if (out.strips.empty() && rules.width > 0 && !copies.empty() && copies.front().plate)
                find({Severity::look,
                      "seam-no-strip",
                      "There is no room for a butt strip behind a seam of " + panel.name,
                      {"panel:" + panel.name, "plate:" + panel.plates.front()},
                      "Move the seam, make the strip narrower, or hold the pieces by a frame.",
                      bodyPoint(panel, cut)});
            m_out.seams.push_back(std::move(out));
        }
        std::move(pieces.begin(), pieces.end(), std::back_inserter(m_out.panels));
    }

    /// Where the strip lies on the pieces of its copy.
    static void mark(std::vector<Panel>& pieces, const MadeStrip& made) {
        for (Panel& piece : pieces) {
            if (made.copy >= piece.copies.size() || piece.boundary.inner.size() < 3) continue;
            PanelCopy& copy = piece.copies[made.copy];
            Contact contact;
            contact.on = copy.plate;
            contact.plate = made.plate.name;
            contact.mark = made.plate.rests.front().mark;
            contact.inside = contact.flat = true;
            for (const Polygon& part : intersect({made.covers}, {{piece.boundary.inner, {}}})) {
                if (area(part) < 1) continue;
                contact.rings.push_back(part.outer);
                contact.rings.insert(contact.rings.end(), part.holes.begin(), part.holes.end());
            }
            if (!contact.rings.empty()) copy.contacts.push_back(std::move(contact));
        }
    }

    /// Strips become panels like any plate; one longer than its sheet is cut without a strip of its own.
    void cutStrips() {
        if (m_out.strips.empty()) return;
        PlateSet set;
        set.plates = m_out.strips;
        for (Panel& panel : makePanels(set)) {
            const SheetRoom room = roomOf(m_stock, panel.stock);
            Splitting split = searchSplit(wholePiece(panel), {room, usualStrip / 2, 0});
            if (split.pieces.size() < 2) {
                m_out.panels.push_back(std::move(panel));
                continue;
            }
            orderPieces(split.pieces, panel);
            std::vector<Panel> pieces = piecePanels(panel, std::move(split), m_mark);
            std::move(pieces.begin(), pieces.end(), std::back_inserter(m_out.panels));
        }
    }

    const PlateSet& m_plates;
    const StockSet& m_stock;
    const std::vector<SeamChoice>& m_seams;
    const UnitStyle& m_units;
    std::vector<char> m_used;
    PlateList m_around; ///< plates, and the strips made so far
    std::vector<std::pair<std::string, Done>> m_done;
    SplitPanels m_out;
    int m_mark = 1;
};

} // namespace

SplitPanels splitPanels(std::vector<Panel> panels, const PlateSet& plates, const StockSet& stock,
                        const std::vector<SeamChoice>& seams, const UnitStyle& units) {
    return SeamSplitter(plates, stock, seams, units).run(std::move(panels));
}

} // namespace slab
