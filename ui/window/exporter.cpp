#include "ui/window/exporter.h"
#include "core/pack/drawings.h"
#include "core/pack/measuring_sheet.h"
#include "core/pack/pack.h"
#include "core/pack/write_file.h"
#include "ui/session/session.h"
#include "ui/window/notice.h"
#include <QDesktopServices>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QSaveFile>
#include <QStandardPaths>
#include <QUrl>

namespace slab::ui {

namespace {

using Files = Expected<std::vector<QString>>;

Expected<void> writeFile(const QString& path, const std::string& bytes) {
    QSaveFile out(path);
    const bool opened = out.open(QIODevice::WriteOnly);
    if (!opened || out.write(bytes.data(), static_cast<qint64>(bytes.size())) < 0 || !out.commit())
        return fail("cannot-write",
                    "Could not write " + path.toStdString() + ": " + out.errorString().toStdString(),
                    path.toStdString(), "Choose another folder.");
    return {};
}

Expected<void> needPanels(const Evaluation& e) {
    if (e.panels && !e.panels->empty()) return {};
    return fail("no-panels", "There are no panels to write yet.", {}, "Look at the punch list first.");
}

Expected<void> needSheets(const Evaluation& e) {
    if (e.panels && e.sheets && e.nestProblem && e.stock && !e.sheets->layouts.empty()) return {};
    return fail("no-sheets", "There are no sheets to write yet.", {}, "Look at the punch list first.");
}

Files writeTemplates(const Project& project, const Evaluation& e, const PrintChoice& choice,
                     const QString& pdf, const Job& job) {
    const auto paper = paperNamed(choice.paper.toStdString());
    if (!paper) return Unexpected(paper.error());
    TemplateWish wish{*paper, choice.border, choice.overlap, std::vector<std::string>{}};
    for (const QString& name : choice.panels) wish.panels->push_back(name.toStdString());
    if (!choice.panels.isEmpty())
        if (const auto ready = needPanels(e); !ready) return Unexpected(ready.error());
    if (const auto done = writeFile(pdf, writePdf(templateDrawing(project, e, wish, job))); !done)
        return Unexpected(done.error());
    return std::vector<QString>{pdf};
}

Files writePanelDrawings(const Project& project, const Evaluation& e, const QString& pdf) {
    if (const auto ready = needPanels(e); !ready) return Unexpected(ready.error());
    if (const auto done = writeFile(pdf, writePdf(panelDrawing(project, e))); !done)
        return Unexpected(done.error());
    return std::vector<QString>{pdf};
}

Files writeSheetLayouts(const Project& project, const Evaluation& e, const QString& pdf) {
    if (const auto ready = needSheets(e); !ready) return Unexpected(ready.error());
    if (const auto done = writeFile(pdf, writePdf(sheetDrawing(project, e))); !done)
        return Unexpected(done.error());
    return std::vector<QString>{pdf};
}

Files writeMeasuringSheet(const Project& project, const Evaluation& e, const QString& pdf) {
    const Drawing drawing = measuringDrawing(project, e);
    if (drawing.pages.empty())
        return fail("no-donor", "There is no donor to measure.", {},
                    "Choose one in the table Donor and rider.");
    if (const auto done = writeFile(pdf, writePdf(drawing)); !done) return Unexpected(done.error());
    return std::vector<QString>{pdf};
}

Files writeSvgs(const std::vector<Page>& pages, const QString& folder) {
    std::vector<QString> files;
    FileNames names;
    QDir().mkpath(folder);
    for (const Page& page : pages) {
        const QString path = QDir(folder).filePath(QString::fromStdString(names.take(page.name, ".svg")));
        if (const auto done = writeFile(path, writeSvg(page)); !done) return Unexpected(done.error());
        files.push_back(path);
    }
    return files;
}

} // namespace

Exporter::Exporter(Session* session, Notice* notice, QWidget* window)
    : QObject(window), m_session(session), m_notice(notice), m_window(window),
      m_runner(std::make_unique<Runner>()) {}

Exporter::~Exporter() {
    m_runner.reset();
}

void Exporter::run(const QString& what, const QString& place, Writing job) {
    m_session->settle();
    m_notice->tell(Notice::Kind::running, "Writing " + what + "…");
    // The session's own evaluation if it is the confirmed one of this very document, else a fresh one.
    const bool ready = !m_session->busy();
    Project named = m_session->project();
    if (m_title) named.title = m_title().toStdString();
    auto task = [this, what, place, job = std::move(job), project = std::move(named),
                 evaluation = ready ? m_session->evaluation() : Evaluation{}, ready](std::stop_token stop) {
        const Job handle{stop, {}};
        Expected<std::vector<QString>> result;
        try {
            result = ready ? job(project, evaluation, handle)
                           : job(project, Evaluator().evaluate(project, Effort::full, 0, handle), handle);
        } catch (const std::exception& error) {
            result = fail("cannot-write", std::string("Writing failed: ") + error.what());
        }
        if (stop.stop_requested()) return;
        QMetaObject::invokeMethod(
            this, [this, what, place, result] { tell(what, place, result); }, Qt::QueuedConnection);
    };
    m_runner->post(0, std::move(task), 0);
}

void Exporter::tell(const QString& what, const QString& place, const Expected<std::vector<QString>>& result) {
    if (!result) {
        m_notice->tell(Notice::Kind::bad,
                       QString::fromStdString(result.error().message + " " + result.error().remedy));
    } else {
        const bool one = result->size() == 1;
        const QString open = one ? result->front() : place;
        const QString words =
            one ? what + (what.endsWith('s') ? " are in " : " is in ") + QDir::toNativeSeparators(open)
                : QString("%1: %2 files in %3").arg(what).arg(result->size()).arg(place);
        m_notice->tell(Notice::Kind::good, words.left(1).toUpper() + words.mid(1),
                       one ? "Open" : "Open folder",
                       [open] { QDesktopServices::openUrl(QUrl::fromLocalFile(open)); });
    }
    Q_EMIT finished(result.has_value(), place);
}

void Exporter::pack(const QString& folder) {
    run("the build pack", folder,
        [folder](const Project& project, const Evaluation& e, const Job& job) -> Files {
            const auto written = writePack(project, e, folder.toStdString(), job);
            if (!written) return Unexpected(written.error());
            std::vector<QString> files;
            for (const auto& path : *written) files.push_back(QString::fromStdString(path.string()));
            return files;
        });
}

void Exporter::panelSvgs(const QString& folder) {
    run("panel outlines", folder, [folder](const Project&, const Evaluation& e, const Job&) -> Files {
        if (const auto ready = needPanels(e); !ready) return Unexpected(ready.error());
        std::vector<Page> pages;
        for (const Panel& panel : *e.panels) {
            const Sheet* sheet = e.stock ? e.stock->find(panel.stock) : nullptr;
            pages.push_back(panelSvgPage(panel, tintFor(sheet ? sheet->kind : "foam")));
        }
        return writeSvgs(pages, folder);
    });
}

void Exporter::sheetSvgs(const QString& folder) {
    run("sheet layouts", folder, [folder](const Project&, const Evaluation& e, const Job&) -> Files {
        if (const auto ready = needSheets(e); !ready) return Unexpected(ready.error());
        return writeSvgs(sheetPages(e), folder);
    });
}

void Exporter::panelDrawings(const QString& pdf) {
    run("the panel drawings", pdf, [pdf](const Project& project, const Evaluation& e, const Job&) {
        return writePanelDrawings(project, e, pdf);
    });
}

void Exporter::sheetLayouts(const QString& pdf) {
    run("the sheet layouts", pdf, [pdf](const Project& project, const Evaluation& e, const Job&) {
        return writeSheetLayouts(project, e, pdf);
    });
}

void Exporter::measuringSheet(const QString& pdf) {
    run("the measuring sheet", pdf, [pdf](const Project& project, const Evaluation& e, const Job&) {
        return writeMeasuringSheet(project, e, pdf);
    });
}

void Exporter::templates(const QString& pdf, const PrintChoice& choice) {
    run(choice.panels.isEmpty() ? "the calibration page" : "the templates", pdf,
        [pdf, choice](const Project& project, const Evaluation& e, const Job& job) {
            return writeTemplates(project, e, choice, pdf, job);
        });
}

QString Exporter::askFolder(const QString& title) {
    return QFileDialog::getExistingDirectory(
        m_window, title, QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation));
}

