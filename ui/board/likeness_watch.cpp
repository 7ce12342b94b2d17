#include "ui/board/likeness_watch.h"
#include "core/evaluate/stages.h"
#include <QEventLoop>
#include <QTimer>

namespace slab::ui {

namespace {

LikenessSurvey surveyOf(const Project& project, const Job& job) {
    std::vector<Finding> findings;
    const auto scale = readScale(project.scale);
    return surveyLikeness(project, resolveScope(project, scale ? *scale : 1, findings), job);
}

} // namespace

Project likenessKey(const Project& project) {
    Project key;
    key.units = project.units;
    key.scale = project.scale;
    key.dimensions = project.dimensions;
    key.forms = project.forms;
    key.materials = project.materials;
    return key;
}

LikenessWatch::LikenessWatch(Session* session, QObject* parent) : LikenessWatch(session, surveyOf, parent) {}

LikenessWatch::LikenessWatch(Session* session, Survey survey, QObject* parent)
    : QObject(parent), m_session(session), m_work(std::move(survey)) {
    connect(session, &Session::projectChanged, this, &LikenessWatch::look);
    connect(session, &Session::evaluationChanged, this, &LikenessWatch::look);
}

LikenessWatch::~LikenessWatch() {
    m_runner.reset(); // nothing may call back any more
}

void LikenessWatch::setLooking(bool on) {
    m_looking = on;
    if (on) return look();
    m_runner->cancel();
    m_wanted.reset();
}

bool LikenessWatch::isCurrent() const {
    return m_survey && m_of && *m_of == likenessKey(m_session->project());
}

void LikenessWatch::look() {
    if (!m_looking) return;
    Project key = likenessKey(m_session->project());
    if (m_wanted && *m_wanted == key) return;
    if (m_of && *m_of == key) {
        m_runner->cancel();
        m_wanted.reset();
        Q_EMIT changed();
        return;
    }
    if (m_wanted) {
        m_runner->cancel();
        m_wanted.reset();
    }
    Q_EMIT changed();                  // what is shown is stale
    if (m_session->dragging()) return; // the hand still moves
    m_wanted = key;
    m_runner->post(
        0,
        [this, key, work = m_work](const std::stop_token& stop) {
            LikenessSurvey found;
            try {
                found = work(key, Job{stop, {}});
            } catch (const std::exception&) {
                found = {}; // the evaluation of the same document reports it
            }
            if (stop.stop_requested()) return;
            QMetaObject::invokeMethod(
                this, [this, key, found = std::move(found)]() mutable { take(key, std::move(found)); },
                Qt::QueuedConnection);
        },
        0);
    Q_EMIT changed();
}

void LikenessWatch::take(const Project& key, LikenessSurvey survey) {
    if (!m_wanted || !(*m_wanted == key)) return; // of a document that has changed since
    m_wanted.reset();
    m_of = key;
    m_survey = std::move(survey);
    Q_EMIT changed();
}

bool LikenessWatch::waitUntilCurrent(int milliseconds) {
    if (isCurrent()) return true;
    QEventLoop loop;
    QTimer limit;
    limit.setSingleShot(true);
    connect(&limit, &QTimer::timeout, &loop, &QEventLoop::quit);
    connect(this, &LikenessWatch::changed, &loop, [&] {
        if (isCurrent()) loop.quit();
    });
    limit.start(milliseconds);
    loop.exec();
    return isCurrent();
}

} // namespace slab::ui
