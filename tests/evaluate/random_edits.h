#pragma once
// A builder who adds, drags, copies, deletes and mistypes at random, on any document.
#include "core/document/edit.h"
#include <random>

namespace slab::test {

class RandomEdits {
public:
    explicit RandomEdits(std::uint64_t seed) : m_random(seed) {}

    /// A small body to begin with.
    [[nodiscard]] Project start();
    /// One edit; part of a drag if its merge key is not empty.
    [[nodiscard]] Edit next(const Project& project);
    [[nodiscard]] int below(int count) {
        return static_cast<int>(m_random() % static_cast<std::uint64_t>(count));
    }

private:
    std::mt19937_64 m_random;
    int m_made = 0;

    [[nodiscard]] double between(double from, double to) {
        return from + (to - from) * (static_cast<double>(m_random() >> 11U) * 0x1p-53);
    }
    [[nodiscard]] std::string mm(double from, double to);
    [[nodiscard]] std::string fresh(const char* stem) { return stem + std::to_string(++m_made); }
    template <class T>
    [[nodiscard]] std::string at(const char* list, const std::vector<T>& all) {
        return std::string(list) + "/" + std::to_string(below(static_cast<int>(all.size())));
    }
    [[nodiscard]] std::string form();
    [[nodiscard]] std::string place();
    [[nodiscard]] std::string plateOf(const Project& project);
    [[nodiscard]] Edit add(const Project& project);
    [[nodiscard]] Edit addRule(const Project& project);
    [[nodiscard]] Edit addPart(const Project& project);
    [[nodiscard]] Edit addCurve(const Project& project);
    [[nodiscard]] Edit addOpening(const Project& project);
    [[nodiscard]] Edit addWoodwork(const Project& project);
    [[nodiscard]] Edit addMechanism(const Project& project);
    [[nodiscard]] Edit addPaper(const Project& project); ///< a picture or a dimension line
    [[nodiscard]] Edit paste(const Project& project);
    [[nodiscard]] Edit changePart(const Project& project);
    [[nodiscard]] Edit removePart(const Project& project);
    [[nodiscard]] Edit remove(const Project& project);
    [[nodiscard]] Edit change(const Project& project);
    [[nodiscard]] Edit drag(const Project& project);
    [[nodiscard]] Edit mistype(const Project& project);
    [[nodiscard]] Edit rename(const Project& project);
};

} // namespace slab::test
