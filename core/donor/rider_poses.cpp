#include "core/donor/people.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

/// "leaning forward 20.0° and left 10.0°, hands on the thighs"
std::string leanWords(const Posture& p) {
    std::string words;
    const auto add = [&](double by, const char* way, const char* back) {
        if (by == 0) return;
        words += (words.empty() ? "leaning " : " and ") + std::string(by > 0 ? way : back) + " " +
                 printAngle(std::abs(by));
    };
    add(p.forward, "forward", "back");
    add(p.left, "left", "right");
    if (p.lap) words += words.empty() ? "hands on the thighs" : ", hands on the thighs";
    return words;
}

/// The ends and middles of a range about rest, rest first.
std::vector<double> stations(double down, double up) {
    std::vector<double> all{0};
    for (const double end : {up, -down})
        if (end != 0) {
            all.push_back(end);
            all.push_back(end / 2);
        }
    return all;
}

class Posing {
public:
    Posing(const RiderFigures& figures, const Seat& seat, const std::vector<FitSolid>& body)
        : m_figures(figures), m_seat(seat), m_body(body) {}

    /// Greatest distance by which a hand misses its place, mm.
    [[nodiscard]] double shortOf(const Posture& posture) const {
        double missed = 0;
        (void)riderSolids(m_figures, m_seat, missed, posture);
        return missed;
    }
    void add(const Posture& posture, std::string words) {
        double missed = 0;
        DonorPose pose;
        pose.words = std::move(words);
        for (FitSolid& s : riderSolids(m_figures, m_seat, missed, posture)) {
            const auto same = std::find_if(m_body.begin(), m_body.end(),
                                           [&](const FitSolid& b) { return b.name == s.name; });
            if (same == m_body.end() || same->shape == s.shape) continue;
            s.clearance = same->clearance;
            s.note = same->note;
            pose.solids.push_back(std::move(s));
        }
        if (!pose.solids.empty()) m_poses.push_back(std::move(pose));
    }
    [[nodiscard]] std::vector<DonorPose> take() { return std::move(m_poses); }

private:
    const RiderFigures& m_figures;
    const Seat& m_seat;
    const std::vector<FitSolid>& m_body;
    std::vector<DonorPose> m_poses;
};

/// Who reaches the controls at rest leans as far as the hands need to go along with them.
/// @return in words; empty for who need not lean
std::string leanToReach(const Posing& posing, const Posture& rest, Posture& pose) {
    constexpr double step = 2.5 * std::numbers::pi / 180;
    constexpr int most = 16; // 40°
    constexpr double missed = 1;
    if (posing.shortOf(rest) > missed) return {};
    for (int i = 0; i <= most; ++i) {
        Posture tried = pose;
        tried.forward = i * step;
        if (posing.shortOf(tried) > missed) continue;
        pose = tried;
        break;
    }
    return leanWords(pose);
}

} // namespace

std::vector<DonorPose> riderPoses(const RiderFigures& figures, const Seat& seat, const Posture& rest,
                                  const Leans& leans, const std::vector<FitSolid>& body) {
    Posing posing(figures, seat, body);
    for (const bool lap : {false, true})
        for (const double forward : stations(leans.back, leans.forward))
            for (const double left : stations(leans.aside, leans.aside)) {
                Posture p = rest;
                p.forward = forward;
                p.left = left;
                p.lap = lap;
                if (p != rest) posing.add(p, leanWords(p));
            }
    if (seat.helmTurn > 0)
        for (const double share : {1.0, 0.5, -0.5, -1.0}) {
            Posture p = rest;
            p.helm = share * seat.helmTurn;
            const std::string words = std::string("steering ") + (std::abs(share) < 1 ? "half " : "") +
                                      (share > 0 ? "left" : "right");
            const std::string leaning = leanToReach(posing, rest, p);
            posing.add(p, words + (leaning.empty() ? "" : ", " + leaning));
        }
    return posing.take();
}

} // namespace slab
