#pragma once
#include "core/base/finding.h"
#include "ui/theme/card.h"

class QListView;

namespace slab::ui {

class FindingsModel;
class Session;

/// The punch list. It settles when the hand stops; while something is dragged, it stays as it was.
class FindingsCard : public Card {
    Q_OBJECT
public:
    explicit FindingsCard(Session* session, QWidget* parent = nullptr);
    [[nodiscard]] QListView* list() const { return m_list; }
    [[nodiscard]] int count(Severity severity) const;

Q_SIGNALS:
    /// A finding was chosen that names this place in the document ("/forms/0") or this subject
    /// ("stock:xps_13").
    void placeWanted(const QString& about);
    /// A finding was clicked, or return pressed on it: the first thing that it is about.
    void openWanted(const QString& about);
    /// The list has settled.
    void counted();

public:
    [[nodiscard]] const FindingsModel& model() const { return *m_model; }
    /// As if it had been clicked.
    void choose(int row);

private:
    void refresh();
    void open(int row);
    void showSelected();

    Session* m_session;
    FindingsModel* m_model;
    QListView* m_list;
    class EmptyState* m_empty;
    bool m_showing = false; ///< the selection is being set from outside
};

} // namespace slab::ui
