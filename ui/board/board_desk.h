#pragma once
// What the drawing board's parts share: the scene made from the session, where it lies on the sheet, what is
// chosen.
#include "core/board/crossings.h"
#include "core/board/outline_edits.h"
#include "core/board/sheet.h"
#include "ui/session/session.h"
#include <QObject>
#include <array>
#include <optional>
#include <set>

namespace slab::ui {

/// What is chosen on the board. Points and edges are of one view.
struct BoardChoice {
    BoardView view = BoardView::side;
    std::vector<PointRef> points;
    std::vector<std::string> edges; ///< pointers of the points that they start from
    int dimension = -1;             ///< in the project's list of dimension lines
    int picture = -1;               ///< in the project's list
    int reading = -1;               ///< a line that measures on that picture, in its list
    [[nodiscard]] bool empty() const {
        return points.empty() && edges.empty() && dimension < 0 && picture < 0;
    }
    bool operator==(const BoardChoice&) const = default;
};

/// Index of the form that a pointer lies in ("/forms/3/outline/1"); -1 = none.
[[nodiscard]] int formOf(const std::string& pointer);

/// Remakes the scene when the session changes, and keeps the choice pointing at the same points.
///
/// While a gesture goes on, and as long as the elevations keep a sensible distance, they stay where they are
/// on the sheet: nothing moves away under the hand.
class BoardDesk : public QObject {
    Q_OBJECT
public:
    explicit BoardDesk(Session* session, QObject* parent = nullptr);
    [[nodiscard]] Session* session() const { return m_session; }
    [[nodiscard]] const Project& project() const { return m_session->project(); }
    [[nodiscard]] const BoardScene& scene() const { return m_scene; }
    [[nodiscard]] const BoardSheet& sheet() const { return m_sheet; }
    /// Places where outlines cross themselves.
    [[nodiscard]] const std::vector<BoardCrossing>& crossings() const { return m_crossings; }
    /// Names and scale of the document as it stands now.
    [[nodiscard]] const Scope& scope() const { return m_scope; }
    [[nodiscard]] const BoardChoice& choice() const { return m_choice; }
    void choose(BoardChoice choice);
    /// A frame, an opening, a mechanism or a belt's wheel that is chosen, by its place in the document; empty
    /// = none.
    [[nodiscard]] std::string chosenPart() const;
    /// Handles are shown of the chosen mechanism.
    [[nodiscard]] bool isGripShown(const GripRef& grip) const;
    void chooseNone() { choose({m_choice.view, {}, {}, -1, -1, -1}); }
    [[nodiscard]] bool isChosen(const PointRef& ref) const;
    [[nodiscard]] bool isEdgeChosen(const std::string& pointer) const;
    /// The only form that the choice belongs to, else the one chosen in the session; -1 = none.
    [[nodiscard]] int chosenForm() const;
    /// Chosen points, with both ends of the chosen edges.
    [[nodiscard]] std::vector<PointRef> chosenPoints() const;
    /// The same with the corners of their outlines that lie behind them: a house's front, seen from the side,
    /// moves as a whole.
    [[nodiscard]] std::vector<PointRef> movedPoints() const;
    /// All points of a form that can be changed, in one view.
    [[nodiscard]] std::vector<PointRef> pointsOf(int form, BoardView view) const;
    /// All that makes up a form's outline in a view: its corners, and what its splines and ellipses run
    /// through. An arc's bulge is to the outside of the outline and goes with its ends.
    [[nodiscard]] std::vector<PointRef> outlineOf(int form, BoardView view) const;
    /// Applies the edit, or says why it cannot be made. @return false if nothing changed
    bool apply(const Expected<Edit>& edit);
    /// Kinds of regions ("donor", "rider", "frame" …) and "dimension", that are left out on the board.
    void setShown(const std::string& kind, bool shown);
    [[nodiscard]] bool isShown(const std::string& kind) const { return !m_hidden.contains(kind); }
    /// A gesture holds the sheet still.
    void hold(bool on);
    [[nodiscard]] bool hasAnything() const; ///< a form or a picture
    /// What pictures bring: marked features, and the room that they take in each elevation.
    using PictureRoom = std::array<std::optional<Box2>, 3>;
    void setPictures(std::vector<BoardFeature> features, PictureRoom room);

Q_SIGNALS:
    void sceneChanged();
    void choiceChanged();
    /// Why something could not be done; fine: what was done is all right.
    void told(const QString& words, bool fine = false);

private:
    void refresh();
    void place();
    void keepChoice();
    [[nodiscard]] QStringList severalForms() const;
    void followSelection();
    void rememberNames();

    Session* m_session;
    BoardScene m_scene;
    std::vector<BoardCrossing> m_crossings;
    BoardSheet m_sheet;
    Scope m_scope;
    BoardChoice m_choice;
    std::vector<std::string> m_names; ///< of the chosen points
    std::vector<BoardFeature> m_features;
    PictureRoom m_room;
    std::set<std::string> m_hidden;
    std::uint64_t m_document = 0, m_open = 0;
    bool m_held = false, m_placed = false;
};

} // namespace slab::ui
