#pragma once
#include "core/base/job.h"
#include "core/donor/donor.h"
#include "core/fit/words.h"
#include "core/plates/plate.h"
#include <functional>

namespace slab {

enum class FitState {
    fits,
    tight,
    hits
}; ///< tight: apart, but nearer than the wanted clearance by over 1e-6 mm

struct FitPair {
    std::string solid, plate;
    FitState state = FitState::fits;
    double clearance = 0; ///< least distance, mm; 0 when they meet
    double wanted = 0;    ///< mm
    double volume = 0; ///< common volume, mm³ (exact for flat-faced solids live; curved ones by the verdict)
    Vec3 onSolid = Vec3::Zero(), onPlate = Vec3::Zero(); ///< nearest points; a common point when they meet
    bool confirmed = false;                              ///< OpenCASCADE agrees
    double depth = 0; ///< when they meet: least way out, mm (of a plate in pieces: of its deepest piece)
    bool operator==(const FitPair&) const = default;
};

/// How a service point of the donor is reached, by serviceWays() of core/fit/service.h.
struct ServiceWay {
    std::string name;
    Vec3 at = Vec3::Zero();  ///< the point, body axes
    Vec3 way = Vec3::Zero(); ///< unit direction of the best straight way out; 0 = there is none at all
    double hand = 0;         ///< wanted width, mm
    double width = 0;        ///< the widest that passes on that way, mm; 0 when it is barred
    bool reached = false;
    bool fromSeat = false; ///< by somebody who sits in it
    std::string through;   ///< opening that the way leads through; may be empty
    std::string binds;     ///< plate or solid that comes nearest to the way, or bars it
    std::string words;     ///< "from port and above through opening hatch, 130 mm wide"
    bool operator==(const ServiceWay&) const = default;
};

struct FitResult {
    std::vector<FitPair>
        pairs; ///< for each solid the plates nearer than its clearance, and at least the nearest one
    double leastClearance = 0; ///< over all pairs, `swept` and `posed`, mm; 0 when something hits
    double leastMargin = 0;    ///< least of clearance - wanted; below 0 = tight or hits
    FitState state = FitState::fits;
    /// "donor" or "rider" whose box in plan lies wholly beyond an end or a side of the body's: nothing
    /// touches, and still nothing fits (state: hits).
    struct Outside {
        std::string group;
        double gap = 0; ///< mm
        bool operator==(const Outside&) const = default;
    };
    std::vector<Outside> outside;
    /// What mechanisms move, over their whole range, against donor and rider, by withSwept(): all that comes
    /// nearer than wanted, and the nearest. `plate` names the part, `onPlate` lies on it where it comes
    /// nearest.
    std::vector<FitPair> swept;
    /// In poses of rider and steering, by withPoses(): the worst pose of each pair that is worse there than
    /// at rest: all that comes nearer than wanted, and what is the least of all.
    struct Posed {
        FitPair pair;
        std::string words; ///< "leaning forward 20.0°"
        bool operator==(const Posed&) const = default;
    };
    std::vector<Posed> posed;
    std::vector<ServiceWay> service; ///< one for each service point; from Effort::verdict on
    bool confirmed = false;
    std::vector<Finding> findings;
    bool operator==(const FitResult&) const = default;
};

/// What is left of a pair's clearance, mm: clearance - wanted; when they meet, less the way out.
[[nodiscard]] double marginOf(const FitPair& pair);
/// The pair with the least margin, those of mechanisms and of poses among them, the first of equals; null
/// when there is none.
[[nodiscard]] const FitPair* bindingPair(const FitResult& fit);

/// Live: exact distances between convex pieces. Meeting by less than 1e-6 mm counts as touching (clearance 0,
/// tight).
[[nodiscard]] FitResult liveFit(const std::vector<FitSolid>& solids, const PlateSet& plates,
                                const FitWords& words = {});
/// The verdict: the same pairs by OpenCASCADE, volumes included, on two threads.
///
/// A live figure that agrees within 1e-6 mm is kept and marked; one that does not gives way to OpenCASCADE's,
/// with a finding. A pair that OpenCASCADE cannot judge stays unmarked. Stopped: what was live comes back.
[[nodiscard]] FitResult confirmedFit(const FitResult& live, const std::vector<FitSolid>& solids,
                                     const PlateSet& plates, const Job& job = {}, const FitWords& words = {});

/// Every solid with every plate, in the solids' and plates' order: the pairs of `fit` as they are, the
/// others, which are farther apart, by the live way.
[[nodiscard]] std::vector<FitPair> everyPair(const FitResult& fit, const std::vector<FitSolid>& solids,
                                             const PlateSet& plates);

struct Probe {
    double margin = 0;    ///< least clearance - wanted, mm
    double clearance = 0; ///< least distance, minus the depth when they meet, mm
    std::string binding;
};
/// What a search asks of one fit; nothing to compare gives 1e9.
[[nodiscard]] Probe probeOf(const FitResult& fit);

/// Bands of `at` over [from, to]: sampled, then edges found by bisection to `tolerance`.
struct FitBand {
    double from = 0, to = 0;
    FitState state = FitState::fits;
    /// What binds from a value of `at` on.
    struct Binding {
        double from = 0;
        std::string pair; ///< in words: "donor/joystick hand – hull/port"
        bool operator==(const Binding&) const = default;
    };
    std::vector<Binding> bindings; ///< rising; as fine as the samples; empty where everything fits
    /// The pair that binds at a value inside the band; "" where everything fits.
    [[nodiscard]] std::string bindingAt(double at) const;
    bool operator==(const FitBand&) const = default;
};
[[nodiscard]] std::vector<FitBand> fitBands(const std::function<Probe(double)>& probe, double from, double to,
                                            int samples, double tolerance, const Job& job = {});
/// Smallest scale in [from, to] from which everything fits, to `tolerance`. @error "never-fits"
[[nodiscard]] Expected<double> leastFittingScale(const std::function<Probe(double)>& probe, double from,
                                                 double to, double tolerance, const Job& job = {});
/// Donor shift along x with the greatest least margin, among those that leave donor and rider between the
/// ends of the body (the body between theirs, if they are longer); to about 0.01 mm. Where a stretch is
/// equally good, its middle: the place does not depend on where the donor stood.
[[nodiscard]] double bestPlace(const std::vector<FitSolid>& solids, const PlateSet& plates);

} // namespace slab
