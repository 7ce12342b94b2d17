#pragma once
#include "core/units/units.h"
#include <QDoubleSpinBox>

namespace slab::ui {

/// A short length, shown and typed in the document's unit ("3/8″", "10 mm"); any unit may be typed. Its value
/// is in mm. Steps are 1 mm, or the style's fraction of an inch.
class LengthBox : public QDoubleSpinBox {
    Q_OBJECT
public:
    /// @param value  mm
    /// @param most   mm; the least is 0
    LengthBox(double value, double most, const UnitStyle& units, QWidget* parent = nullptr);

    [[nodiscard]] QString textFromValue(double mm) const override;
    [[nodiscard]] double valueFromText(const QString& text) const override;
    QValidator::State validate(QString& text, int& position) const override;

private:
    UnitStyle m_units;
};

} // namespace slab::ui
