#pragma once

namespace slab::ui {

class PanelList;
class Session;

/// What the list of panels does as every other view: Shift and a click choose one more, the right button and
/// the menu key open the menu of what is chosen.
void letChooseMore(PanelList* list, Session* session);

} // namespace slab::ui
