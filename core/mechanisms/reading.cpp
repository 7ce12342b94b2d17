#include "core/mechanisms/reading.h"
#include <Eigen/Geometry>
#include <cmath>

namespace slab::mechanisms {

namespace {
/// "turntables", "crane" -> "Turntable crane"; a name that begins with what it is says that already.
std::string calledBy(const std::string& list, const std::string& name) {
    const std::string kind = list.substr(0, list.size() - 1);
    std::string words = name == kind || name.starts_with(kind + " ") ? name : kind + " " + name;
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
    return words;
}
} // namespace

Reading::Reading(const MechanismInput& in, MechanismSet& set, std::string list, std::size_t index,
                 std::string name)
    : m_in(in), m_set(set), m_list(std::move(list)), m_name(std::move(name)), m_index(index) {}

double Reading::read(const Text& text, const std::string& field, Space space, Kind kind, double fallback) {
    if (text.find_first_not_of(" \t\r\n") == std::string::npos) return fallback;
    const auto value = evaluate(text, m_in.scope, space, kind);
    if (value && std::isfinite(value->value)) return value->value;
    Error error = value ? Error{"not-finite", "The value is not a finite number.", {}, "Check the formula."}
                        : value.error();
    while (!error.message.empty() && error.message.back() == '.') error.message.pop_back();
    if (!error.where.empty()) error.message += " (" + error.where + ")";
    report(Severity::stop, error.code, "\"" + text + "\": " + error.message, field,
           error.remedy.empty() ? "Correct the formula." : error.remedy);
    return fallback;
}

double Reading::length(const Text& text, const std::string& field, double fallback, Space space) {
    constexpr double longest = 1e5; // mm; far beyond any ride, near enough for distances to be worked out
    const double value = read(text, field, space, Kind::length, fallback);
    if (std::abs(value) <= longest) return value;
    report(Severity::stop, "mechanism-size", "\"" + text + "\" is longer than 100 m", field,
           "Check the figure and its unit.");
    return fallback;
}
double Reading::angle(const Text& text, const std::string& field, double fallback) {
    return read(text, field, Space::build, Kind::angle, fallback);
}
double Reading::number(const Text& text, const std::string& field, double fallback) {
    return read(text, field, Space::build, Kind::number, fallback);
}

double Reading::size(const Text& text, const std::string& field, const std::string& words, Space space) {
    const bool was = m_ok;
    const double value = length(text, field, 0, space);
    if (value > 0 || (was && !m_ok)) return value;
    report(Severity::stop, "mechanism-size", words + " is not above zero", field,
           "Measure it and type it in.");
    return 0;
}

double Reading::notNegative(double value, const std::string& field, const std::string& words) {
    if (value >= 0) return value;
    report(Severity::stop, "mechanism-size", words + " is below zero", field,
           "Measure it and type it in without a sign; 0 for none.");
    return 0;
}

double Reading::stepsDown(double mm) const {
    const double step = isInch(m_in.units) ? 25.4 / std::max(m_in.units.denominator, 1) : 1;
    return std::floor(mm / step + 1e-6) * step;
}

Frame Reading::place(const Placement& at, Space space) {
    Frame frame;
    frame.origin = {length(at.x, "at/x", 0, space), length(at.y, "at/y", 0, space),
                    length(at.z, "at/z", 0, space)};
    const double roll = angle(at.roll, "at/roll"), pitch = angle(at.pitch, "at/pitch"),
                 yaw = angle(at.yaw, "at/yaw");
    if (roll != 0 || pitch != 0 || yaw != 0)
        frame.axes = (Eigen::AngleAxisd(yaw, Vec3::UnitZ()) * Eigen::AngleAxisd(pitch, Vec3::UnitY()) *
                      Eigen::AngleAxisd(roll, Vec3::UnitX()))
                         .toRotationMatrix();
    return frame;
}

const Sheet* Reading::sheet(const std::string& stock, const std::string& field) {
    const std::string& wanted = stock.empty() ? m_in.project.materials.fallback : stock;
    const Sheet* found = m_in.stock.find(wanted);
    if (!found)
        report(Severity::stop, "mechanism-stock",
               wanted.empty() ? "no sheet is chosen for its parts"
                              : "its parts are to be cut from \"" + wanted +
                                    "\", which is not a usable sheet in the stock",
               field, "Add that sheet to the stock, or choose another.");
    return found;
}

void Reading::report(Severity severity, std::string code, const std::string& message,
                     const std::string& field, std::string remedy) {
    std::string place = "/mechanisms/" + m_list + "/" + std::to_string(m_index);
    if (!field.empty()) place += "/" + field;
    Finding f{severity,
              std::move(code),
              calledBy(m_list, m_name) + ": " + message,
              {"mechanism:" + m_name, "document:" + place},
              std::move(remedy),
              {}};
    if (!message.empty() && message.back() != '.') f.message += ".";
    m_set.findings.push_back(std::move(f));
    if (severity == Severity::stop) m_ok = false;
}
void Reading::report(const Error& error, const std::string& field) {
    report(Severity::stop, error.code, error.message, field, error.remedy);
}

void Reading::fact(const std::string& key, const std::string& words, double value, MechanismFact::Unit unit) {
    m_set.facts.push_back({m_name, key, words, value, unit});
}
void Reading::sold(double size, double least, double most, const std::string& field, const std::string& words,
                   const std::string& remedy) {
    if (size >= least - 1e-9 && size <= most + 1e-9) return;
    const bool large = size > most;
    report(Severity::look, "hardware-size",
           words + " of " + this->words(size) + (large ? " is more" : " is less") + " than what is sold; " +
               this->words(large ? most : least) + (large ? " is about the most" : " is about the least"),
           field, remedy);
}
void Reading::hardware(const std::string& item, int count, double size, const std::string& note) {
    m_set.hardware.push_back({m_name, item, count, size, note});
}

} // namespace slab::mechanisms
