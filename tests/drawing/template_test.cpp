#include "core/drawing/pen.h"
#include "core/drawing/tiles.h"
#include "tests/drawing/hand_panels.h"
#include "tests/drawing/pdf_reader.h"
#include <cstdlib>
#include <gtest/gtest.h>
#include <map>
#include <random>
#include <set>

using namespace slab;

namespace {

TemplateOptions optionsFor(const std::string& paper) {
    TemplateOptions options;
    options.paper = *paperNamed(paper);
    options.title = "Harbour fire boat";
    return options;
}

std::uint64_t seed() {
    const char* given = std::getenv("SLABSIDE_SEED");
    const std::uint64_t value = given ? std::strtoull(given, nullptr, 10) : 20254;
    std::printf("seed %llu\n", static_cast<unsigned long long>(value));
    return value;
}

/// A star-shaped outline, convex or not.
Panel randomPanel(std::mt19937_64& random) {
    std::uniform_real_distribution<double> radius(40, 900);
    std::uniform_int_distribution<int> corners(3, 12);
    const int n = corners(random);
    Ring ring;
    for (int i = 0; i < n; ++i) {
        const double angle = 2 * std::numbers::pi * i / n;
        ring.push_back(radius(random) * Vec2(std::cos(angle), std::sin(angle)));
    }
    return hand::panelOf("random", ring, {{"other", EdgeRole::butts, 0}});
}

/// Lower left of a page's printable area in panel coordinates.
Vec2 lowOf(const Page& page, const TemplateOptions& o) {
    return Vec2(o.border, o.border) - page.shift;
}
Vec2 highOf(const Page& page, const TemplateOptions& o) {
    return Vec2(page.width - o.border, page.height - o.border) - page.shift;
}

const Layer& layer(const Group& group, const std::string& name) {
    for (const Layer& one : group.layers)
        if (one.name == name) return one;
    static const Layer none;
    ADD_FAILURE() << "no layer " << name;
    return none;
}

std::string wordsOf(const Page& page) {
    std::string all;
    for (const Layer& one : page.overlay.layers)
        for (const Label& label : one.labels) all += label.text + "\n";
    return all;
}

} // namespace

TEST(Templates, EveryPointOfEveryOutlineIsPrinted) {
    std::mt19937_64 random(seed());
    for (int round = 0; round < 20; ++round) {
        const Panel panel = randomPanel(random);
        const TemplateOptions options = optionsFor(round % 3 == 0 ? "Letter" : round % 3 == 1 ? "A4" : "A3");
        const std::vector<Page> pages = templatePages(panel, options);
        for (const Ring& ring : drawnRings(panel))
            for (std::size_t i = 0; i < ring.size(); ++i)
                for (double t = 0; t <= 1; t += 1.0 / 64) {
                    const Vec2 p = ring[i] + t * (ring[(i + 1) % ring.size()] - ring[i]);
                    bool found = false;
                    for (const Page& page : pages) {
                        const Vec2 low = lowOf(page, options), high = highOf(page, options);
                        found = found || ((p - low).minCoeff() >= -1e-9 && (high - p).minCoeff() >= -1e-9);
                    }
                    ASSERT_TRUE(found) << "round " << round << " at " << p.transpose();
                }
    }
}

// The same place of the panel lies under the crosses of both neighbours.
TEST(Templates, RegisterCrossesCoincide) {
    for (const char* paper : {"A4", "Letter"}) {
        const TemplateOptions options = optionsFor(paper);
        const TilePlan plan = planTiles(drawnRings(hand::longSide()), options);
        std::map<std::pair<long, long>, int> places;
        for (const Page& page : templatePages(hand::longSide(), options)) {
            const auto& circles = layer(page.overlay, "register").circles;
            EXPECT_EQ(circles.size(), 4u);
            for (const Circle& circle : circles) {
                const Vec2 body = circle.centre - page.shift;
                EXPECT_TRUE((circle.centre.array() > options.border).all());
                ++places[{std::lround(body.x() * 1e6), std::lround(body.y() * 1e6)}];
            }
        }
        // Neighbours share: no two different places may be closer than the grid's own pitch.
        const double pitch = plan.pitch().minCoeff();
        int shared = 0;
        for (const auto& [a, n] : places) {
            shared += n > 1 ? 1 : 0;
            for (const auto& [b, m] : places) {
                (void)m;
                if (a == b) continue;
                EXPECT_GT(std::hypot(static_cast<double>(a.first - b.first),
                                     static_cast<double>(a.second - b.second)),
                          (pitch - 1e-3) * 1e6);
            }
        }
        EXPECT_GE(shared, plan.printedCount() / 2);
    }
}

