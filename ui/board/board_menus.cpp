#include "ui/board/board_menus.h"
#include "ui/board/board_bar.h"
#include "ui/board/board_deeds.h"
#include "ui/board/draw_tool.h"
#include <QAction>
#include <QMenu>

namespace slab::ui {

namespace {

struct DeedEntry {
    const char *words, *key, *tip; ///< no words: a line between groups
    void (*deed)(BoardDesk&);
};

constexpr DeedEntry deedEntries[] = {
    {"Put a point in", "Insert",
     "Splits the chosen edge in its middle; a double click on the edge does it there.",
     [](BoardDesk& d) { insertInChosen(d); }},
    {"Delete", "Del",
     "Takes chosen points, dimension lines, frames, openings, mechanisms or pictures away; a form when its "
     "cross is chosen.",
     [](BoardDesk& d) { removeChosen(d); }},
    {nullptr, nullptr, nullptr, nullptr},
    {"Mirror left and right", nullptr,
     "Reflects the chosen points about their middle; of a chosen edge or form the whole outline.",
     [](BoardDesk& d) { mirrorChosen(d, 0); }},
    {"Mirror up and down", nullptr,
     "Reflects the chosen points about their middle; of a chosen edge or form the whole outline.",
     [](BoardDesk& d) { mirrorChosen(d, 1); }},
    {"Make symmetric, keep port", nullptr, "The port half of a plan outline replaces the starboard half.",
     [](BoardDesk& d) { makeChosenSymmetric(d, true); }},
    {"Make symmetric, keep starboard", nullptr,
     "The starboard half of a plan outline replaces the port half.",
     [](BoardDesk& d) { makeChosenSymmetric(d, false); }},
    {nullptr, nullptr, nullptr, nullptr},
    {"Duplicate the form", "Ctrl+D", "A copy of the form beside it.",
     [](BoardDesk& d) { duplicateChosen(d); }},
    {"Choose all its points", "Ctrl+A", "Every point of the chosen form in this view.",
     [](BoardDesk& d) { chooseAll(d); }}};

struct ShownEntry {
    const char *words, *tip;
    std::vector<std::string> kinds;
};
const std::vector<ShownEntry>& shownEntries() {
    static const std::vector<ShownEntry> entries{
        {"Donor", "The chassis under the body.", {"donor"}},
        {"Rider", "Who sits in it.", {"rider"}},
        {"Openings", "Holes in the plates.", {"opening"}},
        {"Frames", "Ribs and bulkheads.", {"frame"}},
        {"Mechanisms", "Turntables, trunnions, hinges and belts.", {"mechanism", "mechanism plate"}},
        {"Dimension lines", "Figures between points.", {"dimension"}}};
    return entries;
}

} // namespace

void fillDeeds(QMenu* menu, BoardDesk* desk, const std::function<void()>& after) {
    menu->setToolTipsVisible(true);
    for (const DeedEntry& entry : deedEntries) {
        if (!entry.words) {
            menu->addSeparator();
            continue;
        }
        const QString words = entry.words;
        QAction* action = menu->addAction(entry.key ? words + "\t" + entry.key : words);
        action->setToolTip(entry.tip);
        action->setStatusTip(entry.tip);
        QObject::connect(action, &QAction::triggered, menu, [desk, deed = entry.deed, after] {
            deed(*desk);
            after();
        });
    }
}

void fillShown(QMenu* menu, BoardDesk* desk) {
    menu->setToolTipsVisible(true);
    for (const ShownEntry& entry : shownEntries()) {
        QAction* action = menu->addAction(entry.words);
        action->setToolTip(entry.tip);
        action->setCheckable(true);
        action->setChecked(true);
        QObject::connect(action, &QAction::toggled, menu, [desk, kinds = entry.kinds](bool on) {
            for (const std::string& kind : kinds) desk->setShown(kind, on);
        });
    }
    menu->addSeparator();
    QAction* pictures = menu->addAction("Hidden pictures again");
    pictures->setToolTip("Pictures that were hidden one by one are seen again.");
    QObject::connect(pictures, &QAction::triggered, menu, [desk] { showHiddenPictures(*desk); });
    QObject::connect(menu, &QMenu::aboutToShow, pictures, [desk, pictures] {
        const auto& all = desk->project().pictures;
        pictures->setEnabled(std::any_of(all.begin(), all.end(), [](const auto& p) { return p.hidden; }));
    });
}

std::vector<KeyLine> boardKeys() {
    std::vector<KeyLine> lines{{"C", "choose points and edges"}};
    for (const DrawKind& kind : drawKinds())
        lines.push_back({kind.key, "draw: " + QString(kind.label).toLower()});
    lines.insert(lines.end(),
                 {{"B", "put frames in: bulkheads, ribs, shelves"},
                  {"W", "put a turntable, trunnion, linkage or belt in"},
                  {"D", "dimension line between two points"},
                  {"M", "measure any distance or angle"},
                  {"R", "lay a picture under an elevation"},
                  {"K", "likeness plot: plates against likeness"},
                  {"G", "grid on or off"},
                  {"F", "everything on the sheet"},
                  {"Ctrl+1", "the side fills the sheet"},
                  {"Ctrl+2", "the front fills the sheet"},
                  {"Ctrl+3", "the plan fills the sheet"},
                  {"+", "nearer"},
                  {"-", "further away; with something chosen it begins a figure, as digits do"}});
    for (const DeedEntry& entry : deedEntries)
        if (entry.words && entry.key) lines.push_back({entry.key, QString(entry.words).toLower()});
    lines.insert(lines.end(), {{"PgDown", "choose the next point"},
                               {"PgUp", "choose the point before"},
                               {"Right", "move what is chosen by 1 mm or 1/16 in; all four arrows"},
                               {"Shift+Right", "ten times as far; all four arrows"},
                               {"Return", "type the figures of what is chosen, or close what is drawn"},
                               {"Backspace", "take the last corner or mark back; else delete"},
                               {"Esc", "give up, choose nothing, leave the tool"}});
    return lines;
}

std::vector<KeyLine> boardGestures() {
    return {
        {"Click", "chooses a point, an edge, a dimension line, a frame, an opening, a mechanism, a picture"},
        {"Shift and a click", "chooses one more"},
        {"Drag", "moves what is chosen; on the empty sheet a box round several points"},
        {"Drag of a mechanism's handle", "its place, an end, a stop, a wheel; by its outline all of it"},
        {"Alt and a drag", "free of snapping; a stop by tenths of a degree"},
        {"Ctrl and a drag", "changes the dimension behind a coordinate"},
        {"Double click", "puts a point into an edge; on the empty sheet shows everything"},
        {"Wheel", "nearer and further at the pointer"},
        {"Middle button, or Space and a drag", "moves the sheet"},
        {"Right click", "the same as Esc"},
        {"Digits", "an exact place or size, wherever one is asked for"}};
}

} // namespace slab::ui
