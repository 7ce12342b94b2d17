#pragma once
#include "core/evaluate/evaluate.h"
#include "ui/panels/joint_sketch.h"
#include <QString>
#include <optional>

namespace slab::ui {

/// Everything that the bar says about one edge.
struct EdgeStory {
    QString plate, neighbour;
    PanelEdge edge;
    bool joint = false;      ///< two plates meet along the skin here, so there is a choice
    bool forced = false;     ///< the builder has chosen
    QString why;             ///< why this joint
    QString trouble, remedy; ///< what is not sound about it; empty = nothing
    JointSide mine, other;
    UnitStyle units;
};

/// Plate by name; nullptr if there is none.
[[nodiscard]] const Plate* findPlate(const Evaluation& evaluation, const std::string& name);
/// What is to be said about edge `edge` of a plate whose edges are `edges`; nothing if there is no such edge.
[[nodiscard]] std::optional<EdgeStory> edgeStory(const Evaluation& evaluation, const Project& project,
                                                 const std::string& plate,
                                                 const std::vector<PanelEdge>& edges, int edge);

} // namespace slab::ui
