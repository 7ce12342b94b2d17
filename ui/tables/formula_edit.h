#pragma once
#include <QLineEdit>
#include <QStringList>

class QCompleter;

namespace slab::ui {

/// A line for a formula: proposes the name that is being typed, anywhere in the line.
class FormulaEdit : public QLineEdit {
    Q_OBJECT
public:
    FormulaEdit(const QStringList& names, QWidget* parent);
    [[nodiscard]] bool proposing() const; ///< names are offered; return and tab take one

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    void propose();
    void take(const QString& name);
    [[nodiscard]] int wordStart() const;

    QCompleter* m_completer;
};

} // namespace slab::ui
