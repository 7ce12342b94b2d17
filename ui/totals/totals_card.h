#pragma once
#include "ui/theme/card.h"
#include <vector>

class QLabel;

namespace slab::ui {

class Session;

/// The four questions asked all day (how many sheets, how much, how heavy, how close), and a few more.
class TotalsCard : public Card {
    Q_OBJECT
public:
    explicit TotalsCard(Session* session, QWidget* parent = nullptr);

private:
    struct Row {
        QLabel* value;
        QLabel* note;
        QWidget* whole;
    };
    Row addRow(const QString& name, const QString& tip);
    void refresh();
    void refreshGap();
    static void set(const Row& row, const QString& name, const QString& value, const QString& note);

    Session* m_session;
    Row m_sheets, m_timber, m_cost, m_mass, m_gap, m_used, m_panels;
};

} // namespace slab::ui
