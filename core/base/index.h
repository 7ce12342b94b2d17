#pragma once

#include <cstddef>

namespace slab {

/// A place in a container, from an int that is known not to be negative.
constexpr std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

} // namespace slab
