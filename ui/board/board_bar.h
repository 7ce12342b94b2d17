#pragma once
#include <QMap>
#include <QString>
#include <QWidget>

class QMenu;
class QToolButton;

namespace slab::ui {

/// The board's tools as words, each with a small drawing and its letter.
class BoardBar : public QWidget {
    Q_OBJECT
public:
    explicit BoardBar(QWidget* parent = nullptr);
    /// The tool in hand: "choose", "profile" …
    void mark(const QString& tool);
    void setGrid(bool on);
    void setLikeness(bool on);
    [[nodiscard]] QToolButton* button(const QString& name) const { return m_buttons.value(name); }
    /// The tool of a letter; empty = none.
    [[nodiscard]] static QString toolFor(const QString& letter);
    [[nodiscard]] QMenu* deeds() const { return m_deeds; } ///< what can be done to what is chosen
    [[nodiscard]] QMenu* shown() const { return m_shown; } ///< what is seen

Q_SIGNALS:
    void toolWanted(const QString& tool);
    void pictureWanted();
    void gridWanted(bool on);
    void fitWanted();
    void likenessWanted(bool on);

protected:
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QToolButton* add(const QString& name, const QString& words, const QString& key, const QString& tip);
    void redraw();
    QMap<QString, QToolButton*> m_buttons;
    QMenu *m_deeds, *m_shown;
    int m_needed = 0; ///< px for all words and drawings in one row
    bool m_compact = false;
};

} // namespace slab::ui
