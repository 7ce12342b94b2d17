#pragma once
// Which edge of which plate is meant when a line of a blank's drawing is chosen, and the other way round.
#include "core/plates/plate.h"

namespace slab::ui {

/// What is drawn and can be chosen: the edges of the outline, then the fold lines; with the neighbours of the
/// copy that plate `shown` belongs to.
[[nodiscard]] std::vector<PanelEdge> blankEdges(const Panel& panel, const std::string& shown);
/// The plate and its own edge behind drawn edge `drawn`, in the copy that `shown` belongs to; a fold is that
/// of `shown` if it is one of the two plates. Edge -1 where a groove's mouth or an opening made the edge.
[[nodiscard]] std::pair<std::string, int> blankEdge(const Panel& panel, const PlateSet& plates,
                                                    const std::string& shown, int drawn);
/// The drawn edge behind edge `own` of plate `shown`; -1 = none.
[[nodiscard]] int drawnEdge(const Panel& panel, const PlateSet& plates, const std::string& shown, int own);
/// Ends of a drawn edge in the panel's coordinates.
[[nodiscard]] std::pair<Vec2, Vec2> drawnEnds(const Panel& panel, std::size_t drawn);

/// Of a piece between seams: the plate that it is part of; else the name itself.
[[nodiscard]] std::string wholeOf(const Panel& panel, const std::string& shown);
/// Edge of a piece as an edge of that plate; of a seam or an opening: as drawn, of the piece itself.
[[nodiscard]] std::pair<std::string, int> pieceEdge(const Panel& panel, const PlateSet& plates,
                                                    const std::string& shown, int drawn);
/// The edge of the piece that is part of an edge of that plate; -1 = none.
[[nodiscard]] int drawnPieceEdge(const Panel& panel, const PlateSet& plates, const std::string& shown,
                                 int own);

/// Edges to be drawn of a panel's outline, with the neighbours of `shown`: copies are cut alike but meet
/// other ones. @param shown  null = no plate of its own, a piece
[[nodiscard]] const std::vector<PanelEdge>& edgesOf(const Panel& panel, const Plate* shown);
/// The plate and its own edge behind drawn edge `drawn`, of a panel of any kind.
[[nodiscard]] std::pair<std::string, int> plateEdge(const Panel& panel, const PlateSet& plates,
                                                    const std::string& shown, int drawn);
/// Outlines of the other pieces of a plate that is cut in pieces; they share the panel's coordinates.
[[nodiscard]] std::vector<Ring> otherPieces(const std::vector<Panel>& panels, const Panel& panel);

} // namespace slab::ui
