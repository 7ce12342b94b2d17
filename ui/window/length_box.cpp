#include "ui/window/length_box.h"
#include <algorithm>

namespace slab::ui {

namespace {

double stepOf(const UnitStyle& units) {
    return isInch(units) ? unitFactor(Unit::in) / std::max(1, units.denominator) : 1;
}

} // namespace

LengthBox::LengthBox(double value, double most, const UnitStyle& units, QWidget* parent)
    : QDoubleSpinBox(parent), m_units(units) {
    setRange(0, most);
    setDecimals(4); // mm; 1/64 in is 0.396875 mm
    setSingleStep(stepOf(units));
    setValue(value);
}

QString LengthBox::textFromValue(double mm) const {
    return QString::fromStdString(printThickness(mm, m_units));
}

double LengthBox::valueFromText(const QString& text) const {
    return parseLength(text.toStdString(), m_units.unit == Unit::ft ? Unit::in : m_units.unit)
        .value_or(value());
}

QValidator::State LengthBox::validate(QString& text, int&) const {
    const auto mm = parseLength(text.toStdString(), m_units.unit == Unit::ft ? Unit::in : m_units.unit);
    return mm && *mm >= minimum() && *mm <= maximum() ? QValidator::Acceptable : QValidator::Intermediate;
}

} // namespace slab::ui
