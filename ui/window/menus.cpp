#include "ui/window/menus.h"
#include "ui/chosen/chosen_menu.h"
#include "ui/chosen/mechanism_menu.h"
#include "ui/session/session.h"
#include "ui/tables/form_clipboard.h"
#include "ui/theme/theme.h"
#include "ui/window/document_file.h"
#include "ui/window/exporter.h"
#include "ui/window/keys.h"
#include "ui/window/main_window.h"
#include "ui/window/measure_prompt.h"
#include "ui/window/stretch_dialog.h"
#include <QClipboard>
#include <QDesktopServices>
#include <QFileInfo>
#include <QGuiApplication>
#include <QMenu>
#include <QMenuBar>
#include <QMessageBox>
#include <functional>

namespace slab::ui {

namespace {

QAction* add(QMenu* menu, const QString& words, const QString& tip, const QKeySequence& key,
             std::function<void()> deed) {
    QAction* action = menu->addAction(words);
    action->setShortcut(key);
    action->setToolTip(tip);
    action->setStatusTip(tip);
    action->setWhatsThis(tip);
    QObject::connect(action, &QAction::triggered, menu, [deed = std::move(deed)] { deed(); });
    return action;
}

QMenu* menuNamed(QMenuBar* bar, const QString& name, const QString& tip) {
    QMenu* menu = bar->addMenu(name);
    menu->setToolTipsVisible(true);
    menu->setAccessibleName(QString(name).remove('&'));
    menu->setToolTip(tip);
    return menu;
}

QMenu* menuIn(QMenu* parent, const QString& name, const QString& tip) {
    QMenu* menu = parent->addMenu(name);
    menu->setToolTipsVisible(true);
    menu->setAccessibleName(name);
    menu->setToolTip(tip);
    return menu;
}

void fillExport(QMenu* menu, Exporter* e) {
    add(menu, "Panel outlines (SVG)…",
        "One drawing a panel in real millimetres, for a cutter or your own printing.", {},
        [e] { e->askPanelSvgs(); });
    add(menu, "Panel drawings (PDF)…", "Each panel with its sizes, neighbours and bevels on one page.", {},
        [e] { e->askPanelDrawings(); });
    add(menu, "Sheet layouts (SVG)…", "Each sheet with its panels in real millimetres.", {},
        [e] { e->askSheetSvgs(); });
    add(menu, "Sheet layouts (PDF)…", "Each sheet fitted to a page, with its panels listed.", {},
        [e] { e->askSheetLayouts(); });
    add(menu, "Measuring sheet of the donor (PDF)…",
        "What to measure on your chassis, and where; type the readings into the donor's table.", {},
        [e] { e->askMeasuringSheet(); });
    menu->addSeparator();
    add(menu, "Build pack…", "Everything for the bench in one folder.", QKeySequence("Ctrl+Shift+B"),
        [e] { e->askPack(); });
}

void fillFile(QMenu* menu, const MenuDeeds& d) {
    DocumentFile* file = d.file;
    add(menu, "New", "Starts from nothing but a donor and a rider.", QKeySequence::New,
        [file] { file->newEmpty(); });
    MainWindow* window = d.window;
    add(menu, "New from a start…", "A box, boat, cab, tower or capsule of named dimensions.",
        QKeySequence("Ctrl+Shift+N"), [window] { window->newFromStart(); });
    QMenu* fresh = menuIn(menu, "New from sample", "Starts from a body that is ready to change.");
    for (const auto& [title, path] : DocumentFile::samples())
        add(fresh, title, "Starts from " + title + "; the sample itself stays as it is.", {},
            [file, path = path] { file->newFromSample(path); });
    add(menu, "Open…", "Opens a document.", QKeySequence::Open, [file] { file->openAsking(); });
    add(menu, "Outlines from a drawing…",
        "Outlines of an SVG drawing become forms; which unit it is in is asked.", {},
        [window] { window->importOutlines(); });
    QMenu* recent = menuIn(menu, "Open recent", "Documents that were open before.");
    QObject::connect(recent, &QMenu::aboutToShow, recent, [recent, file] {
        recent->clear();
        for (const QString& path : DocumentFile::recent())
            add(recent, QFileInfo(path).fileName(), path, {}, [file, path] { file->open(path); });
        if (recent->isEmpty()) recent->addAction("Nothing yet")->setEnabled(false);
    });
    menu->addSeparator();
    add(menu, "Save", "Saves the document; the one before is kept beside it.", QKeySequence::Save,
        [file] { file->save(); });
    add(menu, "Save as…", "Saves the document under another name.", QKeySequence("Ctrl+Shift+S"),
        [file] { file->saveAs(); });
    menu->addSeparator();
    add(menu, "Print true size…", "Templates at full size on your paper.", QKeySequence::Print,
        [window] { window->print(); });
    fillExport(menuIn(menu, "Export", "Drawings and lists as files."), d.exporter);
    menu->addSeparator();
    add(menu, "Quit", "Closes the window; unsaved work is asked for first.", QKeySequence("Ctrl+Q"),
        [window] { window->close(); });
}

/// Copy, cut, paste, duplicate and delete the chosen form; each can do only what there is.
void fillForms(QMenu* menu, Session* session) {
    const auto forms = [session] { return chosenForms(*session); };
    QAction* copy =
        add(menu, "Copy form", "Takes the chosen forms along, with what they need, for another document too.",
            QKeySequence::Copy, [=] { copyForm(*session, forms()); });
    QAction* cut = add(menu, "Cut form", "Takes the chosen form along and out of this document.",
                       QKeySequence::Cut, [=] { cutForm(*session, forms()); });
    QAction* paste = add(menu, "Paste forms", "Brings copied forms in, under free names.",
                         QKeySequence::Paste, [=] { pasteForms(*session); });
    QAction* twice = add(menu, "Duplicate form", "A second one beside it, with its openings and materials.",
                         {}, [=] { duplicateForm(*session, forms()); });
    QAction* gone =
        add(menu, "Delete form", "Takes the chosen form out.", {}, [=] { deleteForm(*session, forms()); });
    const auto refresh = [=] {
        const bool chosen = !forms().isEmpty();
        for (QAction* action : {copy, cut, twice, gone}) action->setEnabled(chosen);
        paste->setEnabled(clipboardHoldsForms());
    };
    QObject::connect(session, &Session::selectionChanged, menu, refresh);
    QObject::connect(session, &Session::projectChanged, menu, refresh);
    QObject::connect(QGuiApplication::clipboard(), &QClipboard::dataChanged, menu, refresh);
    refresh();
}

void fillEdit(QMenu* menu, const MenuDeeds& d) {
    Session* session = d.session;
    QAction* undo =
        add(menu, "Undo", "Takes the last change back.", QKeySequence::Undo, [session] { session->undo(); });
    QAction* redo = add(menu, "Redo", "Does again what was taken back.", QKeySequence("Ctrl+Shift+Z"),
                        [session] { session->redo(); });
    menu->addSeparator();
    fillForms(menu, session);
    menu->addSeparator();
    MainWindow* window = d.window;
    add(menu, "Stretch the subject…", "Longer, wider or higher by itself, where no scale fits.", {},
        [session, window] { StretchDialog(session, window).exec(); });
    add(menu, "Measure your sheets…",
        "Thickness and size of each sheet as your tape says, so that panels fit.", {},
        [session, window] { MeasureDialog(session, window).exec(); });
    const auto refresh = [=] {
        const History& history = session->history();
        undo->setEnabled(history.canUndo());
        redo->setEnabled(history.canRedo());
        undo->setText(history.canUndo() ? "Undo: " + QString::fromStdString(history.undoLabel()) : "Undo");
        redo->setText(history.canRedo() ? "Redo: " + QString::fromStdString(history.redoLabel()) : "Redo");
    };
    QObject::connect(session, &Session::projectChanged, menu, refresh);
    refresh();
}

/// What is made of what is chosen, and mechanisms that a click puts in.
void fillBuild(QMenu* menu, const MenuDeeds& d) {
    fillChosen(menu, d.session, true);
    menu->addSeparator();
    MainWindow* window = d.window;
    for (const MechanismWords& kind : mechanismWords()) {
        QString words = QString::fromStdString(kind.key);
        words[0] = words[0].toUpper();
        add(menu, words, QString::fromStdString(kind.words + " " + kind.where + "."), {},
            [window, &kind] { window->takeMechanism(kind); });
    }
}

void fillView(QMenu* menu, const MenuDeeds& d) {
    MainWindow* window = d.window;
    const char* names[] = {"Fit", "Panels", "Sheets"};
    for (int i = 0; i < 3; ++i)
        add(menu, QString("%1 fills the window").arg(names[i]), "The same again brings the other views back.",
            QKeySequence(QString("F%1").arg(5 + i)), [window, i] { window->fill(i); });
    add(menu, "Drawing board",
        "Side, front and plan to draw on, with the body beside them; the same again brings the "
        "other views back.",
        QKeySequence("F8"), [window] { window->fill(3); });
    add(menu, "Drawing board alone", "The board has the whole window.", QKeySequence("Shift+F8"),
        [window] { window->fill(4); });
    add(menu, "Ride",
        "How it stands, what it passes, what is seen from it and how one gets out, with the body beside it; "
        "the "
        "same again brings the other views back.",
        QKeySequence("F9"), [window] { window->fill(5); });
    add(menu, "Ride alone", "Route and ride have the whole window.", QKeySequence("Shift+F9"),
        [window] { window->fill(6); });
    add(menu, "Likeness",
        "How far the flat body leaves its curves, against the number of plates, on the drawing board.",
        QKeySequence("Ctrl+Shift+L"), [window] { window->showLikeness(); });
    add(menu, "To spare over the scale",
        "What binds at every scale, and by how much, above the rule; the same again folds it away.",
        QKeySequence("F3"), [window] { window->showToSpare(); });
    add(menu, "All views", "Brings the other views back.", QKeySequence("F4"),
        [window] { window->fill(-1); });
    menu->addSeparator();
    add(menu, "Light or dark", "Changes between light colours and dark ones.", QKeySequence("Ctrl+Shift+D"),
        [window] { window->setDark(!Theme::dark()); });
    add(menu, "Choose nothing", "Nothing is chosen in any view.", QKeySequence("Ctrl+Shift+A"),
        [session = d.session] { session->select({}); });
    menu->addSeparator();
    add(menu, "Go to the rule", "The scale handle listens to the arrow keys.", QKeySequence("Ctrl+R"),
        [window] { window->focusArea(MainWindow::Area::rule); });
    add(menu, "Go to the tables", "The tables on the left listen to the keys.", QKeySequence("Ctrl+T"),
        [window] { window->focusArea(MainWindow::Area::tables); });
    add(menu, "Go to the punch list", "The punch list listens to the arrow keys.", QKeySequence("Ctrl+L"),
        [window] { window->focusArea(MainWindow::Area::findings); });
}

void fillHelp(QMenuBar* menus, QMenu* menu, const MenuDeeds& d) {
    MainWindow* window = d.window;
    add(menu, "First steps", "Five minutes from a sample to a template.", QKeySequence::HelpContents,
        [window] {
            QMessageBox::information(
                window, "First steps",
                "1. File, New from sample: take the moon crawler.\n"
                "2. Drag the handle on the rule. Everything follows: plates, panels, sheets, totals.\n"
                "3. Look at the punch list; a click shows the place in every view.\n"
                "4. Measure your sheets: thickness and size, as your tape says (Edit, Measure your sheets).\n"
                "5. Print true size: first the calibration page, then the templates.\n\n"
                "For a body of your own: File, New from a start, then F8 for the drawing board.\n"
                "Every change can be taken back with Ctrl+Z.");
        });
    add(menu, "Keys", "All keys, by where they work.", QKeySequence("Ctrl+F1"),
        [menus, window] { KeysDialog(keyGroups(menus), window).exec(); });
    add(menu, "Cautions", "What the figures cannot promise.", {}, [window] {
        QMessageBox::information(window, "Cautions",
                                 "The donor and rider are generic: measure yours before you cut.\n"
                                 "Check the calibration page, and both diagonals of the first panel.\n"
                                 "A rideable body needs sight, an exit, and someone walking beside it.");
    });
}

} // namespace

void fillMenus(QMenuBar* menus, const MenuDeeds& deeds) {
    fillFile(menuNamed(menus, "&File", "New, open, save, print, export"), deeds);
    fillEdit(menuNamed(menus, "&Edit", "Undo, redo, copied forms, measured sheets"), deeds);
    fillBuild(menuNamed(menus, "&Build", "Modules, cleats and mechanisms of what is chosen"), deeds);
    fillView(menuNamed(menus, "&View", "What fills the window, colours, keys"), deeds);
    fillHelp(menus, menuNamed(menus, "&Help", "First steps, keys and cautions"), deeds);
}

} // namespace slab::ui
