#include "ui/session/runner.h"
#ifdef __linux__
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>
#endif

namespace slab::ui {

namespace {

void lowerPriority() {
#ifdef __linux__
    // On Linux a thread has its own nice value; a refusal does no harm.
    (void)setpriority(PRIO_PROCESS, static_cast<id_t>(syscall(SYS_gettid)), 10);
#endif
}

} // namespace

Runner::Runner(bool quiet) : m_quiet(quiet), m_thread([this](std::stop_token stop) { run(stop); }) {}

Runner::~Runner() {
    m_thread.request_stop();
    cancel(0);
    m_wake.notify_all();
    m_thread.join();
}

void Runner::dropFrom(int slot) {
    for (int i = slot; i < slots; ++i) m_waiting[static_cast<std::size_t>(i)] = nullptr;
    if (m_running >= slot) m_current.request_stop();
}

void Runner::post(int slot, Task task, int drop) {
    {
        const std::lock_guard lock(m_mutex);
        dropFrom(drop);
        m_waiting[static_cast<std::size_t>(slot)] = std::move(task);
    }
    m_wake.notify_all();
}

void Runner::cancel(int from) {
    const std::lock_guard lock(m_mutex);
    dropFrom(from);
}

void Runner::run(std::stop_token stop) {
    if (m_quiet) lowerPriority();
    const auto next = [this] {
        for (int i = 0; i < slots; ++i)
            if (m_waiting[static_cast<std::size_t>(i)]) return i;
        return -1;
    };
    std::unique_lock lock(m_mutex);
    while (m_wake.wait(lock, stop, [&] { return next() >= 0; })) {
        if (stop.stop_requested()) return;
        const int slot = next();
        const Task task = std::exchange(m_waiting[static_cast<std::size_t>(slot)], nullptr);
        m_current = std::stop_source();
        m_running = slot;
        const std::stop_token token = m_current.get_token();
        lock.unlock();
        task(token);
        lock.lock();
        m_running = -1;
    }
}

} // namespace slab::ui
