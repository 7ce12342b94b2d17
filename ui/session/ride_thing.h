#pragma once

namespace slab::ui {

/// What a result of the ride is about, and so what drawings mark.
enum class RideThing {
    none,
    line,   ///< tip line; index in Balance::lines
    wheel,  ///< index in Balance::wheels
    wind,   ///< index in Balance::winds
    turn,   ///< the turn that is asked about
    load,   ///< against what is rated
    part,   ///< of the route; index in Trial::route
    circle, ///< the tightest turn
    ground, ///< seen ahead
    field,  ///< of view
    slit,   ///< index in View::openings
    way,    ///< out; index in Trial::waysOut
    gap,    ///< index in Trial::gaps
    untried ///< a part of the route that is not tried; index in the document
};

} // namespace slab::ui
