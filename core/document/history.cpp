#include "core/document/edit.h"
#include "core/document/texts.h"

namespace slab {
namespace {

constexpr std::size_t kNever = static_cast<std::size_t>(-1);
constexpr std::size_t kMostSteps = 2000;
constexpr std::size_t kFewestSteps = 500;                   ///< kept whatever they weigh …
constexpr std::size_t kMostMemory = std::size_t{256} << 20; ///< … beyond that only within this much memory

} // namespace

History::History(Project first) {
    m_steps.push_back({std::move(first), {}, {}, 0});
}

const Project& History::current() const {
    return m_steps[m_at].project;
}

Expected<void> History::push(const Edit& edit) {
    auto next = edit.apply(current());
    if (!next) return tl::make_unexpected(std::move(next.error()));
    if (*next == current()) return {};
    const bool merges = !m_settled && !edit.merge.empty() && m_at > 0 && m_steps[m_at].merge == edit.merge;
    if (m_saved != kNever && (m_saved > m_at || (merges && m_saved == m_at))) m_saved = kNever;
    while (m_steps.size() > m_at + 1) {
        m_bytes -= m_steps.back().bytes;
        m_steps.pop_back();
    }
    Step step{std::move(*next), edit.label, edit.merge, 0};
    step.bytes = detail::bytesOf(step.project);
    m_bytes += step.bytes;
    if (merges) {
        m_bytes -= m_steps[m_at].bytes;
        m_steps[m_at] = std::move(step);
    } else {
        m_steps.push_back(std::move(step));
        ++m_at;
        forget();
    }
    m_settled = false;
    ++m_revision;
    return {};
}

/// Drops the oldest steps beyond what is worth its memory.
void History::forget() {
    while (m_steps.size() > kMostSteps || (m_steps.size() > kFewestSteps + 1 && m_bytes > kMostMemory)) {
        m_bytes -= m_steps.front().bytes;
        m_steps.pop_front();
        --m_at;
        if (m_saved != kNever) m_saved = m_saved == 0 ? kNever : m_saved - 1;
    }
}

void History::settle() {
    m_settled = true;
}

bool History::undo() {
    if (!canUndo()) return false;
    --m_at;
    m_settled = true;
    ++m_revision;
    return true;
}

bool History::redo() {
    if (!canRedo()) return false;
    ++m_at;
    m_settled = true;
    ++m_revision;
    return true;
}

bool History::canUndo() const {
    return m_at > 0;
}
bool History::canRedo() const {
    return m_at + 1 < m_steps.size();
}
std::string History::undoLabel() const {
    return canUndo() ? m_steps[m_at].label : std::string{};
}
std::string History::redoLabel() const {
    return canRedo() ? m_steps[m_at + 1].label : std::string{};
}

void History::markSaved() {
    m_saved = m_at;
    m_settled = true; // the saved state stays a step of its own
}

bool History::isSaved() const {
    return m_saved == m_at;
}
std::uint64_t History::revision() const {
    return m_revision;
}

} // namespace slab
