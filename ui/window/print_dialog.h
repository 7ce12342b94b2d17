#pragma once
#include "core/drawing/sheets.h"
#include "core/evaluate/evaluate.h"
#include "ui/session/runner.h"
#include "ui/window/exporter.h"
#include <QDialog>

class QAbstractButton;
class QButtonGroup;
class QComboBox;
class QLabel;
class QListWidget;
class QVBoxLayout;

namespace slab::ui {

class LengthBox;

/// What to print at true size: one calibration page first, the chosen panel, ticked ones, those not cut yet,
/// or all; on which paper. Pages are counted in the background.
class PrintDialog : public QDialog {
    Q_OBJECT
public:
    enum class What { calibration, chosen, ticked, notCut, everything };

    explicit PrintDialog(Session* session, QWidget* parent = nullptr);
    ~PrintDialog() override;
    [[nodiscard]] PrintChoice choice() const;
    /// "12 pages, the calibration page included."; "counting pages…" while that is not known.
    [[nodiscard]] QString summary() const;
    [[nodiscard]] QAbstractButton* button(What what) const;
    [[nodiscard]] QListWidget* list() const { return m_list; }
    [[nodiscard]] LengthBox* border() const { return m_border; }

private:
    void addChoices(QVBoxLayout* all);
    void addFields(QVBoxLayout* all);
    void fillList();
    void count(); ///< asks for the pages of every panel on this paper
    void refresh();
    [[nodiscard]] What what() const;
    [[nodiscard]] std::vector<std::size_t> wanted() const; ///< panels by index

    Session* m_session;
    std::shared_ptr<const std::vector<Panel>> m_panels;
    std::vector<bool> m_cut; ///< cut already, and as it is now
    int m_chosen = -1;
    std::vector<int> m_pages; ///< of each panel; empty while they are counted
    int m_asked = 0;
    QComboBox* m_paper;
    QButtonGroup* m_what;
    QListWidget* m_list;
    LengthBox *m_border, *m_overlap;
    QLabel* m_summary;
    QAbstractButton* m_save = nullptr;
    std::unique_ptr<Runner> m_counter;
};

/// Panels that are ticked as cut and have not changed since, by index.
[[nodiscard]] std::vector<bool> cutAlready(const Project& project, const std::vector<Panel>& panels);
/// Pages of each panel's templates; fewer when stopped.
[[nodiscard]] std::vector<int> pagesOf(const std::vector<Panel>& panels, const TemplateOptions& options,
                                       const Job& job = {});

} // namespace slab::ui
