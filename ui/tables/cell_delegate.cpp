#include "ui/tables/cell_delegate.h"
#include "ui/tables/built_value.h"
#include "ui/tables/document_model.h"
#include "ui/tables/field_words.h"
#include "ui/tables/formula_edit.h"
#include "ui/tables/suggestions.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QAbstractItemView>
#include <QComboBox>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPainter>
#include <QTreeView>
#include <tuple>

namespace slab::ui {

namespace {

const DocumentModel* modelOf(const QModelIndex& index) {
    return qobject_cast<const DocumentModel*>(index.model());
}

void paintTick(QPainter& painter, const QRect& cell, bool on) {
    paintTickBox(painter, cell, on);
    painter.setPen(on ? Theme::colours().ink : Theme::colours().quiet);
    painter.setFont(Theme::words(12));
    painter.drawText(cell.adjusted(23, 0, 0, 0), Qt::AlignVCenter | Qt::AlignLeft, on ? "yes" : "no");
}

/// Whose words stand in a cell, and in which place: an empty one leaves its room to the words before it.
std::pair<QModelIndex, QRect> spoken(const QTreeView& view, const QModelIndex& index, const QRect& own) {
    const auto silent = [&](int column) {
        const QModelIndex at = index.siblingAtColumn(column);
        return at.data().toString().isEmpty() && !at.data(Qt::CheckStateRole).isValid();
    };
    QModelIndex speaks = index;
    while (speaks.column() > 0 && silent(speaks.column()))
        speaks = speaks.siblingAtColumn(speaks.column() - 1);
    QRect place = speaks == index ? own : view.visualRect(speaks).united(own);
    for (int next = index.column() + 1; next < index.model()->columnCount(index.parent()) && silent(next);
         ++next)
        place = place.united(view.visualRect(index.siblingAtColumn(next)));
    return {speaks, place};
}

/// Names lose their middle; those behind a letter of the measuring sheet keep it and their end.
QString shortened(const QString& text, const QFontMetrics& metrics, int column, int room) {
    if (column != DocumentModel::what) return metrics.elidedText(text, Qt::ElideRight, room);
    const qsizetype gap = text.indexOf(QStringLiteral("  "));
    if (gap <= 0 || gap > 2) return metrics.elidedText(text, Qt::ElideMiddle, room);
    const QString letter = text.left(gap + 1);
    return letter +
           metrics.elidedText(text.mid(gap + 2), Qt::ElideLeft, room - metrics.horizontalAdvance(letter));
}

} // namespace

QRectF tickBox(const QRect& cell) {
    return {cell.left() + 4.0, cell.center().y() - 6.0, 13, 13};
}

void paintTickBox(QPainter& painter, const QRect& cell, bool on) {
    const Palette& c = Theme::colours();
    const QRectF box = tickBox(cell);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(on ? c.chosen : c.quiet, 1.3));
    painter.setBrush(on ? c.chosen : c.card);
    painter.drawRoundedRect(box, 3, 3);
    if (!on) return;
    painter.setPen(QPen(c.card, 2));
    painter.drawPolyline(QPolygonF{box.topLeft() + QPointF(3, 6.5), box.topLeft() + QPointF(5.5, 9.5),
                                   box.topLeft() + QPointF(10, 3.5)});
}

QSize CellDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const {
    return {40, cellHeight};
}

void CellDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
    const Palette& c = Theme::colours();
    painter->save();
    const bool chosen = option.state & QStyle::State_Selected;
    if (chosen) painter->fillRect(option.rect, c.chosenFill);
    const auto* view = qobject_cast<const QTreeView*>(option.widget);
    if (view && view->hasFocus() && view->currentIndex() == index) {
        painter->setPen(QPen(c.chosen, 1.5));
        painter->setBrush(Qt::NoBrush);
        painter->setRenderHint(QPainter::Antialiasing);
        painter->drawRoundedRect(QRectF(option.rect).adjusted(0.75, 0.75, -0.75, -0.75), 3, 3);
    }
    QModelIndex shown = index;
    QRect cellRect = option.rect;
    const QVariant check = index.data(Qt::CheckStateRole);
    if (check.isValid()) {
        paintTick(*painter, option.rect, check.toInt() == Qt::Checked);
        painter->restore();
        return;
    }
    if (view) std::tie(shown, cellRect) = spoken(*view, index, option.rect);
    if (cellRect != option.rect) painter->setClipRect(option.rect); // each cell paints its share
    const int column = shown.column();
    const QString trouble = shown.data(DocumentModel::troubleRole).toString();
    const bool formula = column == DocumentModel::typed && shown.data(DocumentModel::formulaRole).toBool();
    QColor ink = column == DocumentModel::builds ? c.quiet : formula ? c.chosen : c.ink;
    if (!trouble.isEmpty() && column != DocumentModel::what) ink = c.hits;
    const QFont font = column == DocumentModel::what ? Theme::words(12) : Theme::figures(12);
    painter->setFont(font);
    painter->setPen(ink);
    const QRect cell = cellRect.adjusted(3, 0, -3, 0);
    const QString text = shortened(shown.data().toString(), QFontMetrics(font), column, cell.width());
    const Qt::Alignment side = column == DocumentModel::builds ? Qt::AlignRight : Qt::AlignLeft;
    painter->drawText(cell, static_cast<int>(side | Qt::AlignVCenter), text);
    if (!trouble.isEmpty() && column == DocumentModel::typed) {
        painter->setPen(QPen(c.hits, 1, Qt::DotLine));
        painter->drawLine(cell.bottomLeft() - QPoint(0, 3), cell.bottomRight() - QPoint(0, 3));
    }
    painter->restore();
}

