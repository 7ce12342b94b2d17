// The build pack, by the window's own action and its folder dialog: every file is there and opens.
#include "tests/drawing/pdf_reader.h"
#include "tests/ui_window/bench.h"
#include "ui/panels/panel_canvas.h"
#include "ui/panels/panel_list.h"
#include "ui/window/document_file.h"
#include "ui/window/exporter.h"
#include "ui/window/notice.h"
#include <QApplication>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QLineEdit>
#include <QProcess>
#include <QRegularExpression>
#include <QStandardPaths>
#include <QTest>
#include <algorithm>
#include <charconv>
#include <cmath>
#include <pugixml.hpp>

namespace slab::ui::test {
namespace {

constexpr double pt = 72 / 25.4; // PDF user unit 1/72 in: PDF 1.7 (ISO 32000-1), 8.3.2.3

/// Answers the next file dialog as a builder would: types a path and accepts.
class Answer : public QObject {
public:
    explicit Answer(QString path) : m_path(std::move(path)) {
        connect(&m_look, &QTimer::timeout, this, [this] {
            auto* dialog = qobject_cast<QFileDialog*>(QApplication::activeModalWidget());
            if (!dialog) return;
            m_look.stop();
            answered = true;
            dialog->findChild<QLineEdit*>("fileNameEdit")->setText(m_path);
            static_cast<QDialog*>(dialog)->accept();
        });
        m_look.start(20);
    }
    bool answered = false;

private:
    QString m_path;
    QTimer m_look;
};

class Export : public WindowTest {
protected:
    /// Builds the pack once for all tests of this program that look at it.
    static QString pack() {
        static QString made;
        if (!made.isEmpty()) return made;
        const QString target = folder() + "/pack";
        EXPECT_TRUE(QDir().mkpath(target));
        bool finished = false, written = false;
        auto* exporter = window().findChild<Exporter*>();
        const auto told = QObject::connect(exporter, &Exporter::finished, [&](bool done, const QString&) {
            finished = true;
            written = done;
        });
        {
            const Answer answer(target);
            trigger("Build pack…");
            EXPECT_TRUE(answer.answered);
        }
        EXPECT_TRUE(waitFor([&] { return finished; }));
        QObject::disconnect(told);
        EXPECT_TRUE(written) << window().notice()->words().toStdString();
        return made = target;
    }
};

QStringList filesIn(const QString& folder, const QString& pattern) {
    QStringList all;
    for (const QString& name : QDir(folder).entryList({pattern}, QDir::Files, QDir::Name))
        all << folder + "/" + name;
    return all;
}

QString ran(const QString& program, const QStringList& arguments) {
    QProcess process;
    process.start(program, arguments);
    EXPECT_TRUE(waitFor([&] { return process.state() == QProcess::NotRunning; })) << program.toStdString();
    EXPECT_EQ(process.exitStatus(), QProcess::NormalExit);
    EXPECT_EQ(process.exitCode(), 0) << process.readAllStandardError().toStdString();
    return QString::fromUtf8(process.readAllStandardOutput());
}

/// Records of RFC 4180: quoted fields may hold commas and doubled quotes.
std::vector<QStringList> csvOf(const QByteArray& bytes) {
    std::vector<QStringList> records;
    QStringList record;
    QByteArray field;
    bool quoted = false;
    for (qsizetype i = 0; i < bytes.size(); ++i) {
        const char c = bytes[i];
        if (quoted) {
            if (c != '"')
                field += c;
            else if (i + 1 < bytes.size() && bytes[i + 1] == '"')
                field += bytes[++i];
            else
                quoted = false;
        } else if (c == '"') {
            quoted = true;
        } else if (c == ',' || c == '\r') {
            record << QString::fromUtf8(field);
            field.clear();
            if (c == ',') continue;
            EXPECT_TRUE(i + 1 < bytes.size() && bytes[i + 1] == '\n') << "RFC 4180 lines end in CR LF";
            ++i;
            records.push_back(record);
            record.clear();
        } else {
            field += c;
        }
    }
    EXPECT_TRUE(record.isEmpty() && field.isEmpty()) << "the last line has no end";
    return records;
}

TEST_F(Export, WritesEveryFileOfThePackAndEachOpens) {
    const QString target = pack();
    EXPECT_TRUE(window().notice()->isVisible());
    EXPECT_TRUE(window().notice()->words().contains("uild pack")) << window().notice()->words().toStdString();
    const Json report = Json::parse(bytesOf(target + "/report.json").toStdString());
    EXPECT_EQ(report, reportOf(session()));
    const std::size_t panels = report.at("panels").size(), sheets = report.at("sheets").size();
    EXPECT_EQ(static_cast<std::size_t>(filesIn(target + "/panels", "*.svg").size()), panels);
    EXPECT_EQ(static_cast<std::size_t>(filesIn(target + "/sheets", "*.svg").size()), sheets);

    for (const QString& svg : filesIn(target + "/panels", "*.svg") + filesIn(target + "/sheets", "*.svg")) {
        pugi::xml_document document;
        ASSERT_TRUE(document.load_file(svg.toStdString().c_str())) << svg.toStdString();
        const pugi::xml_node root = document.child("svg");
        const std::string width = root.attribute("width").value(), height = root.attribute("height").value();
        EXPECT_TRUE(width.ends_with("mm") && height.ends_with("mm")) << svg.toStdString() << " " << width;
        EXPECT_GT(std::stod(width), 10);
        EXPECT_EQ(std::string(root.attribute("viewBox").value()),
                  "0 0 " + width.substr(0, width.size() - 2) + " " + height.substr(0, height.size() - 2))
            << "one drawing unit is one millimetre";
    }
}

TEST_F(Export, TheMeasuringSheetAloneFromTheMenu) {
    const QString pdf = folder() + "/to measure.pdf";
    bool finished = false;
    auto* exporter = window().findChild<Exporter*>();
    const auto told = QObject::connect(exporter, &Exporter::finished, [&] { finished = true; });
    {
        const Answer answer(pdf);
        trigger("Measuring sheet of the donor (PDF)…");
        EXPECT_TRUE(answer.answered);
    }
    EXPECT_TRUE(waitFor([&] { return finished; }));
    QObject::disconnect(told);
    EXPECT_GE(hand::readPdf(bytesOf(pdf).toStdString()).size(), 3U) << "side, plan and readings";
}

TEST_F(Export, ThePdfsOpenInAnotherReaderAndSayWhatTheyAre) {
    if (QStandardPaths::findExecutable("pdfinfo").isEmpty()) GTEST_SKIP() << "poppler-utils is not installed";
    const QString target = pack();
    const Json report = reportOf(session());
    const QStringList pdfs = filesIn(target, "*.pdf");
    ASSERT_EQ(pdfs.size(), 4) << pdfs.join(' ').toStdString();
    for (const QString& pdf : pdfs) {
        const QString facts = ran("pdfinfo", {pdf}), words = ran("pdftotext", {"-layout", pdf, "-"});
        const int pages = facts.section("Pages:", 1).section('\n', 0, 0).trimmed().toInt();
        EXPECT_EQ(static_cast<std::size_t>(pages), hand::readPdf(bytesOf(pdf).toStdString()).size());
        EXPECT_TRUE(words.contains(QString::fromStdString(session().project().title))) << pdf.toStdString();
        const QString file = QFileInfo(pdf).fileName();
        if (file == "panels.pdf") {
            const auto panels = static_cast<int>(report.at("panels").size());
            EXPECT_GE(pages, panels) << "tables may go on to a further page";
            EXPECT_EQ(pages - static_cast<int>(words.count(QRegularExpression("[^,] continued\\n"))), panels);
            for (int i = 1; i <= panels; ++i)
                EXPECT_TRUE(words.contains(QString("panel %1 of %2").arg(i).arg(panels))) << i;
        }
        if (file == "sheets.pdf") {
            EXPECT_EQ(static_cast<std::size_t>(pages), report.at("sheets").size());
        }
        if (file.startsWith("templates-")) {
            EXPECT_TRUE(facts.contains("612 x 792")) << "Letter: 8.5 x 11 in; " << facts.toStdString();
            EXPECT_GT(static_cast<std::size_t>(pages), report.at("panels").size());
            EXPECT_TRUE(words.contains("nominal", Qt::CaseInsensitive)) << "the sheets are not measured";
        }
        if (file == "measuring-sheet.pdf") {
            EXPECT_TRUE(words.contains("drive axle to front of the footplate"));
            EXPECT_TRUE(words.contains("Measured by") && words.contains("Switch it off"));
            continue;
        }
        for (const Json& panel : report.at("panels")) {
            EXPECT_TRUE(words.contains(QString::fromStdString(panel.at("name"))) || file == "sheets.pdf")
                << panel.at("name") << " is not in " << file.toStdString();
        }
        EXPECT_FALSE(ran("pdffonts", {pdf}).contains(" no  ")) << "a font is not embedded";
    }
}

TEST_F(Export, TheShoppingListIsACsvThatAgreesWithTheTotals) {
    const auto records = csvOf(bytesOf(pack() + "/shopping-list.csv"));
    const Json stock = reportOf(session()).at("totals").at("stock");
    // After the sheets, a line for each round form, which is bought and not cut from a sheet, and for each
    // piece of a mechanism's hardware.
    const auto& forms = session().project().forms;
    const auto rounds = std::count_if(forms.begin(), forms.end(), [](const Form& form) {
        return std::holds_alternative<RoundShape>(form.shape);
    });
    std::vector<Json> hardware;
    const Json report = reportOf(session());
    for (const Json& mechanism : report.at("mechanisms"))
        for (const Json& item : mechanism.at("hardware")) hardware.push_back(item);
    const std::size_t bought = 1 + stock.size() + static_cast<std::size_t>(rounds);
    ASSERT_GT(hardware.size(), 0U);
    ASSERT_EQ(records.size(), bought + hardware.size());
    for (std::size_t i = 1 + stock.size(); i < bought; ++i)
        EXPECT_TRUE(records[i][0].contains(" for ")) << records[i].join(";").toStdString();
    for (std::size_t i = 0; i < hardware.size(); ++i)
        EXPECT_EQ(records[bought + i][2].toInt(), hardware[i].at("count").get<int>());
    EXPECT_EQ(records[0],
              QStringList({"Item", "Size", "Need", "On hand", "Buy", "Unit price ($)", "Cost ($)"}));
    for (std::size_t i = 0; i < stock.size(); ++i) {
        const QStringList& r = records[i + 1];
        ASSERT_EQ(r.size(), 7);
        EXPECT_EQ(r[0].toStdString(), stock[i].at("stock").get<std::string>());
        EXPECT_EQ(r[2].toInt(), stock[i].at("sheets").get<int>());
        EXPECT_EQ(r[3].toInt(), stock[i].at("on_hand").get<int>());
        EXPECT_EQ(r[4].toInt(), stock[i].at("buy").get<int>());
        EXPECT_NEAR(r[6].toDouble(), stock[i].at("cost").get<double>(), 0.005);
    }
}

/// Points of the first closed path of a layer as its file says them: group coordinates, mm.
Ring svgOutline(const QString& file, const char* layer) {
    pugi::xml_document document;
    EXPECT_TRUE(document.load_file(file.toStdString().c_str())) << file.toStdString();
    Ring ring;
    const std::string wanted = std::string("layer-") + layer;
    const auto found = document.find_node(
        [&](const pugi::xml_node& node) { return std::string(node.attribute("class").value()) == wanted; });
    for (const pugi::xml_node path : found.children("path")) {
        if (std::string(path.attribute("fill").value()) != "none") continue;
        std::string d = path.attribute("d").value();
        if (!d.ends_with("Z")) continue;
        const char *at = d.data(), *end = at + d.size();
        std::vector<double> numbers;
        while (at < end) {
            double value = 0;
            const auto [next, error] = std::from_chars(at, end, value);
            if (error == std::errc())
                numbers.push_back(value), at = next;
            else
                ++at;
        }
        for (std::size_t i = 0; i + 1 < numbers.size(); i += 2) ring.emplace_back(numbers[i], numbers[i + 1]);
        return ring;
    }
    return ring;
}

/// Where a ring of points stands among the lines of a PDF page (the same shape, only moved): its points in
/// mm, moved back so that the first is in its place. Empty if it is not there. Cairo writes upright
/// rectangles by a corner and a size: these may begin at any corner and run either way.
Ring pdfOutline(const std::vector<hand::PdfLine>& lines, const Ring& wanted, double within) {
    const std::size_t n = wanted.size(), starts = n == 4 ? 4 : 1;
    for (std::size_t first = 0; first + n <= lines.size(); ++first)
        for (std::size_t start = 0; start < starts; ++start)
            for (const bool back : {false, true}) {
                if (back && n != 4) continue;
                const auto point = [&](std::size_t i) -> Vec2 {
                    return lines[first + (back ? start + n - i : start + i) % n].a / pt;
                };
                const Vec2 moved = point(0) - wanted[0];
                bool same = true;
                for (std::size_t i = 0; i < n && same; ++i)
                    same = (point(i) - moved - wanted[i]).norm() <= within &&
                           (lines[first + i].b - lines[first + (i + 1) % n].a).norm() < 1e-9;
                if (!same) continue;
                Ring ring;
                for (std::size_t i = 0; i < n; ++i) ring.push_back(point(i) - moved);
                return ring;
            }
    return {};
}

/// The corners alone: Cairo leaves out points in the middle of a straight line.
Ring cornersOf(const Ring& ring, double within) {
    Ring corners;
    for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
        const Vec2 &before = ring[(i + n - 1) % n], &after = ring[(i + 1) % n];
        const Vec2 along = (after - before).normalized(), to = ring[i] - before;
        if (std::abs(along.x() * to.y() - along.y() * to.x()) > within) corners.push_back(ring[i]);
    }
    return corners;
}

TEST_F(Export, ScreenSvgPdfAndJsonHaveTheSamePoints) {
    const QString target = pack();
    // The report and SVG print numbers that read back the same. Cairo keeps path points to 1/256 of a unit
    // (24.8 fixed point) and prints them with three decimals: half of each, in both axes, at both points
    // compared.
    const double rounding = 2 * std::sqrt(2.0) * (0.5 / 256 + 0.0005) / pt;
    const Json report = Json::parse(bytesOf(target + "/report.json").toStdString());
    const QStringList templates = filesIn(target, "templates-*.pdf");
    ASSERT_EQ(templates.size(), 1);
    const auto pages = hand::readPdf(bytesOf(templates[0]).toStdString());
    const QStringList svgs = filesIn(target + "/panels", "*.svg");
    int onScreen = 0, compared = 0;
    double worst = 0;
    for (const Json& panel : report.at("panels")) {
        const std::string name = panel.at("name");
        for (const char* side : {"outer", "inner"}) {
            const Ring said = ringOf(panel.at(std::string(side) + "_mm"));
            if (said.empty()) continue;
            QString file = target + "/panels/" + QString::fromStdString(safeId(name)) + ".svg";
            ASSERT_TRUE(QFileInfo::exists(file)) << file.toStdString();
            if (std::string(side) == "outer") {
                EXPECT_EQ(svgOutline(file, side), said) << name << " in SVG";
            }
            int found = 0;
            for (const auto& page : pages) {
                Ring all = said, drawn = pdfOutline(page.lines, all, rounding);
                if (drawn.empty()) {
                    all = cornersOf(said, rounding);
                    drawn = pdfOutline(page.lines, all, rounding);
                }
                if (drawn.empty()) continue;
                ++found;
                for (std::size_t i = 0; i < all.size(); ++i)
                    worst = std::max(worst, (drawn[i] - all[i]).norm());
            }
            if (std::string(side) == "outer") {
                EXPECT_GT(found, 0) << name << " is on no template page";
            }
            compared += found > 0;
        }
        if (name == "hull/deck" || name == "wheelhouse/front" || name == "hull/port#2" ||
            name == "hull/bow~1") {
            choosePanel(QString::fromStdString(name));
            const auto& canvas = part<PanelCanvas>();
            const QPolygonF drawn = canvas.outlineOnScreen();
            const Ring said = ringOf(panel.at("outer_mm"));
            ASSERT_EQ(static_cast<std::size_t>(drawn.size()), said.size()) << name;
            for (std::size_t i = 0; i < said.size(); ++i)
                EXPECT_LT((canvas.view().toPaper(drawn[static_cast<qsizetype>(i)]) - said[i]).norm(), 1e-9)
                    << name << " point " << i;
            ++onScreen;
        }
    }
    std::printf("%d outlines found in the PDF, farthest point %.2g mm; %d panels on screen\n", compared,
                worst, onScreen);
    EXPECT_GE(onScreen, 3);
}

TEST_F(Export, TheOutlineOnScreenIsWhereItsPointsSay) {
    choosePanel("hull/transom");
    auto& canvas = part<PanelCanvas>();
    const QImage seen = canvas.grab().toImage().convertToFormat(QImage::Format_RGB32);
    const QPolygonF outline = canvas.outlineOnScreen();
    const double ratio = canvas.devicePixelRatio();
    const auto dark = [&](const QPointF& p) { // the darkest pixel within one of p
        int least = 255;
        for (int dx = -1; dx <= 1; ++dx)
            for (int dy = -1; dy <= 1; ++dy) {
                const QPoint at((p * ratio).toPoint() + QPoint(dx, dy));
                if (seen.rect().contains(at)) least = std::min(least, qGray(seen.pixel(at)));
            }
        return least;
    };
    int on = 0, beside = 0, looked = 0;
    for (qsizetype i = 0; i < outline.size(); ++i) {
        const QPointF a = outline[i], b = outline[(i + 1) % outline.size()], d = b - a;
        const double length = std::hypot(d.x(), d.y());
        if (length < 20) continue;
        const QPointF inward(d.y() / length, -d.x() / length); // counter-clockwise on paper, y down on screen
        for (const double share : {0.15, 0.25, 0.85}) {
            ++looked;
            on += dark(a + d * share - inward * 0.25) < 120;
            beside += dark(a + d * share - inward * 5) < 120;
        }
    }
    ASSERT_GE(looked, 9);
    EXPECT_GE(on, looked * 8 / 10) << "of " << looked;
    EXPECT_LE(beside, looked * 4 / 10) << "of " << looked;
}

} // namespace
} // namespace slab::ui::test
