#include "tests/ui_keep/random_hand.h"
#include "core/document/copy.h"

namespace slab::ui::test {

void play(const Step& step, History& history) {
    if (step.kind != Step::Kind::edit) history.settle();
    switch (step.kind) {
    case Step::Kind::edit:
        (void)history.push(step.edit);
        if (!step.drags) history.settle();
        break;
    case Step::Kind::undo:
        history.undo();
        break;
    case Step::Kind::redo:
        history.redo();
        break;
    case Step::Kind::save:
        history.markSaved();
        break;
    case Step::Kind::flush:
        break;
    }
}

std::string RandomHand::length() {
    return "\"" + std::to_string(50 + below(3000)) + " mm\"";
}

Edit RandomHand::removal(const Project& project) {
    if (below(2) == 0 && project.forms.size() > 1)
        return removeValue("/forms/" + std::to_string(below(static_cast<int>(project.forms.size()))));
    if (!project.dimensions.empty())
        return removeValue("/dimensions/" +
                           std::to_string(below(static_cast<int>(project.dimensions.size()))));
    return setValue("/title", "\"nothing left to remove\"");
}

/// A form, a hole, woodwork or something that moves.
Edit RandomHand::addition(const Project& project, const std::string& number) {
    const auto head = [&](const char* stem) {
        return R"({"name": ")" + std::string(stem) + number + R"(", )";
    };
    const auto end = [](const auto& list) { return static_cast<int>(list.size()); };
    switch (below(5)) {
    case 0:
        if (project.forms.size() > 14) break;
        return insertValue("/forms", end(project.forms),
                           head("pipe ") + R"("kind": "round", "diameter": )" + length() + R"(, "length": )" +
                               length() + R"(, "at": {"z": )" + length() + "}}");
    case 1:
        return insertValue("/openings", end(project.openings),
                           head("hole ") + R"("shape": "circle", "plate": "hull/deck", "diameter": )" +
                               length() + "}");
    case 2:
        return insertValue("/frames", end(project.frames),
                           head("rib ") + R"("axis": "x", "station": )" + length() + "}");
    case 3:
        return insertValue("/cleats", end(project.cleats),
                           head("cleats ") + R"("between": ["hull/*", "*"], "width": "20 mm"})");
    default:
        break;
    }
    return insertValue("/mechanisms/turntables", end(project.mechanisms.turntables),
                       head("drum ") + R"("diameter": )" + length() + R"(, "depth": "100 mm", "at": {"z": )" +
                           length() + "}}");
}

/// A corner of an outline, under the hand.
Edit RandomHand::corner(const Project& project) {
    for (std::size_t i = 0; i < project.forms.size(); ++i)
        if (const auto* s = std::get_if<ProfileShape>(&project.forms[i].shape))
            return setValue("/forms/" + std::to_string(i) + "/outline/" +
                                std::to_string(m_corner % s->outline.size()) + "/x",
                            length(), {}, "corner");
    return setScale("0." + std::to_string(300 + below(400)), "drag");
}

Edit RandomHand::anyEdit(const Project& project) {
    const std::string number = std::to_string(++m_made);
    const auto index = [&](std::size_t count) { return std::to_string(below(static_cast<int>(count))); };
    switch (below(10)) {
    case 8:
    case 9:
        return addition(project, number);
    case 0:
        return setValue("/title", "\"edit " + number + "\"");
    case 1:
        return insertValue("/dimensions", static_cast<int>(project.dimensions.size()),
                           R"({"name": "size_)" + number + R"(", "value": )" + length() + "}");
    case 2:
        return removal(project);
    case 3:
        if (project.dimensions.empty()) return setValue("/paper", "\"A3\"");
        return setValue("/dimensions/" + index(project.dimensions.size()) + "/value", length());
    case 4:
        if (project.forms.empty()) return setValue("/paper", "\"A4\"");
        return setValue("/forms/" + index(project.forms.size()) + "/at/x", length());
    case 5:
        if (project.forms.empty() || project.forms.size() > 14)
            return setValue("/seed", "\"" + number + "\"");
        return duplicateForms(
            {project.forms[static_cast<std::size_t>(below(static_cast<int>(project.forms.size())))].name});
    case 6:
        if (project.dimensions.empty()) return setValue("/units", "\"cm\"");
        return renameDimension(
            project.dimensions[static_cast<std::size_t>(below(static_cast<int>(project.dimensions.size())))]
                .name,
            "renamed_" + number);
    default:
        return setScale("0." + std::to_string(300 + below(400)), number);
    }
}

Edit RandomHand::dragged(const Project& project) {
    return m_dragsCorner ? corner(project) : setScale("0." + std::to_string(300 + below(400)), "drag");
}

Step RandomHand::next(const History& history) {
    if (m_dragLeft > 0) {
        --m_dragLeft;
        return {Step::Kind::edit, dragged(history.current()), m_dragLeft > 0};
    }
    const int what = below(100);
    if (what < 12) return {Step::Kind::undo, {}, false};
    if (what < 18) return {Step::Kind::redo, {}, false};
    if (what < 22) return {Step::Kind::save, {}, false};
    if (what < 25) return {Step::Kind::flush, {}, false};
    if (what < 35) {
        m_dragLeft = 1 + below(20);
        m_dragsCorner = below(2) == 0;
        m_corner = static_cast<std::size_t>(below(64));
        return {Step::Kind::edit, dragged(history.current()), true};
    }
    return {Step::Kind::edit, anyEdit(history.current()), false};
}

} // namespace slab::ui::test
