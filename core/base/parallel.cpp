#include "core/base/parallel.h"
#include <tbb/parallel_for.h>

namespace slab {

void shareOut(std::size_t count, const std::function<void(std::size_t)>& work) {
    tbb::parallel_for(std::size_t{0}, count, work, tbb::simple_partitioner());
}

} // namespace slab
