#pragma once
#include <chrono>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

namespace slab::ui {

/// One thread that carries out the latest task that it was given, however busy the giver is. A task that is
/// overtaken before it begins is never carried out; none begins before the one before has ended.
class Keeper {
public:
    using Task = std::function<void()>;
    using Clock = std::chrono::steady_clock;

    /// @param rest  from a task that finds nothing waiting to its turn; tasks that come meanwhile take its
    /// place and its turn
    explicit Keeper(std::chrono::milliseconds rest);
    /// Carries out what waits, then ends.
    ~Keeper();
    Keeper(const Keeper&) = delete;
    Keeper& operator=(const Keeper&) = delete;

    void post(Task task, bool atOnce = false);
    /// Waits until all that was posted is carried out or overtaken; nothing rests meanwhile.
    void finish();
    [[nodiscard]] bool waiting(); ///< a task is there that has not begun

private:
    void run();

    std::chrono::milliseconds m_rest;
    std::mutex m_mutex;
    std::condition_variable m_wake, m_idle;
    Task m_task; ///< the one that waits
    Clock::time_point m_due;
    bool m_busy = false, m_ends = false;
    std::thread m_thread; ///< last: starts when everything above is ready
};

} // namespace slab::ui
