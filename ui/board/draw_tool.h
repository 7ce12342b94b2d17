#pragma once
#include "ui/board/board_tool.h"

namespace slab::ui {

/// What the strip says of a form that is being drawn; all as typed, empty = a sensible value.
struct DrawFigures {
    QString name;
    QString size; ///< half width, height, radius or depth
    QString from; ///< where it starts across the view
    bool operator==(const DrawFigures&) const = default;
};

/// Words for what the kinds of forms need.
struct DrawKind {
    const char* kind;     ///< "profile"
    const char* label;    ///< "Profile"
    const char* key;      ///< "P"
    const char* sizeWord; ///< "half width"
    const char* fromWord; ///< nullptr = none
    const char* tip;
};
[[nodiscard]] const std::vector<DrawKind>& drawKinds();

/// A corner as it was clicked, or as it was typed.
struct DrawnPlace {
    Vec2 at = Vec2::Zero();
    QString right, up; ///< typed formulas; empty = clicked
};

/// Draws a new form: corner by corner, or a box (a circle) in one drag. Enter, a double click or a click on
/// the first corner closes it; backspace takes the last corner back.
class DrawTool : public BoardTool {
public:
    DrawTool(BoardCanvas& canvas, std::string kind);
    [[nodiscard]] QString words() const override;
    [[nodiscard]] BoardPrompt prompt() const override;
    void press(const BoardPointer& pointer) override;
    void move(const BoardPointer& pointer) override;
    void drag(const BoardPointer& pointer) override;
    void release(const BoardPointer& pointer) override;
    void doubleClick(const BoardPointer& pointer) override;
    bool key(QKeyEvent& event) override;
    bool cancel() override;
    void paint(QPainter& painter) const override;
    [[nodiscard]] bool takesPlaces() const override { return true; }
    [[nodiscard]] std::optional<BoardView> keepsTo() const override;
    [[nodiscard]] bool takesNames() const override { return !m_places.empty(); }
    void place(BoardView view, const Vec2& at) override;
    [[nodiscard]] std::optional<Vec2> last() const override;

    [[nodiscard]] const DrawKind& kind() const { return *m_kind; }
    [[nodiscard]] BoardView view() const { return m_view; }
    void setFigures(DrawFigures figures) { m_figures = std::move(figures); }
    [[nodiscard]] const DrawFigures& figures() const { return m_figures; }
    /// A corner whose coordinates are kept as typed. @error what evaluate() says of them
    [[nodiscard]] Expected<void> placeTyped(const QString& right, const QString& up);
    /// Figures typed for the next corner: a click gives only what they leave open.
    void hold(const QString& right, const QString& up);
    [[nodiscard]] bool canFinish() const;
    /// Makes the form. @return false if it cannot be made, which is told
    bool finish();
    [[nodiscard]] std::size_t count() const { return m_places.size(); }

private:
    [[nodiscard]] bool isRound() const { return m_kind->kind == std::string_view("round"); }
    [[nodiscard]] bool allowed(BoardView view) const;
    [[nodiscard]] Vec2 met(const BoardPointer& pointer);
    /// The pointer's place, with what is held for it.
    [[nodiscard]] DrawnPlace clicked(const Vec2& at) const;
    void add(BoardView view, DrawnPlace place);
    [[nodiscard]] std::vector<Vec2> draft() const; ///< with the pointer
    void paintSizes(QPainter& painter, const std::vector<Vec2>& line) const;

    const DrawKind* m_kind;
    BoardView m_view = BoardView::side;
    std::vector<DrawnPlace> m_places;
    std::optional<Vec2> m_pointer; ///< where the next corner would come
    std::optional<Vec2> m_boxFrom; ///< dragging a box or a circle
    QPointF m_pressed;
    bool m_closing = false;
    double m_radius = 0; ///< of a round form, drawn
    DrawFigures m_figures;
    QString m_right, m_up; ///< held for the next corner; empty = the pointer's
};

/// The edit that DrawTool makes: addForm, with what was typed put back as it was typed. A round form whose
/// two places are one (a circle) stands along the line of sight, as long as it is thick.
[[nodiscard]] Expected<Edit> drawnForm(const Project& project, const Scope& scope, const NewForm& wanted,
                                       const std::vector<DrawnPlace>& places, const DrawFigures& figures);

} // namespace slab::ui
