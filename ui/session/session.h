#pragma once
// The one place where the window's document lives. Views show evaluation() and emit apply(Edit); they hold no truth.
#include "core/document/edit.h"
#include "core/evaluate/evaluate.h"
#include <QObject>
#include <QString>
#include <memory>

namespace slab::ui {

/// What is chosen, shared by every view. Empty strings and -1 = nothing.
struct Selection {
    QString plate;    ///< plate name
    int edge = -1;    ///< index in that plate's boundary.edges
    QString solid;    ///< donor or rider solid
    QString form;
    QString finding;  ///< "code|first about"
    bool operator==(const Selection&) const = default;
};

/// Document, history, background evaluation, selection.
class Session : public QObject {
    Q_OBJECT
public:
    explicit Session(QObject* parent = nullptr);
    ~Session() override;

    [[nodiscard]] const Project& project() const;
    [[nodiscard]] const Evaluation& evaluation() const; ///< the newest one that is ready; parts may be null at first
    [[nodiscard]] const History& history() const;
    [[nodiscard]] const Selection& selection() const;
    [[nodiscard]] UnitStyle unitStyle() const;
    [[nodiscard]] const std::optional<ScaleSurvey>& survey() const;
    [[nodiscard]] bool busy() const; ///< something is still being improved or confirmed

    /// Changes the document; a refused edit leaves it and emits refused().
    bool apply(const Edit& edit);
    void settle(); ///< the hand has let go: the drag is one undo step, the full evaluation may start
    void undo();
    void redo();
    void replace(Project project); ///< another document: history starts anew
    void markSaved();
    void select(const Selection& selection);
    void selectPlate(const QString& plate, int edge = -1);
    /// Waits until the newest full evaluation is shown (tests, export). @return false on time-out
    bool waitUntilAtRest(int milliseconds);

Q_SIGNALS:
    void projectChanged();
    void evaluationChanged();
    void selectionChanged();
    void surveyChanged();
    void busyChanged();
    void refused(const slab::Error& error);

private:
    struct Private;
    std::unique_ptr<Private> m;
};

} // namespace slab::ui
