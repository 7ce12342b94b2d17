#pragma once
// Where the shown panel's drawing lies in the body, and the openings on it.
#include "core/plates/openings.h"
#include "ui/session/session.h"

namespace slab::ui {

/// An opening in panel coordinates.
struct PanelOpening {
    int index = -1; ///< in the document's list
    std::string name;
    std::string plate;      ///< that it is cut in here
    Vec2 at = Vec2::Zero(); ///< its middle
    Ring outline;
};
/// A plate of the shown copy: of a panel its only one, of a blank each part's, of a piece the whole plate.
struct PanelPlate {
    const Plate* plate = nullptr; ///< in the session's evaluation
    Frame frame;                  ///< panel coordinates to body
    Ring outline;                 ///< panel coordinates
    [[nodiscard]] Vec2 toFlat(const Vec2& onPanel) const {
        return plate->frame.toPlane(frame.toBody(onPanel));
    }
    [[nodiscard]] Vec2 toPanel(const Vec2& flat) const { return frame.toPlane(plate->frame.toBody(flat)); }
};
struct PanelPlace {
    std::vector<PanelPlate> plates;
    std::vector<PanelOpening> openings; ///< as the document says now
    /// The plate at a place: of a blank the one whose part is there; null beside the panel.
    [[nodiscard]] const PanelPlate* at(const Vec2& onPanel) const;
    [[nodiscard]] const PanelPlate* find(const std::string& plate) const;
    [[nodiscard]] const PanelOpening* opening(int index) const;
    /// The smallest opening at a place, with a border of `reach` mm round it; null = none.
    [[nodiscard]] const PanelOpening* openingAt(const Vec2& onPanel, double reach) const;
};
/// @param shown  the plate (or piece) whose copy of the panel is drawn
[[nodiscard]] PanelPlace panelPlaceOf(const Session& session, const Panel& panel, const std::string& shown);
/// Names and scale of the document as it is now; the evaluation's while it has none.
[[nodiscard]] Scope scopeNow(const Session& session);

} // namespace slab::ui
