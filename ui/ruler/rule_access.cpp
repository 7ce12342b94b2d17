#include "ui/ruler/rule_access.h"
#include "ui/ruler/rule_strip.h"
#include <QAccessible>
#include <QAccessibleWidget>

namespace slab::ui {

namespace {

/// The rule as a slider: its value is the scale, its words are what the builder would read off the rule
/// there.
class RuleAccess : public QAccessibleWidget, public QAccessibleValueInterface {
public:
    explicit RuleAccess(RuleStrip* rule) : QAccessibleWidget(rule, QAccessible::Slider), m_rule(rule) {}

    QString text(QAccessible::Text kind) const override {
        return kind == QAccessible::Value ? m_rule->wordsAt(m_rule->scale()) : QAccessibleWidget::text(kind);
    }
    void* interface_cast(QAccessible::InterfaceType type) override {
        if (type == QAccessible::ValueInterface) return static_cast<QAccessibleValueInterface*>(this);
        return QAccessibleWidget::interface_cast(type);
    }
    QVariant currentValue() const override { return m_rule->scale(); }
    void setCurrentValue(const QVariant& value) override { m_rule->setTo(value.toDouble()); }
    QVariant minimumValue() const override { return m_rule->range().first; }
    QVariant maximumValue() const override { return m_rule->range().second; }
    QVariant minimumStepSize() const override { return m_rule->smallStep(); }

private:
    RuleStrip* m_rule;
};

QAccessibleInterface* accessFor(const QString&, QObject* object) {
    if (auto* rule = qobject_cast<RuleStrip*>(object)) return new RuleAccess(rule);
    return nullptr;
}

} // namespace

void speakForRules() {
    static const bool once = [] {
        QAccessible::installFactory(accessFor);
        return true;
    }();
    static_cast<void>(once);
}

} // namespace slab::ui
