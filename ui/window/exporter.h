#pragma once
#include "core/evaluate/evaluate.h"
#include "ui/session/runner.h"
#include <QObject>
#include <QStringList>
#include <functional>

class QWidget;

namespace slab::ui {

class Notice;
class Session;

/// Which templates to print.
struct PrintChoice {
    QString paper = "A4";
    QStringList panels;               ///< by name; none = the calibration page alone
    double border = 10, overlap = 10; ///< mm
};

/// Writes files in the background from the newest full evaluation; tells what it wrote in the notice line.
class Exporter : public QObject {
    Q_OBJECT
public:
    Exporter(Session* session, Notice* notice, QWidget* window);
    ~Exporter() override;

    /// How the document is called on what is printed; without it, by its own title.
    void setTitle(std::function<QString()> title) { m_title = std::move(title); }
    void pack(const QString& folder);
    void panelSvgs(const QString& folder);
    void sheetSvgs(const QString& folder);
    void panelDrawings(const QString& pdf);
    void sheetLayouts(const QString& pdf);
    void measuringSheet(const QString& pdf);
    void templates(const QString& pdf, const PrintChoice& choice);

    void askPack();
    void askPanelSvgs();
    void askSheetSvgs();
    void askPanelDrawings();
    void askSheetLayouts();
    void askMeasuringSheet();

Q_SIGNALS:
    void finished(bool written, const QString& place);

private:
    /// Writes from these two values; returns the files. Runs in the background.
    using Writing =
        std::function<Expected<std::vector<QString>>(const Project&, const Evaluation&, const Job&)>;
    void run(const QString& what, const QString& place, Writing job);
    void tell(const QString& what, const QString& place, const Expected<std::vector<QString>>& result);
    [[nodiscard]] QString askFolder(const QString& title);
    [[nodiscard]] QString askPdf(const QString& title, const QString& name);

    Session* m_session;
    Notice* m_notice;
    QWidget* m_window;
    std::function<QString()> m_title;
    std::unique_ptr<Runner> m_runner;
};

} // namespace slab::ui
