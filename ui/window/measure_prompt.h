#pragma once
#include "core/document/edit.h"
#include <QDialog>
#include <QObject>
#include <vector>

class QCheckBox;
class QLabel;
class QLineEdit;

namespace slab::ui {

class Notice;
class Session;

/// Thickness and size of every sheet as the builder's tape says. All rows accepted together are one undo
/// step.
class MeasureDialog : public QDialog {
    Q_OBJECT
public:
    explicit MeasureDialog(Session* session, QWidget* parent = nullptr);
    void accept() override;

private:
    struct Row {
        std::string stock;
        QCheckBox* measured;
        QLineEdit *thickness, *width, *length;
    };
    bool check();
    Session* m_session;
    std::vector<Row> m_rows;
    QLabel* m_wrong;
};

struct Measured {
    std::string stock;
    Text thickness, width, length;
    bool measured = true;
};
/// One edit for all sheets that were measured.
[[nodiscard]] Edit measureSheets(std::vector<Measured> sheets);

/// Asks once for a document whose stock is not measured; it can be sent away. While it stands, it follows the
/// document.
class MeasurePrompt : public QObject {
    Q_OBJECT
public:
    MeasurePrompt(Session* session, Notice* notice, QWidget* window);
    void offer();

private:
    [[nodiscard]] QString wordsNow() const; ///< empty = everything is measured
    void tell();
    void follow();

    Session* m_session;
    QString m_told;
    Notice* m_notice;
    QWidget* m_window;
};

} // namespace slab::ui
