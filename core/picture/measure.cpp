// What several lines on pictures make of one donor size.
#include "core/donor/donor.h"
#include "core/picture/place.h"
#include "core/picture/typed.h"
#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

using Lines = std::vector<std::pair<const PlacedPicture*, std::size_t>>;

std::string nameOf(const PlacedPicture& picture, std::size_t line) {
    const std::string& own = picture.lines[line].name;
    return picture.name + "/" + (own.empty() ? "line " + std::to_string(line + 1) : own);
}

/// Covariance of the lengths, mm²: lines of one picture share what its own marked points do to all of them.
Eigen::MatrixXd covarianceOf(const Lines& lines, Eigen::VectorXd& values) {
    const auto n = static_cast<Eigen::Index>(lines.size());
    std::vector<LengthSlopes> slopes;
    for (const auto& [picture, line] : lines) slopes.push_back(lineSlopes(*picture, picture->lines[line]));
    values.resize(n);
    Eigen::MatrixXd c = Eigen::MatrixXd::Zero(n, n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const auto a = static_cast<std::size_t>(i);
        values[i] = slopes[a].value;
        c(i, i) = slopes[a].own;
        for (Eigen::Index k = 0; k < n; ++k) {
            const auto b = static_cast<std::size_t>(k);
            if (lines[a].first != lines[b].first) continue;
            const double click = lines[a].first->fix.click;
            for (std::size_t s = 0; s < slopes[a].shared.size(); ++s)
                c(i, k) += click * click * slopes[a].shared[s] * slopes[b].shared[s];
        }
    }
    return c;
}

void report(std::vector<Finding>& findings, const char* code, const PlacedPicture& picture, std::size_t line,
            const std::string& message, std::string remedy) {
    findings.push_back(
        {Severity::look,
         code,
         "Picture " + nameOf(picture, line) + ": " + message,
         {"picture:" + picture.name, "document:/pictures/" + std::to_string(picture.index) + "/lines"},
         std::move(remedy),
         {}});
}

/// Lines of one size whose picture may tell it.
Lines linesOf(const std::vector<PlacedPicture>& pictures, const std::string& size,
              std::vector<Finding>& findings) {
    Lines lines;
    for (const PlacedPicture& p : pictures)
        for (std::size_t i = 0; i < p.lines.size(); ++i) {
            if (p.lines[i].size != size) continue;
            if (p.space == Space::subject)
                report(findings, "picture-size-subject", p, i,
                       "a donor is measured on a picture that shrinks with the scale.",
                       "Set the picture's space to build: a donor keeps its size.");
            else if (!(p.lines[i].length.value > 0))
                report(findings, "picture-line-short", p, i, "the line has no length.",
                       "Draw it from end to end.");
            else
                lines.emplace_back(&p, i);
        }
    return lines;
}

/// What is wrong with one file is told once, however many pictures are cut from it.
class FileTroubles {
public:
    explicit FileTroubles(std::vector<Finding>& findings) : m_findings(findings) {}
    void take(Finding finding, const Picture& picture) {
        const std::string& place = finding.about.back();
        if (!place.ends_with("/file") && !place.ends_with("/hash"))
            return m_findings.push_back(std::move(finding));
        const std::string key = finding.code + " " + picture.file;
        for (auto& [known, at, names] : m_told) {
            if (known != key) continue;
            Finding& first = m_findings[at];
            const std::string before =
                (names.find(", ") == std::string::npos ? "Picture " : "Pictures ") + names;
            names += ", " + picture.name;
            first.message = "Pictures " + names + first.message.substr(before.size());
            first.about.insert(first.about.end(), finding.about.begin(), finding.about.end());
            return;
        }
        m_told.push_back({key, m_findings.size(), picture.name});
        m_findings.push_back(std::move(finding));
    }

private:
    struct Told {
        std::string key;
        std::size_t at = 0;
        std::string names;
    };
    std::vector<Finding>& m_findings;
    std::vector<Told> m_told;
};

void tellApart(const MeasuredSize& size, const PlacedPicture& first, const UnitStyle& units,
               std::vector<Finding>& findings) {
    if (size.worst <= mostErrors) return;
    std::string all;
    for (const std::string& line : size.lines) all += (all.empty() ? "" : ", ") + line;
    const std::string times = plainNumber(size.worst, 1);
    findings.push_back({Severity::look,
                        "picture-sizes-differ",
                        "The lines for " + size.label + " contradict each other: one lies " + times +
                            " standard errors from " + printFine(size.value.value, units) +
                            ", which they give together (" + all + ").",
                        {"picture:" + first.name, "document:/pictures"},
                        "Mark them again, or measure with a tape.",
                        {}});
}

} // namespace

MeasuredSize combined(const Lines& lines) {
    Eigen::VectorXd values;
    const Eigen::MatrixXd c = covarianceOf(lines, values);
    const Eigen::Index n = values.size();
    const Eigen::LDLT<Eigen::MatrixXd> solver(c);
    const Eigen::VectorXd ones = Eigen::VectorXd::Ones(n), w = solver.solve(ones);
    MeasuredSize out;
    out.size = out.label = lines.front().first->lines[lines.front().second].size;
    for (const auto& [picture, line] : lines) out.lines.push_back(nameOf(*picture, line));
    const double variance = 1 / w.sum();
    out.value = {w.dot(values) * variance, std::sqrt(std::max(variance, 0.0))};
    for (Eigen::Index i = 0; i < n && n > 1; ++i) {
        const double left = c(i, i) - variance; // variance of what is left, as the mean is of least variance
        if (left > 1e-12 * c(i, i))
            out.worst = std::max(out.worst, std::abs(values[i] - out.value.value) / std::sqrt(left));
    }
    return out;
}

PictureSet placePictures(const Project& project, const Scope& scope, const PictureFiles& files) {
    PictureSet set;
    FileTroubles troubles(set.findings);
    for (std::size_t i = 0; i < project.pictures.size(); ++i) {
        const Picture& p = project.pictures[i];
        std::vector<Finding> own;
        set.pictures.push_back(placePicture(p, static_cast<int>(i), scope, fileNamed(files, p.file), own));
        for (Finding& finding : own) troubles.take(std::move(finding), p);
    }
    const std::vector<DonorSize> sizes = donorSizes(project.donor.kind);
    for (const DonorSize& size : sizes) {
        const Lines lines = linesOf(set.pictures, size.name, set.findings);
        if (lines.empty()) continue;
        MeasuredSize measured = combined(lines);
        measured.label = size.label;
        UnitStyle units;
        units.unit = scope.unit;
        tellApart(measured, *lines.front().first, units, set.findings);
        set.sizes.push_back(std::move(measured));
    }
    for (const PlacedPicture& p : set.pictures)
        for (std::size_t i = 0; i < p.lines.size(); ++i) {
            const std::string& size = p.lines[i].size;
            if (!size.empty() &&
                std::none_of(sizes.begin(), sizes.end(), [&](const DonorSize& s) { return s.name == size; }))
                report(set.findings, "picture-size-unknown", p, i,
                       "the donor has no size called \"" + size + "\".",
                       "Choose one of the donor's sizes, or none.");
        }
    return set;
}

} // namespace slab
