#pragma once
#include "core/picture/edits.h"
#include "ui/board/board_tool.h"

namespace slab::ui {

/// Marks one picture: two points of a known distance, four corners of a known rectangle, its crop, a feature,
/// a line that measures.
class PictureTool : public BoardTool {
public:
    enum class Deed { distance, corners, crop, feature, line };
    PictureTool(BoardCanvas& canvas, int picture, Deed deed);
    [[nodiscard]] QString words() const override;
    [[nodiscard]] BoardPrompt prompt() const override;
    void press(const BoardPointer& pointer) override;
    void move(const BoardPointer& pointer) override;
    void drag(const BoardPointer& pointer) override;
    void release(const BoardPointer& pointer) override;
    bool key(QKeyEvent& event) override;
    bool cancel() override;
    void paint(QPainter& painter) const override;
    [[nodiscard]] std::optional<BoardView> keepsTo() const override;
    [[nodiscard]] Deed deed() const { return m_deed; }
    /// What is typed for it: the distance, or the rectangle's sides.
    void setFigures(const QString& first, const QString& second);

private:
    [[nodiscard]] std::optional<Vec2> pixelAt(const BoardPointer& pointer) const;
    [[nodiscard]] std::size_t wanted() const;
    [[nodiscard]] bool checks() const; ///< the two points check a picture that is rectified already
    void finish();
    /// Tries the marks out; what makes them useless is told. @return false if they are of no use
    [[nodiscard]] bool holds(const Edit& marked) const;
    [[nodiscard]] Edit edit() const;
    /// Says so where the screen is coarser than the picture.
    [[nodiscard]] QString coarseWords() const;
    /// Pixels of the picture to one of the screen where something was marked.
    [[nodiscard]] double coarsenessAt(const Vec2& pixel) const;
    /// The marks' error, as text, if the screen is coarser than the picture says; empty if it is not.
    [[nodiscard]] std::string coarseError() const;

    int m_picture;
    Deed m_deed;
    std::vector<Vec2> m_pixels;
    std::optional<Vec2> m_pointer;
    QString m_first, m_second;
};

} // namespace slab::ui
