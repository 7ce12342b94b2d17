#pragma once
// Where plate forms stand or lie on a panel: the outline of the contact, and what belongs there.
#include "core/drawing/panel_ink.h"
#include "core/drawing/tables.h"

namespace slab {

/// One place of a panel on which something stands, in one or more of its copies.
struct ContactSpot {
    std::vector<Ring> rings;        ///< panel coordinates
    bool inside = false;            ///< on the inside face
    Vec2 along = Vec2::UnitX();     ///< its longest side: words run along it
    std::vector<std::string> words; ///< a line for each copy: "57  mast fin/plate"
    std::vector<std::string> marks; ///< the same in short: "57"
};
/// Contacts that lie alike in several copies are told together.
[[nodiscard]] std::vector<ContactSpot> contactSpots(const Panel& panel);
/// A line for each face of the panel's own that lies on a plate: "58  inside face on hull/port#1".
[[nodiscard]] std::vector<std::string> restLines(const Panel& panel);

/// Thin reference lines: dotted on the outside face, dashed on the inside face.
void drawContacts(const std::vector<ContactSpot>& spots, const PanelMap& map, Layer& marks);
/// Lines to keep a name or words clear of: the contact's outline, `aside` mm wide on either side.
[[nodiscard]] std::vector<Ring> contactBands(const ContactSpot& spot, const PanelMap& map, double aside);

/// What words keep clear of.
struct WordRoom {
    std::vector<Ring> lines;
    std::vector<Area> taken; ///< words set here are added
    Polygon face;            ///< words stay inside
    Area region;             ///< and inside this
};
/// The arrow beside a panel's name, kept clear of.
void keepClearOfArrow(const Layer& layer, WordRoom& room);
/// Words at each contact, in it or beside it, in letters of `height` mm or down to 0.7 of it; the mark alone
/// where there is no room for more, nothing where there is none for that.
void drawContactWords(const std::vector<ContactSpot>& spots, const PanelMap& map, double height,
                      WordRoom& room, const Pen& pen);
/// The lines of restLines(), anywhere on the face.
void drawRestWords(const std::vector<std::string>& lines, double height, WordRoom& room, const Pen& pen);

/// On one page of a true-size drawing, in its coordinates: every contact that is seen on it says what belongs
/// there, and a plate that lies flat what it lies on.
/// @param seen   what of the drawing is on the page
/// @param clear  the part of it in which words may stand
void nameContacts(const Panel& panel, const Area& seen, const Area& clear, const Vec2& shift, Layer& words);

/// What stands on the panel: mark, plate, and where: the longest side of the contact, from the datum corner.
[[nodiscard]] Table contactTable(const Panel& panel, const UnitStyle& units);

} // namespace slab
