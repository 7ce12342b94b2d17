#include "core/donor/measuring.h"
#include <Eigen/QR>
#include <algorithm>
#include <cmath>

namespace slab {

double valueOf(const SizeSum& sum, const std::vector<DonorSize>& sizes) {
    double value = sum.constant;
    for (const auto& [name, factor] : sum.terms)
        for (const DonorSize& s : sizes)
            if (s.name == name) value += factor * s.value;
    return value;
}

namespace {

constexpr double tooFar = 3.29;     ///< standard deviations
constexpr double determined = 1e-9; ///< of a unit vector that must lie in what the readings see
constexpr double alike = 1e-6;      ///< two outliers that explain the same misfit

/// One least-squares fit of the readings that are used.
struct Fit {
    Eigen::VectorXd change;     ///< of the sizes from the generic ones
    Eigen::VectorXd residual;   ///< in standard deviations
    Eigen::VectorXd redundancy; ///< of each reading
    Eigen::VectorXd known;      ///< 1 where a size is determined
};

class Adjuster {
public:
    Adjuster(const std::string& kind, const std::vector<MeasureReading>& readings)
        : m_sheet(measuringSheet(kind)), m_sizes(donorSizes(kind)), m_readings(readings) {
        const auto rows = static_cast<Eigen::Index>(readings.size());
        const auto columns = static_cast<Eigen::Index>(m_sizes.size());
        m_matrix = Eigen::MatrixXd::Zero(rows, columns);
        m_wanted = Eigen::VectorXd::Zero(rows);
        for (Eigen::Index i = 0; i < rows; ++i) {
            const Measure& m = measureOf(i);
            for (const auto& [name, factor] : m.sum.terms) m_matrix(i, column(name)) += factor / m.spread;
            m_wanted[i] = (readings[static_cast<std::size_t>(i)].value - valueOf(m.sum, m_sizes)) / m.spread;
        }
        m_scale = Eigen::VectorXd::Ones(columns);
        for (Eigen::Index j = 0; j < columns; ++j)
            m_scale[j] += 0.1 * std::abs(m_sizes[static_cast<std::size_t>(j)].value);
        m_used.assign(readings.size(), true);
    }

    MeasuredDonor adjust() {
        MeasuredDonor out;
        Fit fit = solve();
        // One in three is enough to take out: then the readings as a whole are not to be trusted.
        for (std::size_t left = m_readings.size() / 3 + 1; left > 0; --left) {
            const std::vector<int> worst = worstOf(fit);
            if (worst.empty()) break;
            if (worst.size() > 1) {
                out.doubtful = worst;
                break;
            }
            m_used[static_cast<std::size_t>(worst.front())] = false;
            fit = solve();
        }
        tell(fit, out);
        return out;
    }

private:
    [[nodiscard]] const Measure& measureOf(Eigen::Index reading) const {
        return m_sheet[static_cast<std::size_t>(m_readings[static_cast<std::size_t>(reading)].measure)];
    }
    [[nodiscard]] Eigen::Index column(const std::string& size) const {
        const auto at =
            std::find_if(m_sizes.begin(), m_sizes.end(), [&](const DonorSize& s) { return s.name == size; });
        return at - m_sizes.begin();
    }

    [[nodiscard]] Fit solve() const {
        Eigen::MatrixXd a = m_matrix * m_scale.asDiagonal();
        Eigen::VectorXd b = m_wanted;
        for (Eigen::Index i = 0; i < a.rows(); ++i)
            if (!m_used[static_cast<std::size_t>(i)]) a.row(i).setZero(), b[i] = 0;
        const Eigen::MatrixXd inverse = a.completeOrthogonalDecomposition().pseudoInverse();
        Fit fit;
        fit.change = inverse * b;
        fit.residual = b - a * fit.change;
        fit.change = m_scale.asDiagonal() * fit.change;
        fit.redundancy = Eigen::VectorXd::Ones(a.rows()) - (a * inverse).diagonal();
        fit.known = (inverse * a).diagonal();
        return fit;
    }

    /// The readings that explain the misfit best; more than one where they explain it equally well.
    [[nodiscard]] std::vector<int> worstOf(const Fit& fit) const {
        std::vector<double> far(m_readings.size(), 0.0);
        for (std::size_t i = 0; i < far.size(); ++i) {
            const auto row = static_cast<Eigen::Index>(i);
            if (m_used[i] && fit.redundancy[row] > 1e-6)
                far[i] = std::abs(fit.residual[row]) / std::sqrt(fit.redundancy[row]);
        }
        const double most = far.empty() ? 0 : *std::max_element(far.begin(), far.end());
        std::vector<int> worst;
        if (most <= tooFar) return worst;
        for (std::size_t i = 0; i < far.size(); ++i)
            if (far[i] > most * (1 - alike)) worst.push_back(static_cast<int>(i));
        return worst;
    }

    void tell(const Fit& fit, MeasuredDonor& out) const {
        for (std::size_t j = 0; j < m_sizes.size(); ++j) {
            const auto column = static_cast<Eigen::Index>(j);
            if (fit.known[column] > 1 - determined)
                out.sizes.emplace_back(m_sizes[j].name, m_sizes[j].value + fit.change[column]);
            else {
                out.open.push_back(m_sizes[j].name);
                if (std::abs(fit.change[column]) > 1e-9)
                    out.shared.emplace_back(m_sizes[j].name, m_sizes[j].value + fit.change[column]);
            }
        }
        for (std::size_t i = 0; i < m_readings.size(); ++i) {
            const auto row = static_cast<Eigen::Index>(i);
            const Measure& m = measureOf(row);
            ReadingCheck check;
            check.leftOut = !m_used[i];
            const double change = m_matrix.row(row).dot(fit.change);
            check.fitted = valueOf(m.sum, m_sizes) + change * m.spread;
            check.residual = m_readings[i].value - check.fitted;
            check.redundancy = check.leftOut ? 1 : std::clamp(fit.redundancy[row], 0.0, 1.0);
            check.expected = check.redundancy > 1e-6 ? m_readings[i].value - check.residual / check.redundancy
                                                     : check.fitted;
            for (Eigen::Index j = 0; j < m_matrix.cols(); ++j)
                if (m_matrix(row, j) != 0 && fit.known[j] <= 1 - determined) check.says = false;
            out.checks.push_back(check);
        }
    }

    std::vector<Measure> m_sheet;
    std::vector<DonorSize> m_sizes;
    const std::vector<MeasureReading>& m_readings;
    Eigen::MatrixXd m_matrix; ///< in standard deviations of each reading
    Eigen::VectorXd m_wanted;
    Eigen::VectorXd m_scale; ///< how readily a size differs from the generic one
    std::vector<bool> m_used;
};

} // namespace

MeasuredDonor measured(const std::string& kind, const std::vector<MeasureReading>& readings) {
    return Adjuster(kind, readings).adjust();
}

} // namespace slab
