#include "ui/fit/scene_options.h"
#include "ui/fit/place_marks.h"
#include "ui/panels/blank_edges.h"
#include <algorithm>

namespace slab::ui {

SceneOptions sceneOptions(const Session& session, const FitState3d& state) {
    const Selection& chosen = session.selection();
    SceneOptions out;
    const Box3 shell = shellBounds(session.evaluation());
    out.apart = state.apart * 0.4 * std::max({shell.size().x(), shell.size().y(), shell.size().z()});
    if (state.sectionAxis >= 0) {
        const double low = shell.min[state.sectionAxis], high = shell.max[state.sectionAxis];
        out.section = SectionCut{state.sectionAxis, low + (high - low) * state.sectionAt, state.keepBelow};
    }
    out.donor = state.donor;
    out.rider = state.rider;
    out.marks = state.marks;
    out.places = placeMarks(session.evaluation(), chosen);
    out.chosenPlate = chosen.plate.toStdString();
    if (const auto& panels = session.evaluation().panels)
        for (const Panel& panel : *panels) // a piece stands for its plate
            if (panel.isOf(out.chosenPlate)) out.chosenPlate = wholeOf(panel, out.chosenPlate);
    out.chosenSolid = (chosen.solid.isEmpty() ? chosen.form : chosen.solid).toStdString();
    out.chosenForm = chosen.form.toStdString();
    for (const QString& plate : chosen.plates) out.alsoChosen.insert(plate.toStdString());
    for (const QString& form : chosen.forms) out.alsoChosen.insert(form.toStdString());
    out.chosenEdge = chosen.edge;
    const Project& project = session.project();
    const auto entry = static_cast<std::size_t>(chosen.part.section('/', 2).toInt());
    if (chosen.part.startsWith(QStringLiteral("/openings/")) && entry < project.openings.size())
        out.chosenOpening = project.openings[entry].name;
    if (chosen.part.startsWith(QStringLiteral("/frames/")) && entry < project.frames.size())
        out.chosenPlate = "frames/" + project.frames[entry].name;
    out.units = session.unitStyle();
    return out;
}

} // namespace slab::ui
