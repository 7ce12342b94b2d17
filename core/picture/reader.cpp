#include "core/picture/reader.h"
#include <cctype>
#include <cmath>

namespace slab {

bool isBlank(const Text& text) {
    return text.find_first_not_of(" \t\r\n") == std::string::npos;
}

bool isMarked(const PicturePoint& point) {
    return !isBlank(point.x) && !isBlank(point.y);
}

PictureReader::PictureReader(const Picture& picture, int index, const Scope& scope,
                             std::vector<Finding>& findings)
    : m_p(picture), m_scope(scope), m_findings(findings), m_place("/pictures/" + std::to_string(index)) {
    m_units.unit = scope.unit;
}

void PictureReader::report(const char* code, const std::string& message, const std::string& field,
                           std::string remedy) {
    m_findings.push_back({Severity::look,
                          code,
                          "Picture " + m_p.name + ": " + message,
                          {"picture:" + m_p.name, "document:" + m_place + (field.empty() ? "" : "/" + field)},
                          std::move(remedy),
                          {}});
}

void PictureReader::report(const Error& e) {
    std::string message = e.message;
    if (!message.empty())
        message[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(message[0])));
    report(e.code.c_str(), message, e.where, e.remedy);
}

double PictureReader::number(const Text& text, const std::string& field, Kind kind) {
    if (isBlank(text)) return 0;
    const auto value = evaluate(text, m_scope, m_p.space, kind);
    if (value && std::isfinite(value->value)) return value->value;
    const Error e = value ? Error{"not-finite", "The value is not a finite number.", {}, "Check the formula."}
                          : value.error();
    report(e.code.c_str(), "\"" + text + "\": " + e.message + (e.where.empty() ? "" : " (" + e.where + ")"),
           field, e.remedy.empty() ? "Correct the formula." : e.remedy);
    m_sound = false;
    return 0;
}

Vec2 PictureReader::pixel(const PicturePoint& point, const std::string& field) {
    const double x = number(point.x, field + "/x", Kind::number);
    return {x, number(point.y, field + "/y", Kind::number)};
}

} // namespace slab
