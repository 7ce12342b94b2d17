#pragma once
// Reading what is typed at a picture: a formula that cannot be read is a finding, and the rest goes on.
#include "core/base/finding.h"
#include "core/document/project.h"
#include "core/formula/formula.h"
#include "core/geometry/vec.h"
#include "core/units/units.h"
#include <string>
#include <vector>

namespace slab {

[[nodiscard]] bool isBlank(const Text& text);
[[nodiscard]] bool isMarked(const PicturePoint& point);

class PictureReader {
public:
    PictureReader(const Picture& picture, int index, const Scope& scope, std::vector<Finding>& findings);

protected:
    const Picture& m_p;
    const Scope& m_scope;
    UnitStyle m_units;
    bool m_sound = true; ///< of the formulas read since it was last set

    void report(const char* code, const std::string& message, const std::string& field, std::string remedy);
    void report(const Error& e);
    /// A formula's value; empty text is 0, what cannot be read is a finding and leaves m_sound false.
    double number(const Text& text, const std::string& field, Kind kind);
    double length(const Text& text, const std::string& field) { return number(text, field, Kind::length); }
    Vec2 pixel(const PicturePoint& point, const std::string& field);

private:
    std::vector<Finding>& m_findings;
    std::string m_place;
};

} // namespace slab
