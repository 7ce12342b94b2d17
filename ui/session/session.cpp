#include "ui/session/session.h"
#include "core/survey/survey.h"
#include "ui/session/follow.h"
#include "ui/session/runner.h"
#include "ui/session/survey_key.h"
#include <QElapsedTimer>
#include <QEventLoop>
#include <QTimer>
#include <algorithm>
#include <cmath>
#include <mutex>

namespace slab::ui {

namespace {

constexpr int restMilliseconds = 250;

struct Result {
    std::uint64_t sequence = 0;
    Effort effort = Effort::live;
    Evaluation evaluation;
};

Evaluation troubled(const std::string& message, std::uint64_t revision) {
    Evaluation e;
    e.revision = revision;
    e.findings.push_back({Severity::stop, "cannot-evaluate", message, {}, "Undo the last change.", {}});
    return e;
}

} // namespace

UnitStyle styleFor(const std::string& units) {
    UnitStyle style;
    if (const auto unit = parseUnit(units)) style.unit = *unit;
    return style;
}

struct Session::Private {
    Session* session;
    Engine engine;
    History history;
    std::shared_ptr<const Project> current = std::make_shared<const Project>(history.current());
    Evaluation shown;
    std::optional<Evaluation> seen;
    std::uint64_t sequence = 1, shownSequence = 0, document = 1, shownDocument = 0;
    Effort shownEffort = Effort::live;
    std::uint64_t fullAsked = 0; ///< sequence of the last full request
    bool dragging = false, busy = true;
    Selection selection;
    std::pair<double, double> range{0.1, 1};
    std::optional<ScaleSurvey> survey;
    std::optional<Project> surveyed; ///< key of `survey`
    std::optional<Project> surveying;
    QTimer rest;

    std::mutex resultMutex;
    std::optional<Result> ready;

    std::unique_ptr<Runner> evaluations = std::make_unique<Runner>();
    std::unique_ptr<Runner> surveys = std::make_unique<Runner>(true);

    Private(Session* s, Engine e) : session(s), engine(std::move(e)) {
        rest.setSingleShot(true);
        rest.setInterval(restMilliseconds);
        QObject::connect(&rest, &QTimer::timeout, s, [this] { request(Effort::full); });
    }

    void request(Effort effort) {
        if (effort == Effort::full) {
            if (fullAsked == sequence) return;
            fullAsked = sequence;
        }
        auto task = [this, project = current, effort, at = sequence,
                     revision = history.revision()](std::stop_token stop) {
            // The verdict on the fit is there long before the best layout is: it does not wait for it.
            if (effort == Effort::full) work(*project, Effort::verdict, at, revision, stop);
            if (!stop.stop_requested()) work(*project, effort, at, revision, stop);
        };
        // A live pass is short and shows something, so it may finish; a full one gives way to whatever is
        // newer.
        evaluations->post(effort == Effort::live ? 0 : 1, std::move(task), 1);
        setBusy(true);
    }

    /// On the worker: one evaluation, shown when it is done.
    void work(const Project& project, Effort effort, std::uint64_t at, std::uint64_t revision,
              const std::stop_token& stop) {
        Evaluation e;
        try {
            e = engine.evaluate(project, effort, revision, Job{stop, {}});
        } catch (const std::exception& error) {
            e = troubled(std::string("This document could not be worked out: ") + error.what(), revision);
        }
        if (!stop.stop_requested()) deliver({at, effort, std::move(e)});
    }

    /// Called on the worker. One event carries the newest result; older ones are overwritten unseen.
    void deliver(Result result) {
        {
            const std::lock_guard lock(resultMutex);
            const bool posted = ready.has_value();
            ready = std::move(result);
            if (posted) return;
        }
        QMetaObject::invokeMethod(
            session, [this] { show(); }, Qt::QueuedConnection);
    }

    void show() {
        std::optional<Result> result;
        {
            const std::lock_guard lock(resultMutex);
            result.swap(ready);
        }
        if (!result || isStale(*result)) return;
        const bool moved = followSelection(result->evaluation);
        shown = std::move(result->evaluation);
        if (shown.trial && !shown.trial->views.empty()) seen = shown;
        shownSequence = result->sequence;
        shownEffort = result->effort;
        shownDocument = document; // results of the one before are stale
        setBusy(!atRest());
        Q_EMIT session->evaluationChanged();
        if (moved) Q_EMIT session->selectionChanged();
        if (!atRest()) return;
        startSurvey();
        if (learnFromLayout()) Q_EMIT session->surveyChanged();
    }