QWidget* CellDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&,
                                    const QModelIndex& index) const {
    const DocumentModel* model = modelOf(index);
    if (!model) return nullptr;
    const Node* node = index.column() == DocumentModel::what ? model->nodeOf(index) : model->edited(index);
    if (!node) return nullptr;
    const FieldWords words = wordsOf(*node);
    QWidget* editor = nullptr;
    if (index.column() == DocumentModel::typed && node->kind == Node::Kind::choice) {
        auto* box = new QComboBox(parent);
        for (const std::string& word : node->words)
            box->addItem(choiceWord(*node, word), QString::fromStdString(word));
        auto* self = const_cast<CellDelegate*>(this);
        connect(box, &QComboBox::activated, self, [self, box] {
            Q_EMIT self->commitData(box);
            Q_EMIT self->closeEditor(box);
        });
        editor = box;
    } else if (const QStringList known = suggestionsFor(*model->session(), *node);
               index.column() == DocumentModel::typed && !known.isEmpty() && !isFormula(node->role)) {
        auto* box = new QComboBox(parent);
        box->setEditable(true);
        if (node->role == Role::stock && node->entry) box->addItem("");
        box->addItems(known);
        box->setInsertPolicy(QComboBox::NoInsert);
        editor = box;
    } else {
        auto* line = new FormulaEdit(index.column() == DocumentModel::typed ? known : QStringList(), parent);
        line->setFont(Theme::figures(12));
        line->setPlaceholderText(node->generic != 0 ? builtValue(*model->session(), *node).text : QString());
        editor = line;
    }
    explain(editor, words.label, words.tip);
    return editor;
}

void CellDelegate::setEditorData(QWidget* editor, const QModelIndex& index) const {
    const QString text = index.data(Qt::EditRole).toString();
    // A change elsewhere must not take away what is being typed or chosen.
    if (auto* box = qobject_cast<QComboBox*>(editor)) {
        const QVariant shown = box->property("shown");
        if (box->view()->isVisible() || (shown.isValid() && shown.toString() != box->currentText())) return;
        if (box->isEditable())
            box->setEditText(text);
        else
            box->setCurrentIndex(box->findData(text));
        box->setProperty("shown", box->currentText());
    } else if (auto* line = qobject_cast<QLineEdit*>(editor)) {
        if (line->isModified()) return;
        line->setText(text);
        line->selectAll();
    }
}

void CellDelegate::setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const {
    if (const auto* box = qobject_cast<QComboBox*>(editor))
        model->setData(index, box->isEditable() ? box->currentText() : box->currentData().toString());
    else if (const auto* line = qobject_cast<QLineEdit*>(editor))
        model->setData(index, line->text());
}

void CellDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                                        const QModelIndex& index) const {
    QRect cell = option.rect;
    // A formula may be long: it takes the room of what it builds, too.
    if (const auto* view = qobject_cast<const QTreeView*>(option.widget);
        view && index.column() == DocumentModel::typed)
        cell.setRight(view->visualRect(index.siblingAtColumn(DocumentModel::builds)).right());
    editor->setGeometry(cell);
}

bool CellDelegate::editorEvent(QEvent* event, QAbstractItemModel* model, const QStyleOptionViewItem& option,
                               const QModelIndex& index) {
    if (!(index.flags() & Qt::ItemIsUserCheckable)) return false;
    const bool on = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    if (event->type() == QEvent::MouseButtonRelease) {
        if (!option.rect.contains(static_cast<QMouseEvent*>(event)->position().toPoint())) return false;
        return model->setData(index, on ? Qt::Unchecked : Qt::Checked, Qt::CheckStateRole);
    }
    if (event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Space || key == Qt::Key_Select)
            return model->setData(index, on ? Qt::Unchecked : Qt::Checked, Qt::CheckStateRole);
    }
    return false;
}

} // namespace slab::ui