// 600 × 400 mm on A4 with 10 mm borders and overlap: 4 × 2 = 8 upright, 3 × 3 = 9 across.
TEST(Templates, ChoosesTheWayRoundWithFewerPages) {
    const Panel panel = hand::panelOf("board", hand::rectangle(0, 0, 600, 400), {{"", EdgeRole::cut, 0}});
    const TilePlan plan = planTiles(drawnRings(panel), optionsFor("A4"));
    EXPECT_LE(plan.printedCount(), 8);
    const Panel wide = hand::panelOf("strip", hand::rectangle(0, 0, 260, 170), {{"", EdgeRole::cut, 0}});
    const std::vector<Page> pages = templatePages(wide, optionsFor("A4"));
    ASSERT_EQ(pages.size(), 1u);
    EXPECT_GT(pages[0].width, pages[0].height);
}

TEST(Templates, BlankTilesAreSkippedAndCounted) {
    const Panel panel = hand::panelOf("deck", hand::rectangle(0, 0, 1200, 1200), {{"", EdgeRole::cut, 0}});
    const TemplateOptions options = optionsFor("A4");
    const TilePlan plan = planTiles(drawnRings(panel), options);
    const std::vector<Page> pages = templatePages(panel, options);
    EXPECT_LT(plan.printedCount(), plan.columns * plan.rows);
    EXPECT_EQ(static_cast<int>(pages.size()), plan.printedCount());
    std::set<std::string> names;
    for (const Page& page : pages) names.insert(page.name);
    EXPECT_EQ(names.size(), pages.size());
    const std::string count = std::to_string(pages.size()) + " of " + std::to_string(pages.size());
    EXPECT_NE(wordsOf(pages.back()).find(count), std::string::npos);
}

TEST(Templates, TileNamesReadFromTheUpperLeft) {
    TilePlan plan;
    plan.columns = 30;
    plan.rows = 3;
    EXPECT_EQ(plan.tileName(0, 2), "A1");
    EXPECT_EQ(plan.tileName(1, 0), "B3");
    EXPECT_EQ(plan.tileName(25, 2), "Z1");
    EXPECT_EQ(plan.tileName(26, 2), "AA1");
}

TEST(Templates, EachPageSaysWhatTheBenchNeeds) {
    TemplateOptions options = optionsFor("A4");
    options.nominal = true;
    for (const Panel& panel : {hand::roof(), hand::triangle(), hand::longSide()})
        for (const Page& page : templatePages(panel, options)) {
            const std::string words = wordsOf(page);
            for (const std::string& part :
                 {std::string("OUTSIDE FACE UP"), std::string("NOMINAL"), std::string("100 %"), panel.stock,
                  std::string("measure before cutting"), "cut " + std::to_string(panel.plates.size()),
                  panel.name, "arrow points " + panel.upWord})
                EXPECT_NE(words.find(part), std::string::npos) << part << " in\n" << words;
            EXPECT_EQ(page.chapter, panel.name);
        }
    options.nominal = false;
    const std::string words = wordsOf(templatePages(hand::roof(), options)[0]);
    EXPECT_EQ(words.find("NOMINAL"), std::string::npos);
    EXPECT_NE(words.find("measured"), std::string::npos);
}

// Each line stands for one figure, and only for what can happen to that paper (sizes: ISO 216, ANSI Y14.1).
TEST(Templates, TheCalibrationPageTellsFailuresOfItsOwnPaperApart) {
    const auto rows = [](const char* paper, Unit unit) {
        TemplateOptions options = optionsFor(paper);
        options.units.unit = unit;
        std::map<std::string, std::string> told; // figure -> words on the same line
        const Page page = calibrationPage(options);
        const auto& labels = page.overlay.layers.at(0).labels;
        for (std::size_t i = 0; i + 1 < labels.size(); ++i) {
            const std::string& next = labels[i + 1].text;
            if (next != "right" && next.find("“fit to page”") != 0 &&
                next.find("shrunk to") != 0)
                continue;
            EXPECT_EQ(labels[i].at.y(), labels[i + 1].at.y());
            EXPECT_TRUE(told.emplace(labels[i].text, next).second) << labels[i].text << " stands twice";
        }
        return told;
    };
    // A Letter bar of 7 in: 7 × (215.9 − 12.7) / 215.9 = 6.59; shrunk to A4: 7 × 210 / 215.9 = 6.81.
    const auto letter = rows("Letter", Unit::ft);
    EXPECT_EQ(letter.at("7 in"), "right");
    EXPECT_EQ(letter.at("6.59 in"), "“fit to page” was on");
    EXPECT_EQ(letter.at("6.81 in"), "shrunk to A4");
    EXPECT_EQ(letter.size(), 3U);
    // An A4 page of 7 in bars: fitted 6.58, shrunk to Letter 7 × 279.4 / 297 = 6.59.
    const auto a4 = rows("A4", Unit::mm);
    for (const auto& [figure, words] : a4) EXPECT_EQ(words.find("A4"), std::string::npos) << words;
    for (const auto& [figure, words] : rows("A3", Unit::mm))
        EXPECT_EQ(words.find("A4"), std::string::npos) << words;
    EXPECT_EQ(rows("roll 24 in", Unit::ft).size(), 2U);
}

