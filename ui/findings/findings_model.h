#pragma once
#include "core/base/finding.h"
#include "ui/session/session.h"
#include <QAbstractListModel>
#include <vector>

namespace slab::ui {

/// The punch list as rows. Only changed when asked: the card decides when the hand has stopped.
class FindingsModel : public QAbstractListModel {
    Q_OBJECT
public:
    using QAbstractListModel::QAbstractListModel;
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    void set(std::vector<Finding> findings);
    [[nodiscard]] const Finding& at(int row) const { return m_findings[static_cast<std::size_t>(row)]; }
    [[nodiscard]] int count(Severity severity) const;

private:
    std::vector<Finding> m_findings;
};

/// "blade-past-45" -> "Blade past 45".
[[nodiscard]] QString titleOf(const Finding& finding);
/// "stop", "look", "note" as the builder reads it.
[[nodiscard]] QString wordOf(Severity severity);
/// "1 stop", "2 looks".
[[nodiscard]] QString countWords(Severity severity, int count);
/// "code|first about", as in Selection::finding.
[[nodiscard]] QString keyOf(const Finding& finding);
/// What to choose in every view to show a finding's place.
[[nodiscard]] Selection placeOf(const Finding& finding, const Evaluation& evaluation);

} // namespace slab::ui
