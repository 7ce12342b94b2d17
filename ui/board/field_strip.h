#pragma once
#include "ui/board/strip_fields.h"
#include "ui/tables/formula_edit.h"
#include <QLabel>
#include <QPointer>
#include <QWidget>

namespace slab::ui {

class FlowLayout;

/// A line to type a formula into, with its name before it and what it builds behind it.
class StripEntry : public QWidget {
    Q_OBJECT
public:
    StripEntry(const QString& label, const QStringList& names, QWidget* parent = nullptr);
    [[nodiscard]] FormulaEdit* edit() const { return m_edit; }
    [[nodiscard]] QString label() const { return m_name; }
    void rename(const QString& label);
    ~StripEntry() override;
    void setLeast(int px); ///< no narrower than that
    void hold(int px);     ///< keeps this width, whatever is typed
    /// Keeps room for what is built, so that nothing behind it moves while it is typed.
    void holdBuilt();
    [[nodiscard]] QLabel* built() const { return m_built; } ///< what it builds, or why it does not
    /// Shows a text, unless the builder is typing another one.
    void show(const QString& text, bool differ = false);
    void tell(const Reading& reading);
    /// Typed since it was shown?
    [[nodiscard]] bool isTyped() const;
    void restore(); ///< gives up what was typed

Q_SIGNALS:
    void typed(const QString& text);
    void entered(); ///< return: this is it, go on
    void left();    ///< the focus went elsewhere
    void givenUp(); ///< escape

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    void grow(); ///< as wide as its text, within bounds, unless it is held
    void say();  ///< a reason that is longer than its room, over the line while it is typed
    bool m_held = false;
    int m_least = 112;
    int m_builtRoom = 0; ///< px; 0: as wide as it needs
    QString m_name, m_shown, m_trouble;
    FormulaEdit* m_edit;
    QPointer<QLabel> m_reason;
    QLabel *m_built, *m_label;
};

/// The figures of what is chosen, as typed, with what they build. Tab or return goes on to the next; the last
/// return goes back to the sheet.
class FieldStrip : public QWidget {
    Q_OBJECT
public:
    explicit FieldStrip(BoardDesk* desk, QWidget* parent = nullptr);
    /// The first field takes the keys; `typed` replaces what stands there.
    void begin(const QString& typed);
    [[nodiscard]] bool hasFields() const { return !m_entries.empty(); }
    [[nodiscard]] const std::vector<StripEntry*>& entries() const { return m_entries; }

Q_SIGNALS:
    void done(); ///< the sheet takes the keys again

private:
    void refresh();
    void rebuild();
    bool take(std::size_t index);
    void goOn(std::size_t index);

    BoardDesk* m_desk;
    StripContent m_content;
    std::vector<StripEntry*> m_entries;
    class ElidedLabel* m_heading;
    FlowLayout* m_row;
};

} // namespace slab::ui
