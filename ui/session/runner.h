#pragma once
#include <array>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <stop_token>
#include <thread>
#include <utility>

namespace slab::ui {

/// One background thread with a mailbox of a few slots: in each slot the latest task wins, a lower slot goes
/// first.
class Runner {
public:
    using Task = std::function<void(std::stop_token)>;
    static constexpr int slots = 2;

    /// @param quiet  gives way to the rest of the program (a lower scheduling priority where the system has
    /// one)
    explicit Runner(bool quiet = false);
    /// Asks the running task to stop and waits for it.
    ~Runner();
    Runner(const Runner&) = delete;
    Runner& operator=(const Runner&) = delete;

    /// Puts a task into its slot. Waiting tasks in slots >= `drop` are forgotten, a running one is asked to
    /// stop.
    void post(int slot, Task task, int drop);
    /// Forgets and stops everything in slots >= `from`.
    void cancel(int from = 0);

private:
    void run(std::stop_token stop);
    void dropFrom(int slot);

    std::mutex m_mutex;
    std::condition_variable_any m_wake;
    std::array<Task, slots> m_waiting;
    std::stop_source m_current;
    int m_running = -1; ///< slot of the running task
    bool m_quiet;
    std::jthread m_thread; ///< last: starts when everything above is ready
};

} // namespace slab::ui
