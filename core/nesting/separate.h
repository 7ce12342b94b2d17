#pragma once
// Overlap minimisation: parts may overlap for a while; weights on stubborn pairs drive them apart.
#include "core/nesting/construct.h"
#include "core/nesting/random.h"

namespace slab::nesting {

/// A sheet or strip that bodies may stand on; any number.
struct Arena {
    double x0 = 0, y0 = 0, x1 = 0, y1 = 0; ///< inside the trim, mm
    std::string stock;
    bool operator==(const Arena&) const = default;
};
struct Body {
    int item = 0;
    int oriented = 0;
    int arena = 0;
    Pt at;
};

/// Guided local search over overlaps.
///
/// Two bodies that overlap have a severity: the least shift that parts them (exact, from the no-fit polygon)
/// times a size factor. Each pair has a weight. One pass moves every overlapping body to the best of sampled
/// and refined places; weights of pairs that still overlap then grow, others fade.
/// @source  guided local search for nesting: J. Egeblad, B. Nielsen, A. Odgaard (EJOR 183, 2007); sampling
/// and
///          weights: J. Gardeyn, G. Vanden Berghe, T. Wauters (arXiv 2509.13329, 2025)
class Separator {
public:
    Separator(const Task& task, std::uint64_t seed);
    /// Starts from these bodies, weights reset; bodies outside their arena are pulled in.
    void load(std::vector<Body> bodies, std::vector<Arena> arenas);
    /// Same bodies elsewhere, weights kept.
    void restore(const std::vector<Body>& bodies);
    /// New arena bounds (same count); bodies are pulled in, weights kept.
    void resize(const std::vector<Arena>& arenas);
    /// One pass and one change of weights. @return remaining severity, 0 = parted
    double pass();
    /// Puts a body somewhere else.
    void put(std::size_t body, int oriented, int arena, Pt at);
    [[nodiscard]] double severity() const { return m_total; }
    [[nodiscard]] const std::vector<Body>& bodies() const { return m_bodies; }
    [[nodiscard]] const std::vector<Arena>& arenas() const { return m_arenas; }
    [[nodiscard]] Random& random() { return m_random; }
    /// Nearest position inside the arena.
    [[nodiscard]] Pt pulledIn(int oriented, int arena, Pt at) const;
    [[nodiscard]] bool fits(int oriented, int arena) const;

private:
    struct Trial {
        double cost = 0;
        int oriented = 0, arena = 0;
        Pt at;
    };
    [[nodiscard]] double pairSeverity(int a, Pt atA, int b, Pt atB) const;
    [[nodiscard]] double cost(std::size_t body, const Trial& trial, double bound) const;
    void place(std::size_t body, int oriented, int arena, Pt at);
    void measure();
    void measureOne(std::size_t body);
    void addUp();
    void setPair(std::size_t i, std::size_t j, double severity);
    void moveBest(std::size_t body);
    void sample(std::size_t body, std::vector<Trial>& best);
    void exits(std::size_t body, std::vector<Trial>& best);
    void refine(std::size_t body, Trial& trial);
    void keep(std::vector<Trial>& best, const Trial& trial) const;
    void changeWeights();

    const Task& m_task;
    Random m_random;
    std::vector<Body> m_bodies;
    std::vector<Arena> m_arenas;
    std::vector<Extent> m_reach;               ///< of each body where it stands
    std::vector<double> m_weights, m_severity; ///< count x count, symmetric
    double m_total = 0;
};

} // namespace slab::nesting
