#pragma once
// The pieces of cleats as plates, counted into the lines of the cut list.
#include "core/frames/cleat_seat.h"
#include <map>

namespace slab::cleats {

/// Gathers the pieces; whatever else a set holds is left empty.
class PieceWriter {
public:
    explicit PieceWriter(const PlateSet& plates);
    /// One stick or block. @param pitch  between the middles of blocks, mm
    void add(const CleatChoice& rule, const Seat& seat, const Stretch& s, double pitch);
    [[nodiscard]] const PlateList& parts() const { return m_set.parts; }
    [[nodiscard]] CleatSet take() { return std::move(m_set); }

private:
    CleatLine& lineOf(const CleatChoice& rule, const Seat& seat, double length, double pitch);
    void mark(const Plate& host, const Plate& piece, Ring ring, int number);

    int m_mark; ///< next match mark
    std::map<std::string, int> m_names;
    CleatSet m_set;
};

} // namespace slab::cleats
