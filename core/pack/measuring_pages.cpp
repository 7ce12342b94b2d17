#include "core/donor/kinds.h"
#include "core/drawing/paper_frame.h"
#include "core/pack/drawings.h"
#include "core/pack/measuring_sheet.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr double lowRow = 4.6, highRow = 5.6, columnGap = 8; ///< mm
constexpr double notesWidth = 92;                            ///< mm, beside the plan

const char* const cautions[] = {
    "Switch it off and take the key out. Set the brakes and chock the wheels: a chair with its freewheel "
    "levers "
    "out rolls away.",
    "Nobody sits in it while you reach under it. Never crawl or reach under one that is lifted; where a "
    "wheel must "
    "be off the ground, have it stand on firm blocks.",
    "Keep fingers out of casters, belts, folding frames and seat levers. Lay no steel rule across a battery.",
    "A mobility aid belongs to who needs it: measure with their leave, change nothing on it, and ask its "
    "dealer "
    "before anything is fixed to it.",
};
const char* const hints[] = {
    "Stand it on a level floor, tyres as hard as for riding, steering straight, casters trailing behind.",
    "Along: level, beside a straight edge on the floor; drop a plumb line from what is high up.",
    "Up: upright from the floor. Press cushions down as far as somebody who sits does.",
    "Read each line for itself and work none out: many are read two or three times over, and that is what "
    "shows a "
    "wrong one. What you cannot reach, leave empty.",
    "A reading is minus where the second thing lies on the other side of the first than it is drawn.",
    "Type the readings into the table Donor and rider, measured, by name or letter. The sizes follow; a "
    "reading "
    "that does not go with the others is named, with what it should be.",
};

class MeasuringBook {
public:
    MeasuringBook(const Project& project, const Evaluation& evaluation)
        : m_project(project), m_units(evaluation.units), m_paper(drawingPaper(project, evaluation.units)) {
        const std::string& kind = project.donor.kind;
        m_view.measures = measuringSheet(kind);
        m_view.sizes = donorSizes(kind);
        if (kind == "own") {
            if (evaluation.donor) showOwn(*evaluation.donor);
            return;
        }
        Project generic;
        generic.donor.kind = kind;
        generic.rider.table = "none";
        const DonorSet set = resolveDonor(generic, Scope{});
        m_view.solids = set.solids;
        m_view.wheels = set.chassis.wheels;
    }

    Drawing make() {
        m_out.title = m_project.title + " – measuring sheet";
        if (m_view.measures.empty()) return std::move(m_out);
        if (!m_view.solids.empty()) sidePage();
        planPage();
        tablePages();
        return std::move(m_out);
    }

private:
    /// The document's own solids, taken back from their place under the body.
    void showOwn(const DonorSet& set) {
        const Vec3 ahead = set.chassis.forward;
        Mat3 back;
        back.row(0) = ahead.transpose();
        back.row(1) = Vec3::UnitZ().cross(ahead).transpose();
        back.row(2) = Vec3::UnitZ().transpose();
        for (FitSolid s : set.solids) {
            if (s.group != "donor") continue;
            for (Vec3& p : s.shape.points) p = back * (p - set.place);
            m_view.solids.push_back(std::move(s));
        }
        for (Wheel w : set.chassis.wheels) {
            w.at = back * (w.at - set.place);
            m_view.wheels.push_back(std::move(w));
        }
    }

    Area newPage(const std::string& title, const std::string& subject) {
        Page page;
        page.name = title;
        page.width = m_paper.width;
        page.height = m_paper.height;
        page.overlay.layers.push_back({});
        m_out.pages.push_back(std::move(page));
        return drawFrame(pen(), m_out.pages.back(),
                         {m_project.title, title, subject, "generic donor, not to scale"},
                         "Switched off, key out, brakes on, wheels chocked.",
                         "Forward is to the right. Letters: see the table.");
    }
    Pen pen() { return Pen(m_out.pages.back().overlay.layers.back()); }
    [[nodiscard]] std::string donorWords() const { return donorLabel(m_project.donor.kind); }

    void sidePage() {
        const Area area = newPage("Measuring sheet: side", donorWords());
        m_view.plan = false;
        drawMeasuringView(pen(), area, m_view);
    }

    void planPage() {
        const Area area = newPage("Measuring sheet: plan", donorWords());
        m_view.plan = true;
        drawMeasuringView(pen(), {area.x, area.y, area.width - notesWidth - 6, area.height}, m_view);
        const Area notes{area.right() - notesWidth, area.y, notesWidth, area.height};
        double y = list("Before you begin", cautions, notes, notes.top());
        y = list("How to measure", hints, notes, y - 3);
        fields(notes, y - 3);
    }

    template <std::size_t N>
    double list(const char* title, const char* const (&lines)[N], const Area& area, double y) {
        const Pen p = pen();
        p.words({area.x, y - 3}, title, {2.9, Align::left, Ink::line, true});
        p.line({area.x, y - 4.4}, {area.right(), y - 4.4}, {0.2, Ink::line});
        y -= 4.6;
        const WordStyle style{2.5};
        for (const char* text : lines) {
            p.circle({area.x + 1, y - 2.6}, 0.45, {0.5, Ink::line});
            for (const std::string& line : wrapped(text, area.width - 4, style.text())) {
                y -= 3.5;
                p.words({area.x + 4, y}, line, style);
            }
            y -= 0.9;
        }
        return y;
    }

