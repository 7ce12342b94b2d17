#include "ui/panels/list_choice.h"
#include "ui/chosen/chosen_deeds.h"
#include "ui/chosen/chosen_menu.h"
#include "ui/panels/panel_list.h"
#include <QMenu>

namespace slab::ui {

void letChooseMore(PanelList* list, Session* session) {
    QObject::connect(list, &PanelList::moreChosen, session,
                     [session](const QString& plate) { chooseMorePlates(*session, plate); });
    QObject::connect(list, &PanelList::menuWanted, session,
                     [list, session](const QString& plate, const QPoint& at) {
                         // What is chosen already stays so, with all that is chosen beside it.
                         const Selection& now = session->selection();
                         if (now.plate != plate && !now.plates.contains(plate)) Q_EMIT list->chosen(plate);
                         chosenMenu(session, list)->popup(at);
                     });
    QObject::connect(session, &Session::selectionChanged, list,
                     [list, session] { list->chooseAlso(session->selection().plates); });
}

} // namespace slab::ui
