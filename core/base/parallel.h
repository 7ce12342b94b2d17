#pragma once
// Independent pieces of work shared between the machine's cores.
#include <cstddef>
#include <functional>

namespace slab {

/// Calls work(0) … work(count - 1), each once, in no order; returns when all are done. Each call must write to
/// a place of its own, so that the result is the same on any number of cores. This thread takes part, so that
/// nobody waits for a core that is busy. What a call throws is thrown on, and the calls not yet begun are left
/// out.
void shareOut(std::size_t count, const std::function<void(std::size_t)>& work);

} // namespace slab
