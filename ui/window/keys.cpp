#include "ui/window/keys.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QDialogButtonBox>
#include <QMenu>
#include <QMenuBar>
#include <QPushButton>
#include <QTextBrowser>
#include <QVBoxLayout>

namespace slab::ui {

namespace {

void collect(const QMenu* menu, std::vector<KeyLine>& lines) {
    for (const QAction* action : menu->actions()) {
        if (action->menu()) collect(action->menu(), lines);
        if (action->shortcut().isEmpty()) continue;
        // "Undo: Change hull_length" is still Undo.
        QString words = action->text().section(QStringLiteral(":"), 0, 0).remove('&');
        if (words.endsWith(QStringLiteral("…"))) words.chop(1);
        lines.push_back({action->shortcut().toString(QKeySequence::PortableText), words});
    }
}

std::vector<KeyGroup> viewGroups() {
    return {{"on the drawing board", boardKeys()},
            {"with the mouse on the drawing board", boardGestures()},
            {"in Fit, the body in 3D",
             {{"1", "from the side"},
              {"2", "from above"},
              {"3", "from the end"},
              {"4", "three quarters"},
              {"F", "all of it"},
              {"P", "parallel or in perspective"},
              {"M", "what moves, moves: donor and rider, turntables and trunnions"},
              {"O", "put an opening into a plate by a click; Return: in the middle of the chosen one"},
              {"W", "put a turntable, trunnion, linkage or belt in by a click; Return: on the chosen plate"},
              {"]", "turn the chosen part of a mechanism by a degree; [ the other way; Shift: by ten"},
              {"Del", "delete the chosen mechanism"},
              {"Right", "turn it; all four arrows"},
              {"+", "nearer"},
              {"-", "further away"},
              {"Esc", "leave the tool, choose nothing"},
              {"Shift and a click", "chooses one more plate or round form"},
              {"Right click", "what can be made of what is chosen, and put in there"}}},
            {"in Ride",
             {{"1", "how it stands; 2: route, 3: sight, 4: getting out"},
              {"Down", "the next line; up: the one before"},
              {"Right", "drive on along the ground; left: back"},
              {"C", "where it comes nearest to the ground"},
              {"A", "add a door, ramp, kerb … to the route"},
              {"Del", "take the chosen part off the route"}}},
            {"in the tables",
             {{"Return", "type a value, open or close a row"},
              {"Insert", "add an entry"},
              {"Del", "take an entry out"},
              {"Ctrl+D", "duplicate an entry"},
              {"Alt+Up", "move an entry up; Alt+Down moves it down"},
              {"Space", "tick"},
              {"Shift+Down", "choose one more plate; up: the other way"}}},
            {"on the rule",
             {{"Right", "a little larger; left: smaller"},
              {"PgUp", "larger by ten steps; page down: smaller"},
              {"Home", "the smallest scale shown"},
              {"End", "the largest scale shown"},
              {"+", "the rule nearer"},
              {"-", "the rule further away"}}},
            {"on what is to spare, above the rule",
             {{"Right", "read a little larger; left: smaller"},
              {"PgUp", "read larger by ten steps; page down: smaller"},
              {"Home", "read the smallest scale shown"},
              {"End", "read the largest scale shown"},
              {"Return", "set the scale to what is read"}}},
            {"in Panels and Sheets",
             {{"Right", "the next edge or panel; left: the one before. A chosen opening or seam is moved"},
              {"O", "put an opening into the panel by a click, or Return for its middle"},
              {"S", "cut the panel by a seam: a click, or Return for its middle"},
              {"PgDown", "the next opening or seam of the panel; page up: the one before"},
              {"Del", "take the chosen opening away, give the seam back to the program"},
              {"F", "all of it"},
              {"+", "nearer"},
              {"-", "further away"},
              {"Esc", "choose nothing"},
              {"Right click", "what can be made of the chosen edge or panel"}}}};
}

} // namespace

std::vector<KeyGroup> keyGroups(const QMenuBar* menus) {
    KeyGroup everywhere{"everywhere", {}};
    for (const QAction* action : menus->actions())
        if (action->menu()) collect(action->menu(), everywhere.lines);
    std::vector<KeyGroup> groups{std::move(everywhere)};
    for (KeyGroup& group : viewGroups()) groups.push_back(std::move(group));
    return groups;
}

QString keysAsMarkdown(const std::vector<KeyGroup>& groups) {
    QString text;
    for (const KeyGroup& group : groups) {
        QStringList lines;
        for (const KeyLine& line : group.lines) lines << "`" + line.keys + "` " + line.words;
        text += "| " + group.where + " | " + lines.join(" · ") + " |\n";
    }
    return text;
}

KeysDialog::KeysDialog(const std::vector<KeyGroup>& groups, QWidget* parent) : QDialog(parent) {
    setWindowTitle("Keys");
    resize(620, 640);
    auto* all = new QVBoxLayout(this);
    auto* page = new QTextBrowser;
    explain(page, "Keys", "All keys, by where they work.");
    QString html;
    for (const KeyGroup& group : groups) {
        QString where = group.where;
        where[0] = where[0].toUpper();
        html += "<h3>" + where.toHtmlEscaped() + "</h3><table cellpadding='3'>";
        for (const KeyLine& line : group.lines)
            html += "<tr><td width='190'><b>" + line.keys.toHtmlEscaped() + "</b></td><td>" +
                    line.words.toHtmlEscaped() + "</td></tr>";
        html += "</table>";
    }
    page->setFont(Theme::words(13));
    page->setHtml(html);
    all->addWidget(page, 1);
    auto* buttons = new QDialogButtonBox;
    explain(buttons->addButton("Close", QDialogButtonBox::RejectRole), "Close", "Back to the window.");
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    all->addWidget(buttons);
}

} // namespace slab::ui
