#include "ui/session/keeper.h"
#include <algorithm>
#include <utility>

namespace slab::ui {

Keeper::Keeper(std::chrono::milliseconds rest) : m_rest(rest), m_thread([this] { run(); }) {}

Keeper::~Keeper() {
    {
        const std::lock_guard lock(m_mutex);
        m_ends = true;
        m_due = Clock::now();
    }
    m_wake.notify_all();
    m_thread.join();
}

void Keeper::post(Task task, bool atOnce) {
    {
        const std::lock_guard lock(m_mutex);
        const Clock::time_point due = Clock::now() + (atOnce ? std::chrono::milliseconds{0} : m_rest);
        m_due = m_task ? std::min(m_due, due) : due;
        m_task.swap(task); // what is overtaken is freed outside the lock
    }
    m_wake.notify_all();
}

void Keeper::finish() {
    std::unique_lock lock(m_mutex);
    m_due = Clock::now();
    m_wake.notify_all();
    m_idle.wait(lock, [this] { return !m_task && !m_busy; });
}

bool Keeper::waiting() {
    const std::lock_guard lock(m_mutex);
    return m_task != nullptr;
}

void Keeper::run() {
    std::unique_lock lock(m_mutex);
    while (true) {
        m_wake.wait(lock, [this] { return m_task || m_ends; });
        if (!m_task) return;
        if (!m_ends && Clock::now() < m_due) {
            m_wake.wait_until(lock, m_due); // it may have become due sooner
            continue;
        }
        Task task = std::exchange(m_task, nullptr);
        m_busy = true;
        lock.unlock();
        task();
        task = nullptr;
        lock.lock();
        m_busy = false;
        m_idle.notify_all();
    }
}

} // namespace slab::ui
