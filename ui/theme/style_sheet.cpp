#include "ui/theme/style_sheet.h"
#include "core/base/paths.h"
#include <QHash>
#include <QStringList>
#include <algorithm>

namespace slab::ui {

namespace {

// @name is replaced by the colour of that name.
constexpr const char* sheet = R"(
QMainWindow, QDialog, QWidget#bench { background: @paper; }
QWidget { color: @ink; }
QToolTip { background: @card; color: @ink; border: 1px solid @line; padding: 4px 6px; }
QFrame#card, QWidget#card { background: @card; border: 1px solid @line; border-radius: 8px; }
QWidget#topBar { background: @card; border-bottom: 1px solid @line; }
QMenuBar { background: @card; }
QMenuBar::item { padding: 5px 10px; border-radius: 6px; background: transparent; }
QMenuBar::item:selected { background: @chosenFill; }
QMenu { background: @card; border: 1px solid @line; padding: 5px; }
QMenu::item { padding: 5px 26px 5px 14px; border-radius: 5px; }
QMenu::item:selected { background: @chosenFill; color: @ink; }
QMenu::item:disabled { color: @quiet; }
QMenu::separator { height: 1px; background: @line; margin: 5px 8px; }
QLabel { background: transparent; }
QLabel[role="quiet"] { color: @quiet; }
QLabel[role="title"] { font-weight: bold; }
QLabel[role="error"] { color: @hitsText; }
QLabel[role="reason"] { color: @hitsText; background: @card; border: 1px solid @hitsText; border-radius: 4px; padding: 2px 6px; }
QPushButton, QToolButton { background: @card; border: 1px solid @line; border-radius: 6px; padding: 4px 12px;
    min-height: 18px; }
QToolButton { padding: 4px 9px; }
QPushButton:hover, QToolButton:hover { border-color: @quiet; }
QPushButton:pressed, QToolButton:pressed { background: @chosenFill; }
QPushButton:checked, QToolButton:checked { background: @chosenFill; border-color: @chosen; }
QPushButton:disabled, QToolButton:disabled { color: @faint; }
QPushButton:focus, QToolButton:focus { border: 2px solid @chosen; padding: 3px 11px; }
QToolButton:focus { padding: 3px 8px; }
QPushButton#primary { background: @primary; color: white; border-color: @primary; }
QPushButton#primary:hover { background: @primaryHover; }
QPushButton#primary:focus { border: 2px solid @ink; }
QPushButton#primary:disabled { background: @line; color: @quiet; border-color: @line; }
QToolButton#flat, QPushButton#flat { border-color: transparent; background: transparent; }
QToolButton#flat:hover, QPushButton#flat:hover { border-color: @line; }
QToolButton#flat:checked { background: @chosenFill; border-color: @chosen; }
QToolButton#flat:focus, QPushButton#flat:focus { border: 2px solid @chosen; }
QToolButton::menu-indicator { image: none; width: 0; }
QLineEdit, QPlainTextEdit, QSpinBox, QDoubleSpinBox, QComboBox { background: @card; border: 1px solid @line;
    border-radius: 6px; padding: 3px 7px; selection-background-color: @chosen; selection-color: @onChosen; }
QLineEdit:focus, QPlainTextEdit:focus, QSpinBox:focus, QDoubleSpinBox:focus, QComboBox:focus
    { border: 2px solid @chosen; padding: 2px 6px; }
QLineEdit[wrong="true"] { border: 2px solid @hits; }
QComboBox { combobox-popup: 0; }
QComboBox QAbstractItemView::item { padding: 3px 5px; min-height: 18px; }
QComboBox::drop-down { border: 0; width: 20px; }
QComboBox::down-arrow { image: url(@down); width: 12px; height: 12px; }
QSpinBox::up-button, QDoubleSpinBox::up-button { border: 0; width: 20px; background: transparent; }
QSpinBox::down-button, QDoubleSpinBox::down-button { border: 0; width: 20px; background: transparent; }
QSpinBox::up-arrow, QDoubleSpinBox::up-arrow { image: url(@up); width: 12px; height: 12px; }
QSpinBox::down-arrow, QDoubleSpinBox::down-arrow { image: url(@down); width: 12px; height: 12px; }
QCheckBox::indicator, QListView::indicator, QTreeView::indicator, QTableView::indicator
    { width: 13px; height: 13px; border: 1px solid @quiet; border-radius: 3px; background: @card; }
QCheckBox::indicator:checked, QListView::indicator:checked, QTreeView::indicator:checked,
    QTableView::indicator:checked { background: @chosen; border-color: @chosen; image: url(@tick); }
QCheckBox::indicator:focus { border: 2px solid @chosen; width: 11px; height: 11px; }
QRadioButton::indicator { width: 13px; height: 13px; border: 1px solid @quiet; border-radius: 7px;
    background: @card; }
QRadioButton::indicator:checked { width: 5px; height: 5px; border: 5px solid @chosen; border-radius: 7px; }
QRadioButton::indicator:focus { border-color: @chosen; }
QComboBox QAbstractItemView { background: @card; border: 1px solid @line; selection-background-color: @chosenFill;
    selection-color: @ink; outline: 0; }
QCheckBox, QRadioButton { spacing: 7px; background: transparent; }
QCheckBox:focus, QRadioButton:focus { color: @chosen; }
QTreeView, QTableView, QListView, QListWidget { background: transparent; alternate-background-color: transparent;
    border: 0; outline: 0; selection-background-color: @chosenFill; selection-color: @ink; gridline-color: @line; }
QListWidget { background: @card; border: 1px solid @line; border-radius: 6px; padding: 2px; }
QTreeView::item, QTableView::item, QListView::item { padding: 2px 3px; border: 0; }
QTreeView::item:selected, QTableView::item:selected, QListView::item:selected { background: @chosenFill;
    color: @ink; }
QTreeView[plain="true"]:focus, QListView:focus { border: 1px solid @chosen; border-radius: 6px; }
QTableView QLineEdit, QTreeView QLineEdit { border: 2px solid @chosen; border-radius: 3px; padding: 0 3px; }
QHeaderView { background: transparent; border: 0; }
QHeaderView::section { background: transparent; color: @quiet; border: 0; border-bottom: 1px solid @line;
    padding: 2px 3px; }
QScrollArea, QScrollArea > QWidget > QWidget#page { background: transparent; border: 0; }
QScrollBar:vertical { background: transparent; width: 10px; margin: 0; }
QScrollBar::handle:vertical { background: @line; border-radius: 4px; min-height: 28px; margin: 1px; }
QScrollBar::handle:vertical:hover { background: @quiet; }
QScrollBar:horizontal { background: transparent; height: 10px; margin: 0; }
QScrollBar::handle:horizontal { background: @line; border-radius: 4px; min-width: 28px; margin: 1px; }
QScrollBar::handle:horizontal:hover { background: @quiet; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QSplitter::handle { background: transparent; }
QSplitter::handle:hover { background: @line; border-radius: 3px; }
QTabWidget::pane { border: 0; }
QTabBar { background: transparent; }
QTabBar::tab { background: transparent; color: @quiet; padding: 5px 8px; border: 0;
    border-bottom: 2px solid transparent; }
QTabBar::tab:selected { color: @ink; border-bottom: 2px solid @chosen; }
QTabBar::tab:hover { color: @ink; }
QTabBar::tab:focus { color: @chosen; }
QSlider::groove:horizontal { height: 4px; background: @line; border-radius: 2px; }
QSlider::handle:horizontal { background: @card; border: 2px solid @chosen; width: 12px; margin: -6px 0;
    border-radius: 8px; }
QSlider::handle:horizontal:focus { background: @chosen; }
QSlider::groove:vertical { width: 4px; background: @line; border-radius: 2px; }
QSlider::handle:vertical { background: @card; border: 2px solid @chosen; height: 12px; margin: 0 -6px;
    border-radius: 8px; }
QProgressBar { background: @line; border: 0; border-radius: 2px; max-height: 4px; }
QProgressBar::chunk { background: @chosen; border-radius: 2px; }
QStatusBar { background: @paper; color: @quiet; }
)";

} // namespace

QString styleSheet(const Palette& c) {
    const bool dark = c.paper.lightness() < 128;
    const QHash<QString, QColor> names{
        {"paper", c.paper},
        {"card", c.card},
        {"ink", c.ink},
        {"quiet", c.quiet},
        {"line", c.line},
        {"chosen", c.chosen},
        {"chosenFill", c.chosenFill},
        {"hits", c.hits},
        {"hitsText", c.hits},
        {"faint", Theme::mix(c.quiet, c.card, 0.6)},
        {"onChosen", dark ? c.paper : QColor(Qt::white)},
        {"primary", QColor("#2F6DB5")}, // white words on it: 5.3:1 in light and dark
        {"primaryHover", QColor("#27609F")},
    };
    QString out = QString::fromLatin1(sheet);
    const QString icons = QString::fromStdString((resourceFolder() / "icons").string());
    for (const char* icon : {"down", "up", "tick"})
        out.replace(QString("@%1)").arg(icon),
                    QString("\"%1/%2-%3.svg\")").arg(icons, icon, dark ? "dark" : "light"));
    QStringList keys = names.keys();
    // Longest first, so that @chosenFill is not taken for @chosen.
    std::sort(keys.begin(), keys.end(), [](const auto& a, const auto& b) { return a.size() > b.size(); });
    for (const auto& key : keys) out.replace("@" + key, names[key].name());
    return out;
}

} // namespace slab::ui
