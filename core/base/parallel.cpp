#include "core/base/parallel.h"
#include <tbb/parallel_for.h>
#ifdef __SANITIZE_THREAD__
#include <atomic>
#endif

namespace slab {

#ifdef __SANITIZE_THREAD__
// ThreadSanitizer does not see what TBB, which is not compiled with it, waits for: it is told that all pieces
// come after the call and before its return. Among each other they stay without order.
void shareOut(std::size_t count, const std::function<void(std::size_t)>& work) {
    std::atomic<bool> begun = false;
    std::atomic<std::size_t> done = 0;
    begun.store(true, std::memory_order_release);
    tbb::parallel_for(
        std::size_t{0}, count,
        [&](std::size_t i) {
            static_cast<void>(begun.load(std::memory_order_acquire));
            work(i);
            done.fetch_add(1, std::memory_order_release);
        },
        tbb::simple_partitioner());
    static_cast<void>(done.load(std::memory_order_acquire));
}
#else
void shareOut(std::size_t count, const std::function<void(std::size_t)>& work) {
    tbb::parallel_for(std::size_t{0}, count, work, tbb::simple_partitioner());
}
#endif

} // namespace slab
