#pragma once
// Reads one mechanism's formulas; what cannot be read becomes a finding with its place in the document.
#include "core/mechanisms/mechanisms.h"
#include "core/units/moment.h"

namespace slab::mechanisms {

/// Formulas of the mechanism `name`, entry `index` of the list "turntables", "trunnions", … of the document.
class Reading {
public:
    Reading(const MechanismInput& in, MechanismSet& set, std::string list, std::size_t index,
            std::string name);

    /// Empty text gives `fallback`. After a failure the value is `fallback` and ok() is false. A length
    /// beyond 100 m is one.
    double length(const Text& text, const std::string& field, double fallback = 0,
                  Space space = Space::build);
    double angle(const Text& text, const std::string& field, double fallback = 0);
    double number(const Text& text, const std::string& field, double fallback = 0);
    /// Like length(), but it must be given and above zero.
    double size(const Text& text, const std::string& field, const std::string& words,
                Space space = Space::build);
    /// `value` itself, or 0 and a stop where it is below zero.
    double notNegative(double value, const std::string& field, const std::string& words);
    /// Frame of a placement: turned (roll, pitch, yaw), then moved.
    Frame place(const Placement& at, Space space = Space::subject);
    /// The sheet of that name, or where empty the document's default; null after a finding when there is
    /// none.
    const Sheet* sheet(const std::string& stock, const std::string& field);

    /// A finding about this mechanism, "Turntable lamp: …"; a stop makes ok() false.
    void report(Severity severity, std::string code, const std::string& message, const std::string& field,
                std::string remedy);
    void report(const Error& error, const std::string& field = {});
    void fact(const std::string& key, const std::string& words, double value,
              MechanismFact::Unit unit = MechanismFact::Unit::length);
    /// Tells of hardware of a size that no shop has.
    void sold(double size, double least, double most, const std::string& field, const std::string& words,
              const std::string& remedy);
    void hardware(const std::string& item, int count, double size, const std::string& note = {});

    [[nodiscard]] bool ok() const { return m_ok; }
    /// A length in the builder's units, for messages.
    [[nodiscard]] std::string words(double mm) const { return printFine(mm, m_in.units); }
    /// The same, rounded down or up to what is printed, so that who types it keeps within it.
    [[nodiscard]] std::string wordsUpTo(double mm) const { return words(stepsDown(mm)); }
    [[nodiscard]] std::string wordsAtLeast(double mm) const { return words(-stepsDown(-mm)); }
    [[nodiscard]] std::string moment(double newtonMetres) const {
        return printMoment(newtonMetres, m_in.units);
    }
    [[nodiscard]] std::string mass(double kilograms) const { return printMass(kilograms, m_in.units); }

private:
    [[nodiscard]] double stepsDown(double mm) const;
    double read(const Text& text, const std::string& field, Space space, Kind kind, double fallback);
    const MechanismInput& m_in;
    MechanismSet& m_set;
    std::string m_list, m_name;
    std::size_t m_index;
    bool m_ok = true;
};

/// Plates (skin faces and plate forms with a material) that a solid moved through its range meets.
/// Faces are taken with the thickness that they have, square to their plane.
struct CrossedPlate {
    std::string name;
    Plane outer;
    double thickness = 0;
    Box3 box;                    ///< of the face's corners
    std::vector<Vec3> triangles; ///< that make up its outer face, three corners each
    std::string stock{};
};
[[nodiscard]] std::vector<CrossedPlate> crossedPlates(const MechanismInput& in, const Motion& motion,
                                                      const ConvexSolid& solid);

} // namespace slab::mechanisms
