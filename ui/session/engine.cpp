#include "core/survey/survey.h"
#include "ui/session/session.h"
#include <mutex>

namespace slab::ui {

namespace {

/// What was found on the disk; set by the window, read by the worker.
struct PictureShelf {
    std::mutex mutex;
    PictureFiles files;
};

} // namespace

Engine Engine::real() {
    auto evaluator = std::make_shared<Evaluator>();
    auto shelf = std::make_shared<PictureShelf>();
    return {
        [evaluator, shelf](const Project& project, Effort effort, std::uint64_t revision, const Job& job) {
            PictureFiles files;
            {
                const std::lock_guard lock(shelf->mutex);
                files = shelf->files;
            }
            return evaluator->evaluate(project, effort, revision, job, files);
        },
        [](const Project& project, double from, double to, const Job& job) {
            return surveyScale(project, from, to, job);
        },
        [shelf](const PictureFiles& files) {
            const std::lock_guard lock(shelf->mutex);
            shelf->files = files;
        }};
}

} // namespace slab::ui
