#pragma once
#include "ui/theme/card.h"
#include <memory>

class QLabel;
class QLineEdit;
class QToolButton;

namespace slab::ui {

class Session;
class MarginPlot;
class RuleStrip;

/// The scale: typed entry, built size, and the long rule with bands, ticks, sheet steps and a handle.
class ScaleRuler : public Card {
    Q_OBJECT
public:
    explicit ScaleRuler(Session* session, QWidget* parent = nullptr);
    /// Only the typed scale and the rule itself stay, where height is short.
    void setFolded(bool folded);
    /// Unfolds what is to spare over the scale above the rule, or folds it away.
    void showPlot(bool shown);
    [[nodiscard]] bool showsPlot() const { return m_plotShown; }
    [[nodiscard]] RuleStrip* rule() const { return m_rule; }
    [[nodiscard]] MarginPlot* plot() const { return m_plot; }
    [[nodiscard]] QLineEdit* entry() const { return m_entry; }

Q_SIGNALS:
    void roomWanted(); ///< what is to spare is asked for while it is folded away

private:
    void typed();
    void sayWhy();
    void refreshScale();
    void refreshBuilt();
    void refreshLeast();
    void refreshPick();
    void refold();
    void markWrong(const QString& why);

    Session* m_session;
    RuleStrip* m_rule;
    MarginPlot* m_plot;
    QLineEdit* m_entry;
    QLabel* m_built;
    QLabel* m_state;
    QToolButton *m_least, *m_pick, *m_curves, *m_why;
    bool m_folded = false, m_plotShown = false;
};

/// "built 7′ 5-1/4″ long, 2′ 7-1/2″ wide, 4′ 1″ high"; empty while there is no body.
[[nodiscard]] QString builtSize(const Session& session);
/// Panels that the layout shown found no sheet for.
[[nodiscard]] int panelsTooLarge(const Session& session);

} // namespace slab::ui
