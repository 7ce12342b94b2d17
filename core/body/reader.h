#pragma once
// Reads one form's formulas; what cannot be read becomes a finding with its place in the document.
#include "core/body/closing.h"
#include "core/body/skin.h"

namespace slab {

/// The largest move that made a traced form's faces flat.
struct FlatMove {
    std::string form, corner;
    double move = 0; ///< mm
    bool operator==(const FlatMove&) const = default;
};

class FormReader {
public:
    FormReader(const Form& form, std::size_t index, const Scope& scope, std::vector<Finding>& findings)
        : m_form(form), m_index(index), m_scope(scope), m_findings(findings) {}

    /// A formula at `field` ("outline/3/x", below the form); empty text = 0. After a failure the value is 0
    /// and ok() is false.
    double length(const Text& text, const std::string& field, Space space = Space::subject);
    double angle(const Text& text, const std::string& field);
    double number(const Text& text, const std::string& field);

    /// Outline points with their names; `second` picks y (plan) or z (side view) for the second coordinate.
    enum class Plane { xy, xz };
    Corners outline(const std::vector<OutlinePoint>& points, const std::string& field, Plane plane);
    /// Curves of an outline with their facets; what they miss by is kept in fits().
    std::vector<Arc> arcs(const std::vector<Curve>& curves, const Corners& corners, Plane plane);
    [[nodiscard]] std::vector<CurveFit>& fits() { return m_fits; }
    /// The largest moves that made a traced form's faces flat.
    [[nodiscard]] std::vector<FlatMove>& flats() { return m_flats; }

    void report(Severity severity, std::string code, const std::string& message, const std::string& field,
                std::string remedy);
    void report(const Error& error, const std::string& field);

    /// A length in the builder's units, for messages.
    [[nodiscard]] std::string words(double mm) const;

    [[nodiscard]] bool ok() const { return m_ok; }
    [[nodiscard]] bool usesBuild() const { return m_usesBuild; }

private:
    const Form& m_form;
    std::size_t m_index;
    const Scope& m_scope;
    std::vector<Finding>& m_findings;
    bool m_ok = true, m_usesBuild = false;

    double read(const Text& text, const std::string& field, Space space, Kind kind);
    /// A facet count or a tolerance, as typed.
    struct Fineness {
        int facets = 0;       ///< 0 = by the tolerance
        double tolerance = 0; ///< mm
    };
    std::vector<std::size_t> m_bent; ///< edges that have their curve
    std::vector<CurveFit> m_fits;
    std::vector<FlatMove> m_flats;

    Fineness fineness(const Curve& curve, const std::string& field);
    Arc arc(const Curve& curve, const Corners& corners, Plane plane, const std::string& field);
    void circle(Arc& arc, const Curve& curve, const Corners& corners, const std::string& field);
    void bend(Arc& arc, const Curve& curve, const Corners& corners, Plane plane, const std::string& field);
    Expected<CurvePath> spline(Arc& arc, const Curve& curve, const Corners& corners, Plane plane,
                               const std::string& field);
};

} // namespace slab
