// The document's frames as figures.
#include "core/frames/frames.h"
#include <cmath>

namespace slab {

namespace {

class FrameReader {
public:
    FrameReader(const Rib& rib, std::size_t index, const Scope& scope, std::vector<Finding>& findings)
        : m_rib(rib), m_place("/frames/" + std::to_string(index)), m_scope(scope), m_findings(findings) {}

    double read(const Text& text, const char* field, Space space, Kind kind) {
        if (text.find_first_not_of(" \t") == std::string::npos) return 0;
        const auto value = evaluate(text, m_scope, space, kind);
        if (value && std::isfinite(value->value)) return value->value;
        Error error = value
                          ? Error{"not-finite", "the value is not a finite number", {}, "Check the formula."}
                          : value.error();
        report(error.code, field + std::string(": \"") + text + "\": " + error.message, field,
               error.remedy.empty() ? "Correct the formula." : error.remedy);
        return 0;
    }
    double build(const Text& text, const char* field) {
        return read(text, field, Space::build, Kind::length);
    }
    void report(const std::string& code, std::string message, const std::string& field, std::string remedy) {
        while (!message.empty() && message.back() == '.') message.pop_back();
        m_findings.push_back(
            {Severity::stop,
             code,
             "Frame " + m_rib.name + ": " + message + ".",
             {"frame:" + m_rib.name, "document:" + m_place + (field.empty() ? "" : "/" + field)},
             std::move(remedy),
             {}});
        m_ok = false;
    }
    [[nodiscard]] bool ok() const { return m_ok; }

private:
    const Rib& m_rib;
    std::string m_place;
    const Scope& m_scope;
    std::vector<Finding>& m_findings;
    bool m_ok = true;
};

Frame placeOf(const std::string& axis, double station, double yaw, double pitch) {
    const Vec3 unit = axis == "y" ? Vec3::UnitY() : axis == "z" ? Vec3::UnitZ() : Vec3::UnitX();
    Mat3 turn =
        (Eigen::AngleAxisd(yaw, Vec3::UnitZ()) * Eigen::AngleAxisd(pitch, Vec3::UnitY())).toRotationMatrix();
    for (double& r : turn.reshaped())
        if (std::abs(r - std::round(r)) < 1e-15) r = std::round(r);
    Frame frame;
    frame.origin = unit * station;
    const Vec3 w = turn * unit;
    const Vec3 up = std::abs(w.z()) > 0.9 ? Vec3(Vec3::UnitX()) : Vec3(Vec3::UnitZ());
    const Vec3 v = (up - w * w.dot(up)).normalized();
    frame.axes << v.cross(w), v, w;
    return frame;
}

constexpr double mostClearance = 2000; ///< mm; of a body that is ridden

} // namespace

std::vector<FrameChoice> resolveFrames(const Project& project, const Scope& scope, const StockSet& stock,
                                       std::vector<Finding>& findings) {
    std::vector<FrameChoice> all;
    for (std::size_t i = 0; i < project.frames.size(); ++i) {
        const Rib& rib = project.frames[i];
        if (rib.off) continue;
        FrameReader reader(rib, i, scope, findings);
        FrameChoice c;
        c.name = rib.name;
        c.index = static_cast<int>(i);
        c.stock = rib.stock.empty() ? project.materials.fallback : rib.stock;
        const double station = reader.read(rib.station, "station", Space::subject, Kind::length);
        const double yaw = reader.read(rib.yaw, "yaw", Space::subject, Kind::angle);
        const double pitch = reader.read(rib.pitch, "pitch", Space::subject, Kind::angle);
        c.place = placeOf(rib.axis, station, yaw, pitch);
        c.gap = reader.build(rib.gap, "gap");
        c.web = reader.build(rib.web, "web");
        c.fit = reader.build(rib.fit, "fit");
        if (rib.clearance.find_first_not_of(" \t") != std::string::npos)
            c.clearance = reader.build(rib.clearance, "clearance");
        if (c.gap < 0 || c.web < 0 || c.clearance.value_or(0) < 0)
            reader.report("frame-size", "gap, web and clearance cannot be less than zero",
                          c.gap < 0   ? "gap"
                          : c.web < 0 ? "web"
                                      : "clearance",
                          "Type a positive length.");
        if (c.clearance.value_or(0) > mostClearance)
            reader.report("frame-size", "so much clearance leaves nothing of any board", "clearance",
                          "Ask for 2 m at most.");
        const Sheet* sheet = stock.find(c.stock);
        if (!sheet)
            reader.report("frame-stock",
                          c.stock.empty() ? "it has no sheet" : "there is no sheet named \"" + c.stock + "\"",
                          "stock", "Choose one of the sheets under stock.");
        if (!reader.ok()) continue;
        c.thickness = sheet->thickness;
        c.soft = sheet->kind == "foam" || sheet->kind == "card";
        all.push_back(std::move(c));
    }
    return all;
}

} // namespace slab
