#pragma once

class QMenuBar;

namespace slab::ui {

class DocumentFile;
class Exporter;
class MainWindow;
class Session;

/// Whom the menus ask.
struct MenuDeeds {
    Session* session;
    DocumentFile* file;
    Exporter* exporter;
    MainWindow* window;
};

/// File, Edit, Build, View and Help, with their keys.
void fillMenus(QMenuBar* menus, const MenuDeeds& deeds);

} // namespace slab::ui
