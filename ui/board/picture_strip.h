#pragma once
#include "ui/board/field_strip.h"

class QComboBox;
class QSlider;
class QToolButton;

namespace slab::ui {

class BoardCanvas;

/// The chosen reference picture: how strong it shows, to which elevation it belongs, and what is marked on
/// it.
class PictureStrip : public QWidget {
    Q_OBJECT
public:
    explicit PictureStrip(BoardCanvas* canvas, QWidget* parent = nullptr);
    [[nodiscard]] bool serves() const;
    void begin(const QString& typed);

Q_SIGNALS:
    void done();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void refresh();
    void giveRoom(); ///< the words as wide as they need, within the strip
    void take(StripEntry* entry, const char* key);
    void mark(int deed);
    void cutViews();
    void swapSides();
    void level(const char* angle);
    void toggleHidden();
    [[nodiscard]] std::string at(const char* key) const;
    QToolButton* button(const QString& words, const QString& tip, std::function<void()> deed);

    BoardCanvas* m_canvas;
    class ElidedLabel* m_heading;
    class QLabel* m_words; ///< how it is to scale, and how surely
    StripEntry *m_distance, *m_width, *m_height;
    QComboBox *m_view, *m_space;
    QSlider* m_opacity;
    QToolButton* m_hide = nullptr;
};

} // namespace slab::ui
