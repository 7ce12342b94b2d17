#pragma once
#include "core/base/error.h"
#include "core/base/job.h"
#include "core/geometry/polygon.h"
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace slab {

struct NestPart {
    std::string id;
    Polygon shape; ///< in its own coordinates; any simple polygon with holes
    int copies = 1;
    std::vector<double> rotations; ///< allowed, radians; empty = any angle
    bool flip = false;             ///< may be mirrored (y -> -y before the turn)
    double spacing = 0;            ///< least distance to other parts (half of each counts), mm
    std::string stock;             ///< only sheets of this stock
    bool operator==(const NestPart&) const = default;
};
struct NestSheet {
    std::string stock;
    double width = 0, length = 0; ///< length along x, width along y
    double trim = 0;
    int onHand = 0; ///< used first, at no cost
    int limit = -1; ///< most that may be bought; -1 = any
    double price = 0;
    bool operator==(const NestSheet&) const = default;
};
struct NestProblem {
    std::vector<NestPart> parts;
    std::vector<NestSheet> sheets;
    double strip = 0; ///< > 0: one open strip of this width (along y), least length; sheets are ignored
    bool operator==(const NestProblem&) const = default;
};

/// A part's points are mirrored (if flipped), turned about their origin, then moved by (x, y). Sheet from (0,
/// 0).
struct NestPlace {
    int part = 0, copy = 0;
    double x = 0, y = 0, rotation = 0; ///< mm, radians
    bool flipped = false;
    bool operator==(const NestPlace&) const = default;
};
struct NestLayout {
    int sheet = 0; ///< index in NestProblem::sheets
    bool onHand = false;
    std::vector<NestPlace> places;
    double used = 0; ///< area of parts / area of sheet, [0, 1]
    bool operator==(const NestLayout&) const = default;
};
struct NestResult {
    std::vector<NestLayout> layouts;
    std::vector<std::pair<int, int>> unplaced; ///< part, copy
    double cost = 0;
    double stripLength = 0;   ///< strip mode
    double density = 0;       ///< Σ part areas / (strip length × width), or of all sheets
    bool provisional = false; ///< an older layout rescaled, checked, not yet nested again
    int refusals =
        0; ///< what checkNest refused of the nester's work and was put right: 0 unless there is a bug
    bool operator==(const NestResult&) const = default;
};

struct NestOptions {
    double seconds = 0; ///< 0 = one constructive pass (strip: best of six); else search for so long
    std::uint64_t seed = 1;
    int threads = 1; ///< never changes the result of a given number of rounds
    int rounds = 0;  ///< > 0: stop after so many rounds instead of seconds (deterministic)
};

/// Constructive nesting: exact, deterministic for a seed; on-hand sheets first.
[[nodiscard]] NestResult nest(const NestProblem& problem, const NestOptions& options, const Job& job = {});

/// Independent of the nester: every copy placed at most once, inside its sheet less trim, no overlap, spacing
/// kept, rotation allowed. Empty = sound; else one line for each fault.
[[nodiscard]] std::vector<std::string> checkNest(const NestProblem& problem, const NestResult& result,
                                                 double tolerance = 1e-6);

/// Part outline as placed.
[[nodiscard]] Polygon placed(const NestPart& part, const NestPlace& place);

/// Keeps an older result for parts that have changed a little (scale drag): same places moved to fit, exactly
/// checked.
/// @return nothing if it is not sound
[[nodiscard]] std::optional<NestResult> reuse(const NestProblem& problem, const NestProblem& before,
                                              const NestResult& result);

/// The layout while a hand drags: of each stock the older one, kept as by reuse(), or else nested anew.
/// @param options  as for nest()
[[nodiscard]] NestResult follow(const NestProblem& problem, const NestProblem& before,
                                const NestResult& result, const NestOptions& options, const Job& job = {});

/// Instance files of open benchmark sets. @error "not-json", "wrong-type", "missing"
[[nodiscard]] Expected<NestProblem> readInstance(std::string_view json);

/// The nest command's output, described in resources/nest-result.md: density_percent (strip) or sheet_count,
/// seconds, placements, unplaced; lengths in the instance's units, angles in degrees.
[[nodiscard]] std::string nestJson(const NestProblem& problem, const NestResult& result, double seconds);

} // namespace slab
