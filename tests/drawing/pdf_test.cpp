#include "core/drawing/sheets.h"
#include "tests/drawing/hand_panels.h"
#include "tests/drawing/pdf_reader.h"
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <unistd.h>

using namespace slab;

namespace {

constexpr double pt = 72 / 25.4; // PDF user unit 1/72 in: PDF 1.7 (ISO 32000-1), 8.3.2.3

Page lined(double width, double height, const Vec2& a, const Vec2& b) {
    Page page;
    page.name = "line";
    page.width = width;
    page.height = height;
    Layer layer{"outer", {}, {}, {}, {}};
    layer.strokes.push_back({{a, b}, false, 0.5, Dash::solid, Ink::line});
    page.groups = {{"line", "line", {layer}}};
    return page;
}

std::size_t countOf(const std::string& text, const std::string& what) {
    std::size_t n = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
    return n;
}

bool has(const std::vector<hand::PdfLine>& lines, double length) {
    for (const hand::PdfLine& line : lines)
        if (std::abs(line.length() - length) < 0.01 * pt) return true;
    return false;
}

} // namespace

// ISO 216: A4 is 210 × 297 mm, 595.276 × 841.890 units.
TEST(Pdf, A4IsA4) {
    const auto pages = hand::readPdf(writePdf({"A4", {lined(210, 297, {50, 50}, {150, 50})}}));
    ASSERT_EQ(pages.size(), 1u);
    EXPECT_NEAR(pages[0].box[2], 595.276, 0.001);
    EXPECT_NEAR(pages[0].box[3], 841.890, 0.001);
}

// 100 mm = 283.4646 units, where it was put: 1 mm = 72 / 25.4 units, y up from the page's lower left.
TEST(Pdf, HundredMillimetresAreHundred) {
    const auto pages = hand::readPdf(writePdf({"bar", {lined(210, 297, {50, 60}, {150, 60})}}));
    ASSERT_EQ(pages.at(0).lines.size(), 1u);
    const hand::PdfLine line = pages[0].lines[0];
    EXPECT_NEAR(line.length(), 283.4646, 0.005);
    EXPECT_NEAR(line.a.x(), 50 * pt, 0.005);
    EXPECT_NEAR(line.a.y(), 60 * pt, 0.005);
    EXPECT_NEAR(line.width, 0.5 * pt, 0.001);
}

TEST(Pdf, ShiftMovesGroupsNotTheOverlay) {
    Page page = lined(210, 297, {0, 0}, {30, 0});
    page.shift = Vec2(40, 70);
    Layer layer{"x", {}, {}, {}, {}};
    layer.strokes.push_back({{{0, 0}, {0, 20}}, false, 0.2, Dash::solid, Ink::line});
    page.overlay = {"o", "", {layer}};
    const auto lines = hand::readPdf(writePdf({"shift", {page}})).at(0).lines;
    ASSERT_EQ(lines.size(), 2u);
    EXPECT_NEAR(lines[0].a.x(), 40 * pt, 0.01);
    EXPECT_NEAR(lines[0].a.y(), 70 * pt, 0.01);
    EXPECT_NEAR(lines[1].a.x(), 0, 0.01);
    EXPECT_NEAR(lines[1].length(), 20 * pt, 0.01);
}

TEST(Pdf, PanelOutlineIsTrueSize) {
    const Panel panel = hand::triangle();
    Page page;
    page.groups = {panelGroup(panel, Ink::paper)};
    page.shift = Vec2(30, 30);
    const auto lines = hand::readPdf(writePdf({"panel", {page}})).at(0).lines;
    for (const PanelEdge& edge : panel.boundary.edges)
        EXPECT_TRUE(has(lines, edge.length * pt)) << edge.length;
}

TEST(Pdf, SameDrawingSameBytes) {
    TemplateOptions options;
    options.paper = *paperNamed("A4");
    Drawing drawing{"twice", templatePages(hand::roof(), options)};
    drawing.pages.push_back(calibrationPage(options));
    EXPECT_EQ(writePdf(drawing), writePdf(drawing));
}

