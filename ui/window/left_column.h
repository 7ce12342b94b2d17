#pragma once
#include "ui/theme/card.h"
#include <vector>

namespace slab::ui {

class PlatesTable;
class TableSection;
class Session;
class SideColumn;

/// Everything that can be typed: dimensions, forms, plates, joints, openings, donor, stock, document.
class LeftColumn : public Card {
    Q_OBJECT
public:
    explicit LeftColumn(Session* session, QWidget* parent = nullptr);
    void setFolded(bool folded);
    /// Shows the place of a finding: "document:/forms/0", "stock:xps_13", "dimension:beam", "form:hull".
    void reveal(const QString& about);
    /// Shows the table that holds this pointer and what can be added to it.
    void offer(const std::string& pointer);
    void focusTable(); ///< of the section in front
    [[nodiscard]] const std::vector<TableSection*>& sections() const { return m_sections; }

protected:
    void showEvent(QShowEvent* event) override;

private:
    QString m_awaited; ///< revealed while out of sight
    void showPart(const std::string& pointer);
    Session* m_session;
    SideColumn* m_parts;
    std::vector<TableSection*> m_sections;
    PlatesTable* m_plates = nullptr;
};

} // namespace slab::ui
