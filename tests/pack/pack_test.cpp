#include "core/pack/drawings.h"
#include "core/pack/pack.h"
#include "core/pack/write_file.h"
#include "tests/drawing/hand_panels.h"
#include "tests/drawing/pdf_reader.h"
#include <fstream>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>
#include <set>
#include <sstream>
#include <unistd.h>

using namespace slab;
namespace fs = std::filesystem;

namespace {

/// A folder of its own, removed at the end.
struct Folder {
    fs::path path;
    Folder() {
        static int number = 0;
        path = fs::temp_directory_path() /
               ("slabside-pack-" + std::to_string(::getpid()) + "-" + std::to_string(++number));
        fs::create_directories(path);
    }
    ~Folder() {
        std::error_code ignored;
        fs::remove_all(path, ignored);
    }
};

std::string textOf(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

Project project() {
    Project p;
    p.title = "Harbour fire boat";
    p.paper = "A4";
    return p;
}

Evaluation evaluation() {
    Evaluation e;
    std::vector<Panel> panels = {hand::triangle(), hand::roof(), hand::folded()};
    NestProblem problem;
    NestResult result;
    problem.sheets.push_back({"xps_13", 1220, 2440, 6, 1, -1, 14.5});
    NestLayout layout;
    for (std::size_t i = 0; i < panels.size(); ++i) {
        NestPart part;
        part.id = panels[i].name;
        part.shape = panels[i].footprint;
        problem.parts.push_back(part);
        layout.places.push_back({static_cast<int>(i), 0, 10 + 600.0 * static_cast<double>(i), 10, 0, false});
    }
    result.layouts = {layout};
    StockSet stock;
    Sheet sheet;
    sheet.name = "xps_13";
    sheet.kind = "foam";
    sheet.width = 1220;
    sheet.length = 2440;
    sheet.thickness = 12.7;
    sheet.measured = true;
    stock.sheets.push_back(sheet);
    e.panels = std::make_shared<std::vector<Panel>>(panels);
    e.stock = std::make_shared<StockSet>(stock);
    e.nestProblem = std::make_shared<NestProblem>(problem);
    e.sheets = std::make_shared<NestResult>(result);
    e.body = std::make_shared<Body>();
    e.plates = std::make_shared<PlateSet>();
    e.fit = std::make_shared<FitResult>();
    e.donor = std::make_shared<DonorSet>();
    return e;
}

} // namespace

TEST(Pack, WritesEveryFileAndEachOpens) {
    const Folder folder;
    const Evaluation e = evaluation();
    double progress = 0;
    const auto written = writePack(project(), e, folder.path / "new" / "pack", Job{{}, [&](double f) {
                                                                                       EXPECT_GE(f, progress);
                                                                                       progress = f;
                                                                                   }});
    ASSERT_TRUE(written) << written.error().message;
    EXPECT_EQ(progress, 1);
    std::set<std::string> names;
    for (const fs::path& path : *written) {
        EXPECT_TRUE(fs::is_regular_file(path)) << path;
        names.insert(fs::relative(path, folder.path / "new" / "pack").generic_string());
    }
    const std::set<std::string> expected = {"report.json",
                                            "shopping-list.csv",
                                            "panels.pdf",
                                            "sheets.pdf",
                                            "templates-A4.pdf",
                                            "sheets/sheet-01.svg",
                                            "panels/funnel-side-2.svg",
                                            "panels/wheelhouse-roof.svg",
                                            "panels/fender-top-A-b.svg"};
    EXPECT_EQ(names, expected);
    const fs::path root = folder.path / "new" / "pack";
    EXPECT_FALSE(nlohmann::json::parse(textOf(root / "report.json"), nullptr, false).is_discarded());
    EXPECT_EQ(hand::readPdf(textOf(root / "panels.pdf")).size(), 3u);
    EXPECT_EQ(hand::readPdf(textOf(root / "sheets.pdf")).size(), 1u);
    const Drawing templates = templateDrawing(project(), e, *paperNamed("A4"));
    EXPECT_EQ(hand::readPdf(textOf(root / "templates-A4.pdf")).size(), templates.pages.size());
    pugi::xml_document svg;
    EXPECT_TRUE(svg.load_string(textOf(root / "sheets" / "sheet-01.svg").c_str()));
    EXPECT_STREQ(svg.child("svg").attribute("width").value(), "2440mm");
    std::size_t left = 0; // no temporary files stay behind
    for (const auto& entry : fs::recursive_directory_iterator(root)) left += entry.is_regular_file() ? 1 : 0;
    EXPECT_EQ(left, expected.size());
}

TEST(Pack, SameProjectSameBytes) {
    const Folder a, b;
    ASSERT_TRUE(writePack(project(), evaluation(), a.path));
    ASSERT_TRUE(writePack(project(), evaluation(), b.path));
    for (const auto& entry : fs::recursive_directory_iterator(a.path))
        if (entry.is_regular_file()) {
            EXPECT_EQ(textOf(entry.path()), textOf(b.path / fs::relative(entry.path(), a.path)))
                << entry.path();
        }
}

TEST(Pack, FirstPagesCarryTheCautions) {
    const Evaluation e = evaluation();
    const auto warns = [](const Drawing& drawing) {
        int pages = 0;
        for (const Page& page : drawing.pages)
            for (const Layer& layer : page.overlay.layers)
                if (layer.name == "cautions") {
                    ++pages;
                    EXPECT_NE(layer.labels.at(0).text.find("sharp blade"), std::string::npos);
                }
        return pages == 1 && drawing.pages.front().overlay.layers.back().name == "cautions";
    };
    EXPECT_TRUE(warns(panelDrawing(project(), e)));
    EXPECT_TRUE(warns(sheetDrawing(project(), e)));
    EXPECT_TRUE(warns(templateDrawing(project(), e, *paperNamed("A4"))));
}

TEST(Pack, UnmeasuredStockIsNominalEverywhere) {
    Evaluation e = evaluation();
    EXPECT_FALSE(panelOptions(project(), e, 0).nominal);
    auto stock = *e.stock;
    stock.sheets[0].measured = false;
    e.stock = std::make_shared<StockSet>(stock);
    EXPECT_TRUE(panelOptions(project(), e, 0).nominal);
    EXPECT_TRUE(templateOptions(project(), e, e.panels->at(0), *paperNamed("A4")).nominal);
    EXPECT_TRUE(panelOptions(project(), e, 1).nominal) << "a stock that is not known was not measured";
}

TEST(Pack, RefusalsLeaveOldFilesAlone) {
    const Folder folder;
    Project odd = project();
    odd.paper = "foolscap";
    auto written = writePack(odd, evaluation(), folder.path);
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().code, "unknown-paper");
    EXPECT_TRUE(fs::is_empty(folder.path));
    std::ofstream(folder.path / "in the way") << "mine";
    written = writePack(project(), evaluation(), folder.path / "in the way");
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().code, "cannot-write");
    EXPECT_EQ(textOf(folder.path / "in the way"), "mine");
    fs::create_directories(folder.path / "report.json" / "full"); // a folder where the file should go
    const auto one = writeWhole(folder.path / "report.json", "new");
    ASSERT_FALSE(one);
    EXPECT_EQ(one.error().code, "cannot-write");
    std::size_t files = 0;
    for (const auto& entry : fs::directory_iterator(folder.path)) files += entry.is_regular_file() ? 1 : 0;
    EXPECT_EQ(files, 1u) << "no temporary file stays behind";
}

TEST(Pack, StopsWhenAsked) {
    const Folder folder;
    std::stop_source source;
    source.request_stop();
    const auto written = writePack(project(), evaluation(), folder.path, Job{source.get_token(), {}});
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().code, "stopped");
    EXPECT_TRUE(fs::is_empty(folder.path));
}

TEST(Pack, FileNamesAreSafeAndDifferEvenByCase) {
    FileNames names;
    EXPECT_EQ(names.take("hull/port#2", ".svg"), "hull-port-2.svg");
    EXPECT_EQ(names.take("Hull/Port 2", ".svg"), "Hull-Port-2-2.svg");
    EXPECT_EQ(names.take("../../etc", ".svg").find('/'), std::string::npos);
    EXPECT_LE(names.take(std::string(300, 'x'), ".svg").size(), 70u);
    EXPECT_NE(names.take(std::string(300, 'x'), ".svg"), names.take(std::string(300, 'x'), ".svg"));
}
