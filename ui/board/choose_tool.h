#pragma once
#include "ui/board/board_tool.h"
#include "ui/board/crop_box.h"
#include <memory>

namespace slab::ui {

/// Chooses points, edges, forms and dimension lines, and drags them. A drag is one step to undo; Alt frees it
/// from everything that it would snap to; Ctrl lets a coordinate that is the name of a dimension change that
/// dimension.
class ChooseTool : public BoardTool {
public:
    explicit ChooseTool(BoardCanvas& canvas);
    ~ChooseTool() override;
    [[nodiscard]] QString words() const override;
    void press(const BoardPointer& pointer) override;
    void move(const BoardPointer& pointer) override;
    void drag(const BoardPointer& pointer) override;
    void release(const BoardPointer& pointer) override;
    void doubleClick(const BoardPointer& pointer) override;
    bool key(QKeyEvent& event) override;
    bool cancel() override;
    void leave() override { cancelGesture(); }
    void paint(QPainter& painter) const override;
    [[nodiscard]] Qt::CursorShape cursor(const BoardPointer& pointer) const override;

    /// What a click at a place would take.
    struct Hit {
        /// crop: a side of the chosen picture; reading: a line that measures on it.
        enum class What {
            nothing,
            point,
            edge,
            dimension,
            solid,
            picture,
            crop,
            reading,
            part, ///< a frame, an opening, a mechanism by its outline; `edge` is its place in the document
            mark, ///< a mechanism by its sign, likewise
            grip  ///< a handle of the chosen mechanism; `edge` is that of what it belongs to
        } what = What::nothing;
        PointRef point;
        std::string edge;
        int index = -1;        ///< in the list of its kind
        bool mirrored = false; ///< a copy: `point` and `edge` are those of the original
        BoxGrip grip{};
        bool operator==(const Hit&) const = default;
    };
    [[nodiscard]] Hit hitAt(BoardView view, const Vec2& at) const;
    [[nodiscard]] std::string under() const override { return m_under; }

private:
    struct Drag;
    [[nodiscard]] Hit pointHit(const BoardElevation& e, const Vec2& at, bool mirrored) const;
    [[nodiscard]] std::string shapeUnder(const Hit& hit, BoardView view, const Vec2& at) const;
    [[nodiscard]] Hit mirroredHit(const BoardElevation& e, const Vec2& at) const;
    [[nodiscard]] Hit pictureHit(BoardView view, const Vec2& at) const;
    [[nodiscard]] Hit partHit(BoardView view, const Vec2& at) const;
    [[nodiscard]] Hit withinPart(BoardView view, const Vec2& at) const;
    [[nodiscard]] Hit gripHit(BoardView view, const Vec2& at) const;
    [[nodiscard]] Hit markHit(BoardView view, const Vec2& at) const;
    [[nodiscard]] bool isMechanism(const Hit& hit) const;
    [[nodiscard]] QString wordsOfMechanism() const;
    void chooseMechanism(const Hit& hit, BoardView view);
    void beginGrip(BoardView view);
    void dragGrip(const BoardPointer& pointer);
    void paintMechanism(QPainter& painter, const BoardElevation& e) const;
    void choosePart(const Hit& hit, BoardView view);
    void beginPart(BoardView view);
    void dragPart(const BoardPointer& pointer);
    void paintPart(QPainter& painter, const BoardElevation& e) const;
    void choose(const Hit& hit, const BoardPointer& pointer, bool more);
    [[nodiscard]] bool wasChosen(const Hit& hit, BoardView view) const;
    void begin(const BoardPointer& pointer);
    void dragPicture(const BoardPointer& pointer);
    void dragCrop(const BoardPointer& pointer);
    void dragDimension(const BoardPointer& pointer);
    bool arrowKey(QKeyEvent& event);
    bool cancelGesture();

    Hit m_hover, m_pressed;
    std::string m_under; ///< name of the region under the pointer
    BoardPointer m_from;
    bool m_more = false, m_wasChosen = false;
    bool m_down = false; ///< the button went down on this tool
    std::unique_ptr<Drag> m_drag;
    std::optional<Box2> m_band; ///< rubber band, in the view
    int m_gestures = 0;
};

/// The two ends of an edge of an elevation; empty if they cannot be held.
[[nodiscard]] std::vector<PointRef> endsOf(const BoardElevation& e, int edge);

} // namespace slab::ui