    /// The survey's layouts are quick ones; the one at rest was searched for longer.
    bool learnFromLayout() {
        if (!survey || !atRest() || !surveyed || *surveyed != surveyKey(history.current()) || !shown.sheets ||
            largerThanSheet(shown.seams.get(), shown.sheets.get()) > 0)
            return false;
        const auto before = survey->sheetSteps;
        learnLayout(*survey, shown.scale, static_cast<int>(shown.sheets->layouts.size()), shown.sheets->cost);
        return survey->sheetSteps != before;
    }

    /// Outlines gain and lose edges: the chosen edge is the one with the chosen neighbour, whatever its
    /// number.
    bool followSelection(const Evaluation& next) {
        if (selection.edge < 0 || !shown.plates || !next.plates || shown.plates == next.plates) return false;
        const int edge =
            followedEdge(*shown.plates, *next.plates, selection.plate.toStdString(), selection.edge);
        return std::exchange(selection.edge, edge) != edge;
    }

    [[nodiscard]] bool isStale(const Result& r) const {
        if (r.sequence < oldest) return true; // of a document that is no longer open
        if (r.sequence != shownSequence) return r.sequence < shownSequence;
        return r.effort < shownEffort; // the same document, known better already
    }
    std::uint64_t oldest = 0;

    [[nodiscard]] bool atRest() const { return shownSequence == sequence && shownEffort == Effort::full; }

    void setBusy(bool now) {
        if (now == busy) return;
        busy = now;
        Q_EMIT session->busyChanged();
    }

    void startSurvey() {
        if (shown.plates && shown.plates->plates.empty()) {
            // Nothing can hit or be too large: a rule of "fits" would promise something.
            stopSurvey();
            surveyed.reset();
            if (std::exchange(survey, std::nullopt)) Q_EMIT session->surveyChanged();
            return;
        }
        Project key = surveyKey(history.current());
        const bool done = surveyed && *surveyed == key && survey && survey->from == range.first &&
                          survey->to == range.second;
        if (done || (surveying && *surveying == key)) return;
        surveying = key;
        auto task = [this, project = current, key, range = range](std::stop_token stop) {
            ScaleSurvey found;
            try {
                found = engine.survey(*project, range.first, range.second, Job{stop, {}});
            } catch (const std::exception&) {
                return; // the evaluation of the same document reports it
            }
            if (stop.stop_requested()) return;
            QMetaObject::invokeMethod(
                session,
                [this, key, found = std::move(found)]() mutable { showSurvey(key, std::move(found)); },
                Qt::QueuedConnection);
        };
        surveys->post(0, std::move(task), 0);
    }

    void showSurvey(const Project& key, ScaleSurvey found) {
        if (!surveying || *surveying != key) return;
        surveying.reset();
        surveyed = key;
        survey = std::move(found);
        learnFromLayout();
        Q_EMIT session->surveyChanged();
    }

    void stopSurvey() {
        surveys->cancel();
        surveying.reset();
    }

    [[nodiscard]] double scaleNow() const { return parseRatio(history.current().scale).value_or(1.0); }

