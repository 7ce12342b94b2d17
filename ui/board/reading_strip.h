#pragma once
#include "core/picture/place.h"
#include <QWidget>

class QCheckBox;
class QComboBox;
class QLineEdit;
class QToolButton;

namespace slab::ui {

class BoardCanvas;
class StripEntry;

/// The chosen line on a picture: its length with its uncertainty, which size of the donor it is, and taking
/// that size over into the document.
class ReadingStrip : public QWidget {
    Q_OBJECT
public:
    explicit ReadingStrip(BoardCanvas* canvas, QWidget* parent = nullptr);
    [[nodiscard]] bool serves() const { return line() != nullptr; }
    [[nodiscard]] QComboBox* sizes() const { return m_size; }
    [[nodiscard]] QCheckBox* widen() const { return m_widen; }
    [[nodiscard]] QToolButton* takeButton() const { return m_take; }
    [[nodiscard]] StripEntry* depth() const { return m_depth; } ///< in front of the sheet by …
    [[nodiscard]] StripEntry* depthError() const { return m_depthError; }
    [[nodiscard]] QString words() const; ///< "412 ± 3 mm", with what all lines of the size give together

Q_SIGNALS:
    void done();

private:
    [[nodiscard]] const PlacedPicture* picture() const;
    [[nodiscard]] const PlacedLine* line() const;
    [[nodiscard]] const MeasuredSize* measured() const;
    [[nodiscard]] std::string at(const char* key) const;
    void buildDepth(class FlowLayout* row);
    void refresh();
    void takeDepth(StripEntry* entry, const char* key);
    void chooseSize(const std::string& size);
    void take();

    BoardCanvas* m_canvas;
    class ElidedLabel *m_heading, *m_words, *m_plane;
    StripEntry *m_depth = nullptr, *m_depthError = nullptr;
    QLineEdit* m_name;
    QComboBox* m_size;
    QCheckBox* m_widen;
    QToolButton *m_take, *m_remove;
};

} // namespace slab::ui
