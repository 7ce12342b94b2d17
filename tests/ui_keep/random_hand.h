#pragma once
#include "core/document/edit.h"
#include <random>

namespace slab::ui::test {

struct Step {
    enum class Kind { edit, undo, redo, save, flush };
    Kind kind = Kind::edit;
    Edit edit{};
    bool drags = false; ///< more of the same drag may follow
};

/// A builder who does anything at any time; the same steps for the same seed.
class RandomHand {
public:
    explicit RandomHand(std::uint64_t seed) : m_random(seed) {}
    [[nodiscard]] Step next(const History& history);
    [[nodiscard]] int below(int count) {
        return static_cast<int>(m_random() % static_cast<std::uint64_t>(count));
    }

private:
    std::mt19937_64 m_random;
    int m_made = 0, m_dragLeft = 0;
    bool m_dragsCorner = false; ///< else the scale
    std::size_t m_corner = 0;

    [[nodiscard]] Edit anyEdit(const Project& project);
    [[nodiscard]] Edit addition(const Project& project, const std::string& number);
    [[nodiscard]] Edit removal(const Project& project);
    [[nodiscard]] Edit corner(const Project& project);
    [[nodiscard]] Edit dragged(const Project& project);
    [[nodiscard]] std::string length();
};

/// Does the step in a history.
void play(const Step& step, History& history);

} // namespace slab::ui::test
