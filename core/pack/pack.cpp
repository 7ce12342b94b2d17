#include "core/pack/pack.h"
#include "core/pack/drawings.h"
#include "core/pack/measuring_sheet.h"
#include "core/pack/write_file.h"

namespace slab {
namespace {

namespace fs = std::filesystem;

/// Makes and writes one file after another; the first failure ends it.
class Packer {
public:
    Packer(const Project& project, const Evaluation& evaluation, fs::path folder, const Job& job)
        : m_project(&project), m_evaluation(&evaluation), m_folder(std::move(folder)), m_job(&job) {}

    Expected<std::vector<fs::path>> run() {
        const Expected<Paper> paper = templatePaper(*m_project);
        if (!paper) return Unexpected(paper.error());
        plan(*paper);
        for (std::size_t i = 0; i < m_tasks.size(); ++i) {
            if (m_job->stopped())
                return fail("stopped", "The build pack was stopped before it was complete.",
                            m_folder.string(), "export it again");
            const Task& task = m_tasks[i];
            if (const Expected<void> made = makeFolder((m_folder / task.path).parent_path()); !made)
                return Unexpected(made.error());
            const std::string bytes = task.make();
            if (m_job->stopped()) continue;
            if (const Expected<void> done = writeWhole(m_folder / task.path, bytes); !done)
                return Unexpected(done.error());
            m_written.push_back(m_folder / task.path);
            m_job->report(static_cast<double>(i + 1) / static_cast<double>(m_tasks.size()));
        }
        if (m_written.size() < m_tasks.size())
            return fail("stopped", "The build pack was stopped before it was complete.", m_folder.string(),
                        "export it again");
        return m_written;
    }

private:
    struct Task {
        fs::path path;
        std::function<std::string()> make;
    };

    void plan(const Paper& paper) {
        const Project& project = *m_project;
        const Evaluation& e = *m_evaluation;
        m_tasks.push_back({"report.json", [&] { return reportJson(project, e); }});
        if (e.stock)
            m_tasks.push_back({"shopping-list.csv", [&] {
                                   return shoppingListCsv(
                                       e.totals, *e.stock, e.units,
                                       e.body ? roundLines(e.body->rounds) : std::vector<RoundLine>{},
                                       e.mechanisms ? e.mechanisms->hardware : std::vector<HardwareLine>{});
                               }});
        if (e.cleats && !e.cleats->lines.empty()) {
            m_tasks.push_back({"cleats.csv", [&] { return cleatListCsv(*e.cleats, e.units); }});
            m_tasks.push_back({"cleats.pdf", [&] { return writePdf(cleatDrawing(project, e)); }});
        }
        if (e.frames && !e.frames->crossings.empty())
            m_tasks.push_back({"frames.pdf", [&] { return writePdf(frameDrawing(project, e)); }});
        if (!measuringSheet(project.donor.kind).empty())
            m_tasks.push_back(
                {"measuring-sheet.pdf", [&] { return writePdf(measuringDrawing(project, e)); }});
        if (e.panels && !e.panels->empty()) {
            m_tasks.push_back({"panels.pdf", [&] { return writePdf(panelDrawing(project, e)); }});
            FileNames names;
            for (const Panel& panel : *e.panels)
                m_tasks.push_back({fs::path("panels") / names.take(panel.name, ".svg"), [&] {
                                       const Sheet* sheet = e.stock ? e.stock->find(panel.stock) : nullptr;
                                       return writeSvg(
                                           panelSvgPage(panel, tintFor(sheet ? sheet->kind : "foam")));
                                   }});
        }
        const std::size_t layouts = e.sheets && e.nestProblem && e.stock ? e.sheets->layouts.size() : 0;
        if (layouts > 0)
            m_tasks.push_back({"sheets.pdf", [&] { return writePdf(sheetDrawing(project, e)); }});
        for (std::size_t i = 0; i < layouts; ++i) {
            const std::string number = (i < 9 ? "0" : "") + std::to_string(i + 1);
            m_tasks.push_back({fs::path("sheets") / ("sheet-" + number + ".svg"), [&e, i] {
                                   const std::vector<Panel> none;
                                   return writeSvg(sheetPage(*e.nestProblem, e.sheets->layouts[i],
                                                             e.panels ? *e.panels : none, *e.stock,
                                                             static_cast<int>(i) + 1));
                               }});
        }
        std::string file = "templates-" + paper.name + ".pdf";
        for (char& c : file)
            if (c == ' ') c = '-';
        m_tasks.push_back({file, [this, paper] {
                               return writePdf(templateDrawing(*m_project, *m_evaluation, paper, *m_job));
                           }});
    }

    static Expected<void> makeFolder(const fs::path& folder) {
        std::error_code error;
        fs::create_directories(folder, error);
        if (!error && fs::is_directory(folder, error)) return {};
        return fail("cannot-write",
                    "The folder could not be made" + (error ? ": " + error.message() : "") + ".",
                    folder.string(), "choose another folder");
    }

    const Project* m_project;
    const Evaluation* m_evaluation;
    fs::path m_folder;
    const Job* m_job;
    std::vector<Task> m_tasks;
    std::vector<fs::path> m_written;
};

} // namespace

Expected<std::vector<fs::path>> writePack(const Project& project, const Evaluation& evaluation,
                                          const fs::path& folder, const Job& job) {
    return Packer(project, evaluation, folder, job).run();
}

} // namespace slab
