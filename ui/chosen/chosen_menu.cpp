#include "ui/chosen/chosen_menu.h"
#include "core/board/module_edits.h"
#include "ui/chosen/chosen_deeds.h"
#include "ui/chosen/mechanism_deeds.h"
#include <QMenu>
#include <functional>

namespace slab::ui {

namespace {

QAction* entry(QMenu* menu, const QString& words, const QString& tip, std::function<void()> deed) {
    QAction* action = menu->addAction(words);
    action->setToolTip(tip);
    action->setStatusTip(tip);
    action->setWhatsThis(tip);
    QObject::connect(action, &QAction::triggered, menu, [deed = std::move(deed)] { deed(); });
    return action;
}

bool inModule(const Session& session) {
    const auto plates = chosenPlates(session);
    return std::any_of(plates.begin(), plates.end(),
                       [&](const std::string& plate) { return moduleOf(session.project(), plate) >= 0; });
}

/// The modules that there are, filled when it opens.
QMenu* modulesMenu(QMenu* menu, Session* session) {
    QMenu* modules = menu->addMenu("Comes off with");
    modules->setToolTipsVisible(true);
    modules->setAccessibleName("Comes off with");
    modules->setToolTip("Puts the chosen plates into a module that there is.");
    QObject::connect(modules, &QMenu::aboutToShow, modules, [modules, session] {
        modules->clear();
        const auto& all = session->project().modules;
        for (std::size_t i = 0; i < all.size(); ++i)
            entry(modules, QString::fromStdString(all[i].name).replace('&', "&&"),
                  "The chosen plates come off with it; they leave the module that they were in.",
                  [session, i] { addToModule(*session, static_cast<int>(i)); });
    });
    return modules;
}

} // namespace

void fillChosen(QMenu* menu, Session* session, bool keys) {
    menu->setToolTipsVisible(true);
    QAction* module =
        entry(menu, "Module of the chosen plates",
              "The chosen plates come off and travel as one; with Shift and a click one more is "
              "chosen.",
              [session] { makeModule(*session); });
    QMenu* modules = modulesMenu(menu, session);
    QAction* out = entry(menu, "Take out of its module", "The chosen plates stay on the body.",
                         [session] { takeFromModules(*session); });
    menu->addSeparator();
    QAction* cleats =
        entry(menu, "Cleats along the joint", "A stick glued into the inside corner of the chosen joint.",
              [session] { putCleats(*session, CleatKind::cleat); });
    QAction* blocks = entry(menu, "Corner blocks along the joint",
                            "Blocks glued into the inside corner of the chosen joint, a hand apart.",
                            [session] { putCleats(*session, CleatKind::block); });
    QAction* bare = entry(menu, "Take its cleats away", "No cleats of its own at the chosen joint.",
                          [session] { takeCleatsAway(*session); });
    menu->addSeparator();
    QAction* gone = entry(menu, "Delete the mechanism",
                          "Takes the chosen turntable, trunnion, linkage or belt away, with all that it is "
                          "made of.",
                          [session] { deleteChosenMechanism(*session); });
    if (keys) {
        module->setShortcut(QKeySequence("Ctrl+G"));
        out->setShortcut(QKeySequence("Ctrl+Shift+G"));
        cleats->setShortcut(QKeySequence("Ctrl+J"));
        blocks->setShortcut(QKeySequence("Ctrl+Shift+J"));
    }
    const auto refresh = [=](bool seen) {
        // A key says what to choose first; only what is seen of the menu is greyed.
        const bool asked = keys && !seen;
        const bool plates = !chosenPlates(*session).empty();
        const auto joint = chosenJoint(*session);
        module->setEnabled(plates || asked);
        modules->setEnabled(plates && !session->project().modules.empty());
        out->setEnabled(inModule(*session) || asked);
        cleats->setEnabled(joint.has_value() || asked);
        blocks->setEnabled(joint.has_value() || asked);
        const QString name = QString::fromStdString(chosenMechanismName(*session)).replace('&', "&&");
        const bool wheel = chosenMechanism(*session).find("/wheels/") != std::string::npos;
        gone->setText(name.isEmpty() ? QStringLiteral("Delete the mechanism")
                      : wheel        ? "Delete this wheel of " + name
                                     : "Delete " + name);
        gone->setEnabled(!name.isEmpty());
        bare->setEnabled(joint && cleatsOf(session->project(), joint->first, joint->second) >= 0);
    };
    QObject::connect(menu, &QMenu::aboutToShow, menu, [refresh] { refresh(true); });
    QObject::connect(menu, &QMenu::aboutToHide, menu, [refresh] { refresh(false); });
    const auto again = [refresh, menu] { refresh(menu->isVisible()); };
    QObject::connect(session, &Session::selectionChanged, menu, again);
    QObject::connect(session, &Session::projectChanged, menu, again);
    QObject::connect(session, &Session::evaluationChanged, menu, again);
    again();
}

QMenu* chosenMenu(Session* session, QWidget* parent) {
    auto* menu = new QMenu(parent);
    menu->setAccessibleName("Chosen");
    menu->setAttribute(Qt::WA_DeleteOnClose);
    fillChosen(menu, session, false);
    return menu;
}

} // namespace slab::ui
