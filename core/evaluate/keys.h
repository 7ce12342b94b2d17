#pragma once
// What each stage of an evaluation depends on: as long as its key is the same, its result is remembered.
#include "core/evaluate/evaluate.h"

namespace slab {

/// What the joined skin depends on when every form scales: everything but the scale itself.
struct UnitSkinKey {
    std::vector<FormSolid> solids; ///< at scale 1
    Materials materials;
    std::vector<PieceKey> pieces;
    bool operator==(const UnitSkinKey&) const = default;
};
/// What the forms at scale 1 depend on.
struct UnitFormsKey {
    std::vector<Form> forms;
    std::vector<Dimension> dimensions;
    std::string units;
    bool operator==(const UnitFormsKey&) const = default;
};
struct SkinKey {
    ResolvedForms forms;
    Materials materials;
    std::vector<PieceKey> pieces;
    bool operator==(const SkinKey&) const = default;
};
struct DonorKey {
    Donor donor;
    Rider rider;
    std::vector<Passenger> passengers;
    Clearance clearance;
    Scope scope;
    bool operator==(const DonorKey&) const = default;
};
struct StockKey {
    Stock stock;
    Scope scope;
    bool operator==(const StockKey&) const = default;
};
struct PlatesKey {
    std::shared_ptr<const Body> body;
    PlateRules rules;
    bool operator==(const PlatesKey&) const = default;
};
struct ModulesKey {
    std::shared_ptr<const PlateSet> plates;
    std::shared_ptr<const StockSet> stock;
    std::vector<BoughtPart> bought;
    std::vector<Module> modules;
    std::vector<PassageSize> passages;
    UnitStyle units = {};
    bool operator==(const ModulesKey&) const = default;
};
struct FitKey {
    std::shared_ptr<const PlateSet> plates;
    std::shared_ptr<const DonorSet> donor;
    FitWords words = {}; ///< of its findings
    bool operator==(const FitKey&) const = default;
};
struct AfloatKey {
    std::shared_ptr<const FitResult> rest;
    std::shared_ptr<const PlateSet> plates;
    std::shared_ptr<const DonorSet> donor;
    std::shared_ptr<const MechanismSet> mechanisms;
    UnitStyle units = {}; ///< of the words in its findings
    bool operator==(const AfloatKey&) const = default;
};

struct PicturesKey {
    std::vector<Picture> pictures;
    std::string donor;
    Scope scope;
    PictureFiles files;
    bool operator==(const PicturesKey&) const = default;
};

} // namespace slab