    /// Who measured what, and when.
    void fields(const Area& area, double y) {
        const Pen p = pen();
        for (const char* words :
             {"Donor, make and year", "Measured by", "Date", "Tape or rule", "Tyre pressure"}) {
            y -= 7;
            if (y < area.y) return;
            p.words({area.x, y + 0.8}, words, {2.5, Align::left, Ink::quiet});
            p.line({area.x + 34, y}, {area.right(), y}, {0.15, Ink::line});
        }
    }

    [[nodiscard]] std::string generic(const Measure& m) const {
        const double value = valueOf(m.sum, m_view.sizes);
        if (m.kind == Kind::angle) return printAngle(value, 0);
        if (m.kind == Kind::number && !(value > 0)) return "–";
        if (inPounds(m)) return printMass(value, m_units);
        if (inMiles(m)) return plain(value / 1.609344, 1) + " mph"; // NIST SP 811
        if (m.kind == Kind::number) return plain(value, 1);
        return printLength(value, m_units);
    }
    [[nodiscard]] static bool endsWith(const std::string& words, const std::string& end) {
        return words.size() >= end.size() && words.compare(words.size() - end.size(), end.size(), end) == 0;
    }
    [[nodiscard]] bool inPounds(const Measure& m) const {
        return isInch(m_units) && endsWith(m.words, ", kg");
    }
    [[nodiscard]] bool inMiles(const Measure& m) const {
        return isInch(m_units) && endsWith(m.words, ", km/h");
    }
    /// Plain figures are kg and km/h in the document, whatever its lengths are in.
    [[nodiscard]] std::string wordsOf(const Measure& m) const {
        const std::string bare = m.words.substr(0, m.words.rfind(','));
        if (inPounds(m)) return bare + " (type lb behind it)";
        if (inMiles(m)) return bare + " (type mph behind it)";
        return m.words;
    }
    [[nodiscard]] static const char* groupOf(const Measure& m) {
        return m.axis == 0   ? "Along, level"
               : m.axis == 2 ? "Up, plumb"
               : m.axis == 1 ? "Across, level"
                             : "Wheels, parts and labels";
    }

    /// As high as it may be with all on one page, where that leaves room to write.
    [[nodiscard]] double rowFor(int columns) const {
        constexpr double frame = 47, heads = 5; // of a page; headings of groups, one of them twice
        const double rows =
            std::ceil((static_cast<double>(m_view.measures.size()) + 1.4 * heads) / columns) + 1;
        const double fits = (m_paper.height - frame) / rows;
        return fits < lowRow ? highRow : std::min(fits, highRow);
    }

    void tablePages() {
        const int columns = m_paper.width > 250 ? 2 : 1;
        const double rowHeight = rowFor(columns);
        Area area;
        double y = -1;
        int column = columns;
        const char* group = nullptr;
        for (const Measure& m : m_view.measures) {
            const bool heading = groupOf(m) != group;
            if (y < area.y + (heading ? 2.4 : 1) * rowHeight) {
                if (++column >= columns) {
                    column = 0;
                    area = newPage("Measuring sheet: readings", donorWords());
                }
                y = area.top();
                group = nullptr;
            }
            const double width = (area.width - (columns - 1) * columnGap) / columns;
            const Area row{area.x + column * (width + columnGap), 0, width, rowHeight};
            if (groupOf(m) != group) y = headRow(group = groupOf(m), row, y);
            y = tableRow(m, row, y);
        }
    }

    double headRow(const char* group, const Area& row, double y) {
        const Pen p = pen();
        y -= row.height + 1;
        p.words({row.x, y + 1.4}, group, {2.9, Align::left, Ink::line, true});
        p.words({row.right() - 31, y + 1.4}, "generic", {2.2, Align::right, Ink::quiet});
        p.words({row.right() - 28, y + 1.4}, "read", {2.2, Align::left, Ink::quiet});
        p.line({row.x, y}, {row.right(), y}, {0.3, Ink::line});
        return y;
    }

    double tableRow(const Measure& m, const Area& row, double y) {
        const Pen p = pen();
        y -= row.height;
        p.words({row.x, y + 1.5}, m.letter, {2.7, Align::left, Ink::line, true});
        const WordStyle words{2.5};
        const std::string value = generic(m);
        const double room = row.width - 9 - 31 - textWidth(value, {2.4, false, true}) - 3;
        p.words({row.x + 9, y + 1.5}, elided(wordsOf(m), room, words.text()), words);
        p.words({row.right() - 31, y + 1.5}, value, {2.4, Align::right, Ink::quiet, false, true});
        p.line({row.right() - 28, y + 0.4}, {row.right(), y + 0.4}, {0.2, Ink::line});
        p.line({row.x, y}, {row.right() - 30, y}, {0.08, Ink::quiet});
        return y;
    }

    const Project& m_project;
    UnitStyle m_units;
    Paper m_paper;
    MeasuringView m_view;
    Drawing m_out;
};

} // namespace

Drawing measuringDrawing(const Project& project, const Evaluation& evaluation) {
    return MeasuringBook(project, evaluation).make();
}

} // namespace slab
