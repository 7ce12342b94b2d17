#pragma once
// Donor and rider in the pipeline: placed, compared with plates and round forms, at rest and afloat.
#include "core/evaluate/keys.h"
#include "core/evaluate/remembered.h"
#include "core/fit/poses.h"

namespace slab {

/// Remembers what it made; everything is a pure function of what it is given.
class FitStage {
public:
    /// Donor and rider at their place; the best one where the document asks for it.
    std::shared_ptr<const DonorSet> placed(const Project& project, const Evaluation& e);
    /// With the shell at rest, as shown, in every pose of the rider; OpenCASCADE's verdict from
    /// Effort::verdict on.
    std::shared_ptr<const FitResult> atRest(const Project& project, const Evaluation& e, Effort effort,
                                            const Job& job);
    /// Over all poses of a floating shell; nothing where it does not float.
    std::shared_ptr<const FloatFit> afloat(const Project& project, const Evaluation& e);
    /// The fit at rest with what the sweeps of e.mechanisms found, as far as they are known.
    /// @param cut  plates with every move at 0
    std::shared_ptr<const FitResult> whole(const Evaluation& e, const std::shared_ptr<const PlateSet>& cut,
                                           Effort effort, const Job& job);
    /// e.fit with the ways to the donor's service points, from Effort::verdict on.
    std::shared_ptr<const FitResult> serviced(const Evaluation& e, Effort effort);
    /// The same by a look at donor and rider alone, for the scale survey.
    std::shared_ptr<const FitResult> moving(const Evaluation& e, const std::shared_ptr<const PlateSet>& cut,
                                            const Job& job);
    /// e.afloat with all that moves on the shell, from Effort::verdict on. @param e  its fit is whole()
    std::shared_ptr<const FloatFit> allAfloat(const Project& project, const Evaluation& e,
                                              const PlateSet& cut, Effort effort, const Job& job);

private:
    struct RoundsKey {
        std::shared_ptr<const PlateSet> plates;
        std::vector<RoundPart> rounds;
        bool operator==(const RoundsKey&) const = default;
    };
    struct WholeKey {
        std::shared_ptr<const FitResult> rest;
        std::shared_ptr<const MechanismSet> swept;
        bool posed = false; ///< poses of the rider against what moves are looked at
        bool operator==(const WholeKey&) const = default;
    };
    struct AllAfloatKey {
        std::shared_ptr<const FloatFit> shown;
        std::shared_ptr<const FitResult> rest;
        std::shared_ptr<const MechanismSet> swept;
        std::vector<Linkage> linkages;
        bool operator==(const AllAfloatKey&) const = default;
    };
    struct ServiceKey {
        std::shared_ptr<const FitResult> fit;
        std::shared_ptr<const PlateSet> plates, outlines;
        std::shared_ptr<const DonorSet> donor;
        bool operator==(const ServiceKey&) const = default;
    };
    using Fitted = Remembered<RoundsKey, PlateSet>;
    using PosedKey = std::shared_ptr<const DonorSet>;
    std::shared_ptr<const std::vector<PosedSolid>> posed(const PosedKey& donor);
    FitResult posedMoving(FitResult fit, const Evaluation& e, const PlateSet& cut, const Job& job);
    static std::shared_ptr<const PlateSet> fitted(Fitted& memory, const Evaluation& e);

    Fitted m_bare, m_shown; ///< plates and rounds: to find a place, and with all that is made inside
    Remembered<DonorKey, DonorSet> m_donor;
    Remembered<FitKey, DonorSet> m_placed;
    Remembered<FitKey, FitResult> m_live, m_verdict;
    KnownPairs m_known, m_knownPosed; ///< so that after an edit only what it changed is judged again
    Remembered<PosedKey, std::vector<PosedSolid>> m_posed, m_homePosed; ///< placed, and before that
    Remembered<AfloatKey, FloatFit> m_afloat;
    Remembered<WholeKey, FitResult> m_whole;
    Remembered<ServiceKey, FitResult> m_serviced;
    Remembered<AllAfloatKey, FloatFit> m_allAfloat;
};

} // namespace slab