QString Exporter::askPdf(const QString& title, const QString& name) {
    const QString folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
    return QFileDialog::getSaveFileName(m_window, title, folder + "/" + name, "PDF (*.pdf)");
}

void Exporter::askPack() {
    if (const QString folder = askFolder("Folder for the build pack"); !folder.isEmpty()) pack(folder);
}

void Exporter::askPanelSvgs() {
    if (const QString folder = askFolder("Folder for the panel outlines"); !folder.isEmpty())
        panelSvgs(folder);
}

void Exporter::askSheetSvgs() {
    if (const QString folder = askFolder("Folder for the sheet layouts"); !folder.isEmpty())
        sheetSvgs(folder);
}

void Exporter::askPanelDrawings() {
    if (const QString pdf = askPdf("Save the panel drawings", "panels.pdf"); !pdf.isEmpty())
        panelDrawings(pdf);
}

void Exporter::askSheetLayouts() {
    if (const QString pdf = askPdf("Save the sheet layouts", "sheets.pdf"); !pdf.isEmpty()) sheetLayouts(pdf);
}

void Exporter::askMeasuringSheet() {
    if (const QString pdf = askPdf("Save the measuring sheet", "measuring-sheet.pdf"); !pdf.isEmpty())
        measuringSheet(pdf);
}

} // namespace slab::ui
