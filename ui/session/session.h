#pragma once
// The one place where the window's document lives. Views show evaluation() and emit apply(Edit); they hold no
// truth.
#include "core/document/edit.h"
#include "core/evaluate/evaluate.h"
#include "ui/session/ride_thing.h"
#include <QObject>
#include <QString>
#include <QStringList>
#include <memory>
#include <utility>

namespace slab {
struct ScaleSurvey; // core/survey/survey.h
}

namespace slab::ui {

/// What is chosen, shared by every view. Empty strings and -1 = nothing.
struct Selection {
    QString plate; ///< plate name
    int edge = -1; ///< index in that plate's boundary.edges
    QString solid; ///< donor or rider solid
    QString form;
    QString finding;    ///< "code|first about"
    QStringList forms;  ///< all that chosen points belong to, where there are several
    QStringList plates; ///< all that are chosen, where there are several; `plate` is the last of them
    QString part;       ///< an entry of the document: "/openings/2", "/frames/0", "/seams/1"
    RideThing result = RideThing::none; ///< a result of the ride …
    int resultIndex = -1;               ///< … of several the one
    bool operator==(const Selection&) const = default;
};

/// The two calls that the session makes in the background; tests give their own.
struct Engine {
    /// Called on one thread only, never twice at once.
    std::function<Evaluation(const Project&, Effort, std::uint64_t revision, const Job&)> evaluate;
    /// Called on another thread.
    std::function<ScaleSurvey(const Project&, double from, double to, const Job&)> survey;
    /// Takes what was found where the document names pictures; may be empty.
    std::function<void(const PictureFiles&)> pictures = {};
    /// The real pipeline.
    [[nodiscard]] static Engine real();
};

/// Document, history, background evaluation, selection. All members are for the UI thread.
class Session : public QObject {
    Q_OBJECT
public:
    explicit Session(QObject* parent = nullptr);
    explicit Session(Engine engine, QObject* parent = nullptr);
    ~Session() override;

    [[nodiscard]] const Project& project() const;
    [[nodiscard]] std::shared_ptr<const Project> shared() const; ///< project(), for other threads
    [[nodiscard]] const Evaluation&
    evaluation() const; ///< the newest one that is ready; parts may be null at first
    /// The newest evaluation with sight worked out, null before there is one: evaluation() may have none yet.
    [[nodiscard]] const Evaluation* seen() const;
    /// Number of the document that evaluation() is of; replace() brings another one.
    [[nodiscard]] std::uint64_t shownDocument() const;
    /// Number of the document that is open, whether its evaluation is there or not.
    [[nodiscard]] std::uint64_t openDocument() const;
    [[nodiscard]] const History& history() const;
    [[nodiscard]] const Selection& selection() const;
    [[nodiscard]] UnitStyle unitStyle() const;
    /// The last scale survey; it may be of the document before, see surveyIsCurrent().
    [[nodiscard]] const std::optional<ScaleSurvey>& survey() const;
    [[nodiscard]] bool surveyIsCurrent() const;
    /// Scales that the ruler shows and the survey covers; holds still while the handle moves inside it.
    [[nodiscard]] std::pair<double, double> scaleRange() const;
    void setScaleRange(double from, double to);
    [[nodiscard]] bool busy() const; ///< something is still being improved or confirmed
    /// An unfinished drag: lists that would jump about wait until it is false.
    [[nodiscard]] bool dragging() const;
    /// Rises with every change of the document, replace() included (unlike History::revision, which starts
    /// anew).
    [[nodiscard]] std::uint64_t sequence() const;

    /// Changes the document; a refused edit leaves it and emits refused().
    bool apply(const Edit& edit);
    void settle(); ///< the hand has let go: the drag is one undo step, the full evaluation may start
    void undo();
    void redo();
    void replace(Project project); ///< another document: history starts anew
    /// Pictures were looked for on the disk: what was found goes into the evaluation.
    void setPictureFiles(const PictureFiles& files);
    void markSaved();
    void select(const Selection& selection);
    void selectPlate(const QString& plate, int edge = -1);
    /// Waits until the newest full evaluation is shown (tests, export). @return false on time-out
    bool waitUntilAtRest(int milliseconds);

Q_SIGNALS:
    /// Before anything is worked out or shown: the document has changed or was saved, and shared() may be
    /// kept.
    void handedOver();
    void projectChanged();
    void evaluationChanged();
    void selectionChanged();
    void surveyChanged();
    void busyChanged();
    void refused(const slab::Error& error);
    void made(const QString& words); ///< something that is not seen where it was asked for

private:
    struct Private;
    std::unique_ptr<Private> m;
};

/// "mm", "cm", "m", "in", "ft" as in the document, typographic, to 1/16 in.
[[nodiscard]] UnitStyle styleFor(const std::string& units);

} // namespace slab::ui
