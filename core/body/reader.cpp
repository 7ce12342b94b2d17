#include "core/body/reader.h"
#include "core/body/place_words.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {
constexpr double mostCorners = 200;
}

double FormReader::read(const Text& text, const std::string& field, Space space, Kind kind) {
    if (text.find_first_not_of(" \t\r\n") == std::string::npos) return 0;
    const auto value = evaluate(text, m_scope, space, kind);
    if (value && std::isfinite(value->value)) {
        m_usesBuild = m_usesBuild || value->usesBuild;
        return value->value;
    }
    Error error = value ? Error{"not-finite", "The value is not a finite number.", {}, "Check the formula."}
                        : value.error();
    while (!error.message.empty() && error.message.back() == '.') error.message.pop_back();
    if (!error.where.empty()) error.message += " (" + error.where + ")";
    report(Severity::stop, error.code, "\"" + text + "\": " + error.message, field,
           error.remedy.empty() ? "Correct the formula." : error.remedy);
    m_ok = false;
    return 0;
}

double FormReader::length(const Text& text, const std::string& field, Space space) {
    return read(text, field, space, Kind::length);
}
double FormReader::angle(const Text& text, const std::string& field) {
    return read(text, field, Space::subject, Kind::angle);
}
double FormReader::number(const Text& text, const std::string& field) {
    return read(text, field, Space::subject, Kind::number);
}

void FormReader::report(Severity severity, std::string code, const std::string& message,
                        const std::string& field, std::string remedy) {
    Finding f{severity, std::move(code), "Form " + m_form.name, {"form:" + m_form.name}, std::move(remedy),
              {}};
    std::string place = "/forms/" + std::to_string(m_index);
    if (!field.empty()) {
        place += "/" + field;
        f.message += ", " + placeWords(m_form, field);
    }
    f.message += ": " + message;
    if (!message.empty() && message.back() != '.') f.message += ".";
    f.about.push_back("document:" + place);
    m_findings.push_back(std::move(f));
    if (severity == Severity::stop) m_ok = false;
}

void FormReader::report(const Error& error, const std::string& field) {
    report(Severity::stop, error.code, error.message, field, error.remedy);
}

Corners FormReader::outline(const std::vector<OutlinePoint>& points, const std::string& field, Plane plane) {
    Corners corners;
    if (static_cast<double>(points.size()) > mostCorners) {
        report(Severity::stop, "outline-long", "the outline has more than 200 points", field,
               "Use fewer points.");
        return corners;
    }
    for (std::size_t j = 0; j < points.size(); ++j) {
        const OutlinePoint& p = points[j];
        const std::string at = field + "/" + std::to_string(j) + "/";
        Corner c;
        c.name = p.name.empty() ? "s" + std::to_string(j + 1) : p.name;
        c.side = p.side.empty() ? c.name : p.side;
        c.at.x() = length(p.x, at + "x");
        c.at.y() = plane == Plane::xy ? length(p.y, at + "y") : length(p.z, at + "z");
        if (plane == Plane::xz) {
            c.half = length(p.half_width, at + "half_width");
            if (c.half < 0)
                report(Severity::stop, "half-width-negative", "the half width is less than zero",
                       at + "half_width", "Give the half width as a positive length.");
        }
        corners.push_back(std::move(c));
    }
    if (!ok()) return corners;
    if (plane == Plane::xz &&
        std::none_of(corners.begin(), corners.end(), [](const Corner& c) { return c.half > 0; }) &&
        !corners.empty())
        report(Severity::stop, "form-flat", "the half width is zero at every point", field,
               "Give at least one point a half width.");
    return corners;
}

std::string FormReader::words(double mm) const {
    UnitStyle style;
    style.unit = m_scope.unit;
    return printFine(mm, style);
}

} // namespace slab