// In the PDF itself: every page has a level and an upright line of 100 mm (283.4646 units), and the
// calibration page more than 150 mm in all.
TEST(Templates, BarsInBothAxesAreTrueInThePdf) {
    for (const char* paper : {"A4", "Letter", "A3", "Tabloid", "roll 24 in"})
        for (const Unit unit : {Unit::mm, Unit::ft}) {
            TemplateOptions options = optionsFor(paper);
            options.units.unit = unit;
            Drawing drawing{"bars", templatePages(hand::roof(), options)};
            drawing.pages.push_back(calibrationPage(options));
            const auto pages = hand::readPdf(writePdf(drawing));
            ASSERT_EQ(pages.size(), drawing.pages.size());
            for (const hand::PdfPage& page : pages) {
                int level = 0, upright = 0;
                for (const hand::PdfLine& line : page.lines) {
                    if (std::abs(line.length() - 283.4646) > 0.01 * 72 / 25.4) continue;
                    level += std::abs(line.b.y() - line.a.y()) < 1e-6 ? 1 : 0;
                    upright += std::abs(line.b.x() - line.a.x()) < 1e-6 ? 1 : 0;
                }
                EXPECT_GE(level, 1) << paper;
                EXPECT_GE(upright, 1) << paper;
            }
            // On a template the bars give way to lines that are cut; nothing is in their way on the first
            // page.
            const Layer& bars = layer(drawing.pages.back().overlay, "bars");
            for (const int axis : {0, 1}) {
                double low = 1e300, high = -1e300;
                for (const Stroke& stroke : bars.strokes)
                    if (std::abs(stroke.points[0][1 - axis] - stroke.points[1][1 - axis]) < 1e-9)
                        for (const Vec2& p : stroke.points) {
                            low = std::min(low, p[axis]);
                            high = std::max(high, p[axis]);
                        }
                EXPECT_GE(high - low, 150) << paper;
            }
        }
}

TEST(Templates, RollsTakeTheWholePanelAndStayUnderTheLimit) {
    const std::vector<Page> pages = templatePages(hand::longSide(), optionsFor("roll 36 in"));
    ASSERT_EQ(pages.size(), 1u);
    EXPECT_NEAR(std::min(pages[0].width, pages[0].height), 914.4, 1e-9);
    const Panel mast = hand::panelOf("mast", hand::rectangle(0, 0, 9000, 1500), {{"", EdgeRole::cut, 0}});
    const std::vector<Page> many = templatePages(mast, optionsFor("roll 24 in"));
    EXPECT_GT(many.size(), 1u);
    for (const Page& page : many) EXPECT_LE(std::max(page.width, page.height), pdfLimit);
}

TEST(Templates, NothingOfTheFurnitureLeavesThePrintableArea) {
    for (const char* paper : {"A4", "Letter"}) {
        const TemplateOptions options = optionsFor(paper);
        for (const Panel& panel : {hand::longSide(), hand::triangle(), hand::roof(), hand::folded()})
            for (const Page& page : templatePages(panel, options)) {
                const Area area{options.border, options.border, page.width - 2 * options.border,
                                page.height - 2 * options.border};
                const auto inside = [&](const Vec2& p) {
                    return p.x() >= area.x - 0.01 && p.y() >= area.y - 0.01 && p.x() <= area.right() + 0.01 &&
                           p.y() <= area.top() + 0.01;
                };
                for (const Layer& one : page.overlay.layers) {
                    for (const Stroke& stroke : one.strokes)
                        for (const Vec2& p : stroke.points)
                            EXPECT_TRUE(inside(p)) << one.name << " " << p.transpose();
                    for (const Label& label : one.labels) {
                        const Area box = labelArea(label);
                        EXPECT_TRUE(inside({box.x, box.y}) && inside({box.right(), box.top()})) << label.text;
                    }
                }
            }
    }
}

TEST(Templates, EmptyPanelGivesNoPages) {
    EXPECT_TRUE(templatePages({}, optionsFor("A4")).empty());
}