    void changed(bool drag) {
        ++sequence;
        dragging = drag;
        current = std::make_shared<const Project>(history.current());
        Q_EMIT session->handedOver();
        const Project key = surveyKey(history.current());
        if (surveying && *surveying != key) stopSurvey();
        const double scale = scaleNow();
        if (!drag && (scale < range.first || scale > range.second)) {
            range = rangeAround(scale);
            stopSurvey();
        }
        request(Effort::live);
        if (drag)
            rest.start();
        else {
            rest.stop();
            request(Effort::full);
        }
        Q_EMIT session->projectChanged();
    }
};

Session::Session(QObject* parent) : Session(Engine::real(), parent) {}

Session::Session(Engine engine, QObject* parent)
    : QObject(parent), m(std::make_unique<Private>(this, std::move(engine))) {
    m->range = rangeAround(m->scaleNow());
    m->request(Effort::live);
    m->request(Effort::full);
}

Session::~Session() {
    m->rest.stop();
    m->evaluations.reset();
    m->surveys.reset();
}

const Project& Session::project() const {
    return m->history.current();
}
std::shared_ptr<const Project> Session::shared() const {
    return m->current;
}
const Evaluation& Session::evaluation() const {
    return m->shown;
}
const Evaluation* Session::seen() const {
    return m->seen ? &*m->seen : nullptr;
}
std::uint64_t Session::openDocument() const {
    return m->document;
}
std::uint64_t Session::shownDocument() const {
    return m->shownDocument;
}
const History& Session::history() const {
    return m->history;
}
const Selection& Session::selection() const {
    return m->selection;
}
UnitStyle Session::unitStyle() const {
    return styleFor(project().units);
}
const std::optional<ScaleSurvey>& Session::survey() const {
    return m->survey;
}
std::pair<double, double> Session::scaleRange() const {
    return m->range;
}
bool Session::busy() const {
    return m->busy;
}
bool Session::dragging() const {
    return m->dragging;
}
std::uint64_t Session::sequence() const {
    return m->sequence;
}
bool Session::surveyIsCurrent() const {
    return m->survey && m->surveyed && *m->surveyed == surveyKey(project());
}

void Session::setScaleRange(double from, double to) {
    if (!(from > 0) || !(to > from) || m->range == std::pair{from, to}) return;
    m->range = {from, to};
    m->stopSurvey();
    if (m->atRest()) m->startSurvey();
    Q_EMIT surveyChanged();
}

bool Session::apply(const Edit& edit) {
    const std::uint64_t before = m->history.revision();
    if (const auto done = m->history.push(edit); !done) {
        Q_EMIT refused(done.error());
        return false;
    }
    if (m->history.revision() != before) m->changed(!edit.merge.empty());
    return true;
}

void Session::settle() {
    m->history.settle();
    if (!m->dragging) return;
    m->dragging = false;
    m->rest.stop();
    const double scale = m->scaleNow();
    if (scale < m->range.first || scale > m->range.second) m->range = rangeAround(scale);
    m->request(Effort::full);
    // The verdict may have come during a rest in the drag: what waited for the hand must still be told.
    if (m->atRest()) Q_EMIT evaluationChanged();
}

void Session::undo() {
    m->history.settle();
    if (m->history.undo()) m->changed(false);
}

void Session::redo() {
    m->history.settle();
    if (m->history.redo()) m->changed(false);
}

void Session::replace(Project project) {
    m->rest.stop();
    m->evaluations->cancel();
    m->stopSurvey();
    m->history = History(std::move(project));
    m->selection = {};
    m->seen.reset();
    m->survey.reset();
    m->surveyed.reset();
    m->range = rangeAround(m->scaleNow());
    m->oldest = m->sequence + 1;
    ++m->document;
    m->changed(false);
    Q_EMIT selectionChanged();
    Q_EMIT surveyChanged();
}

void Session::setPictureFiles(const PictureFiles& files) {
    if (!m->engine.pictures) return;
    m->engine.pictures(files);
    ++m->sequence; // the same document is worked out anew with what lies on the disk now
    m->request(Effort::live);
    m->request(Effort::full);
}

void Session::markSaved() {
    m->history.settle();
    m->history.markSaved();
    Q_EMIT handedOver();
    Q_EMIT projectChanged();
}

void Session::select(const Selection& selection) {
    if (selection == m->selection) return;
    m->selection = selection;
    Q_EMIT selectionChanged();
}

void Session::selectPlate(const QString& plate, int edge) {
    Selection s;
    s.plate = plate;
    s.edge = edge;
    if (m->shown.plates)
        for (const auto& p : m->shown.plates->plates)
            if (p.name == plate.toStdString()) s.form = QString::fromStdString(p.form);
    select(s);
}

bool Session::waitUntilAtRest(int milliseconds) {
    m->rest.stop();
    m->request(Effort::full);
    if (m->atRest()) return true;
    QEventLoop loop;
    QTimer limit;
    limit.setSingleShot(true);
    connect(&limit, &QTimer::timeout, &loop, &QEventLoop::quit);
    const auto check = [&] {
        if (m->atRest()) loop.quit();
    };
    connect(this, &Session::evaluationChanged, &loop, check);
    limit.start(milliseconds);
    loop.exec();
    return m->atRest();
}

} // namespace slab::ui
