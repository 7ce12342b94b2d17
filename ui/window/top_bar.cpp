#include "ui/window/top_bar.h"
#include "ui/session/session.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include "ui/window/document_file.h"
#include <QActionGroup>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QMenuBar>
#include <QPushButton>
#include <QToolButton>

namespace slab::ui {

QString unitsWord(const QString& units) {
    return units == "ft" ? "ft-in" : units;
}

TopBar::TopBar(Session* session, DocumentFile* file, QWidget* parent)
    : QWidget(parent), m_session(session), m_file(file), m_title(new ElidedLabel), m_state(new QLabel),
      m_menus(new QMenuBar), m_undo(new QPushButton("Undo")), m_redo(new QPushButton("Redo")),
      m_dark(new QPushButton), m_print(new QPushButton("Print true size…")),
      m_pack(new QPushButton("Build pack…")), m_units(new QToolButton) {
    setObjectName("topBar");
    setAttribute(Qt::WA_StyledBackground);
    auto* line = new QHBoxLayout(this);
    line->setContentsMargins(18, 7, space::between, 7);
    line->setSpacing(8);
    m_title->setFont(Theme::words(16, true));
    m_title->setMinimumWidth(120);
    m_state->setFont(Theme::words(12));
    m_state->setProperty("role", "quiet");
    m_menus->setNativeMenuBar(false);
    m_menus->setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Preferred);
    m_menus->setAccessibleName("Menus");
    m_menus->setToolTip("File, Edit, View and Help: everything that the window can do, with its keys.");
    line->addWidget(m_title, 1);
    line->addWidget(m_state);
    line->addSpacing(6);
    line->addWidget(m_menus);
    line->addStretch(1);
    makeButtons();
    for (QWidget* button : std::initializer_list<QWidget*>{m_undo, m_redo, m_units, m_dark, m_print, m_pack})
        line->addWidget(button);
    connect(session, &Session::projectChanged, this, &TopBar::refresh);
    connect(file, &DocumentFile::changed, this, &TopBar::refresh);
    refresh();
}

void TopBar::makeButtons() {
    m_pack->setObjectName("primary");
    explain(m_print, "Print true size",
            "Templates at full size on your paper: one panel, one calibration page, or all of them.");
    explain(
        m_pack, "Build pack",
        "Everything for the bench in one folder: templates, panel drawings, sheet layouts, shopping list.");
    connect(m_undo, &QPushButton::clicked, m_session, &Session::undo);
    connect(m_redo, &QPushButton::clicked, m_session, &Session::redo);
    connect(m_print, &QPushButton::clicked, this, &TopBar::printWanted);
    connect(m_pack, &QPushButton::clicked, this, &TopBar::packWanted);
    connect(m_dark, &QPushButton::clicked, this, [this] {
        Q_EMIT darkWanted(!Theme::dark());
        refresh();
    });
    m_units->setPopupMode(QToolButton::InstantPopup);
    auto* menu = new QMenu(m_units);
    auto* group = new QActionGroup(menu);
    for (const char* units : {"mm", "cm", "m", "in", "ft"}) {
        QAction* action = menu->addAction(unitsWord(units));
        action->setCheckable(true);
        action->setData(units);
        group->addAction(action);
        connect(action, &QAction::triggered, this, [this, units] {
            m_session->apply(setValue("/units", std::string("\"") + units + "\"",
                                      "Show " + unitsWord(units).toStdString()));
        });
    }
    m_units->setMenu(menu);
}

void TopBar::refresh() {
    m_title->setText(m_file->shownTitle());
    m_state->setText(m_file->stateWords());
    m_state->setAccessibleName("Saved state: " + m_file->stateWords());
    const History& history = m_session->history();
    m_undo->setEnabled(history.canUndo());
    m_redo->setEnabled(history.canRedo());
    explain(m_undo, "Undo",
            history.canUndo() ? "Take back: " + QString::fromStdString(history.undoLabel()) + " (Ctrl+Z)"
                              : "Nothing to take back (Ctrl+Z)");
    explain(m_redo, "Redo",
            history.canRedo() ? "Do again: " + QString::fromStdString(history.redoLabel()) + " (Ctrl+Shift+Z)"
                              : "Nothing to do again (Ctrl+Shift+Z)");
    const QString units = QString::fromStdString(m_session->project().units);
    m_units->setText(QString(m_narrow ? "%1 ▾" : "Units: %1 ▾").arg(unitsWord(units)));
    explain(
        m_units, "Units: " + unitsWord(units),
        "Choose what sizes are shown in, and what a bare number means when you type one. Typed sizes stay "
        "as they are.");
    for (QAction* action : m_units->menu()->actions()) action->setChecked(action->data().toString() == units);
    tellColours();
}

void TopBar::tellColours() {
    m_dark->setText(Theme::dark() ? "Dark" : "Light");
    explain(m_dark,
            Theme::dark() ? "Dark colours; change to light ones" : "Light colours; change to dark ones",
            Theme::dark() ? "Change to light colours, for daylight."
                          : "Change to dark colours, for the evening.");
}

void TopBar::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange) tellColours();
}

void TopBar::setNarrow(bool narrow) {
    if (narrow == m_narrow) return;
    m_narrow = narrow;
    m_state->setVisible(!narrow);
    refresh();
}

} // namespace slab::ui