TEST(Pdf, FontsAreEmbedded) {
    TemplateOptions options;
    options.paper = *paperNamed("A4");
    const std::string pdf = writePdf({"fonts", {calibrationPage(options)}});
    EXPECT_GE(countOf(pdf, "/FontDescriptor "), 1u);
    EXPECT_GE(countOf(pdf, "/FontFile"),
              countOf(pdf, "/Type /FontDescriptor")); // every descriptor has its font
    EXPECT_EQ(countOf(pdf, "/UserUnit"), 0u);
}

TEST(Pdf, BookmarksByPanelThenPage) {
    TemplateOptions options;
    options.paper = *paperNamed("A4");
    Drawing drawing{"marks", templatePages(hand::roof(), options)};
    const std::size_t tiles = drawing.pages.size();
    ASSERT_GT(tiles, 1u);
    for (const Page& page : templatePages(hand::triangle(), options)) drawing.pages.push_back(page);
    const std::string pdf = writePdf(drawing);
    // one for each panel, one for each tile of the panel that has several
    EXPECT_EQ(countOf(pdf, "/Title ("), 1 + 2 + tiles); // and the document's own title
    EXPECT_NE(pdf.find("wheelhouse/roof"), std::string::npos);
}

// 14,400 units = 5080 mm is the longest side without UserUnit, which many viewers ignore.
TEST(Pdf, LongPagesAreCutAtTrueSize) {
    const Drawing drawing{"long",
                          {lined(12000, 300, {100, 100}, {11900, 100}), lined(210, 297, {0, 0}, {1, 1})}};
    const auto findings = checkPages(drawing);
    ASSERT_EQ(findings.size(), 1u);
    EXPECT_EQ(findings[0].code, "page-split");
    const auto pages = hand::readPdf(writePdf(drawing));
    ASSERT_EQ(pages.size(), 4u);
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_LE(pages[i].box[2], 14400);
        EXPECT_NEAR(pages[i].box[2], 4000 * pt, 0.01);
        ASSERT_EQ(pages[i].lines.size(), 1u);
        EXPECT_NEAR(pages[i].lines[0].a.x(), (100 - 4000.0 * static_cast<double>(i)) * pt, 0.02);
    }
}

TEST(Pdf, PagesWithoutSizeAreFoundAndLeftOut) {
    Page bad = lined(0, 297, {0, 0}, {1, 1});
    const Drawing drawing{"bad", {bad}};
    ASSERT_EQ(checkPages(drawing).size(), 1u);
    EXPECT_EQ(checkPages(drawing)[0].code, "page-empty");
    EXPECT_EQ(hand::readPdf(writePdf(drawing)).size(), 1u) << "a file with one blank page still opens";
    EXPECT_EQ(hand::readPdf(writePdf({"none", {}})).size(), 1u);
}

// Another program's opinion where it is installed (poppler-utils).
TEST(Pdf, OpensInAnotherReader) {
    if (std::system("command -v pdfinfo >/dev/null 2>&1") != 0) GTEST_SKIP() << "pdfinfo is not installed";
    TemplateOptions options;
    options.paper = *paperNamed("Letter");
    Drawing drawing{"Ünïcode – title", templatePages(hand::longSide(), options)};
    PanelDrawingOptions page;
    drawing.pages.push_back(panelPages(hand::longSide(), page).front());
    const auto file =
        std::filesystem::temp_directory_path() / ("slabside-pdf-test-" + std::to_string(::getpid()) + ".pdf");
    std::ofstream(file, std::ios::binary) << writePdf(drawing);
    const std::string command = "pdfinfo '" + file.string() + "' 2>&1";
    FILE* pipe = ::popen(command.c_str(), "r");
    ASSERT_NE(pipe, nullptr);
    std::string text(65536, '\0');
    text.resize(std::fread(text.data(), 1, text.size(), pipe));
    EXPECT_EQ(::pclose(pipe), 0);
    std::filesystem::remove(file);
    EXPECT_NE(text.find("Pages:           " + std::to_string(drawing.pages.size())), std::string::npos)
        << text;
    EXPECT_NE(text.find("Ünïcode – title"), std::string::npos) << text;
    EXPECT_EQ(text.find("Error"), std::string::npos) << text;
}
