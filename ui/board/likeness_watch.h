#pragma once
// Works the likeness plot out in the background.
#include "core/likeness/likeness.h"
#include "ui/session/runner.h"
#include "ui/session/session.h"
#include <QObject>
#include <functional>
#include <memory>
#include <optional>

namespace slab::ui {

/// Plates against likeness of the session's document. Works only while somebody looks, when the hand rests;
/// the latest document wins, and what is stale is never shown as current.
class LikenessWatch : public QObject {
    Q_OBJECT
public:
    /// Called on another thread.
    using Survey = std::function<LikenessSurvey(const Project&, const Job&)>;
    explicit LikenessWatch(Session* session, QObject* parent = nullptr);
    LikenessWatch(Session* session, Survey survey, QObject* parent = nullptr);
    ~LikenessWatch() override;

    void setLooking(bool on);
    /// The last survey; nothing before the first one.
    [[nodiscard]] const std::optional<LikenessSurvey>& survey() const { return m_survey; }
    [[nodiscard]] bool isCurrent() const; ///< it is of the document as it stands
    [[nodiscard]] bool working() const { return m_wanted.has_value(); }
    /// Waits until it is current (tests). @return false on time-out
    bool waitUntilCurrent(int milliseconds);

Q_SIGNALS:
    void changed();

private:
    void look();
    void take(const Project& key, LikenessSurvey survey);

    Session* m_session;
    Survey m_work;
    bool m_looking = false;
    std::optional<LikenessSurvey> m_survey;
    std::optional<Project> m_of, m_wanted; ///< what the survey is of, and what is being worked out
    std::unique_ptr<Runner> m_runner = std::make_unique<Runner>(true);
};

/// What the plot reads of a document; all else is left empty.
[[nodiscard]] Project likenessKey(const Project& project);

} // namespace slab::ui
