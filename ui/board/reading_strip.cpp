#include "ui/board/reading_strip.h"
#include "core/donor/donor.h"
#include "core/picture/edits.h"
#include "core/picture/typed.h"
#include "ui/board/board_canvas.h"
#include "ui/board/board_deeds.h"
#include "ui/board/field_strip.h"
#include "ui/board/picture_layer.h"
#include "ui/paint/flow_layout.h"
#include "ui/tables/table_edits.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QSignalBlocker>
#include <QToolButton>

namespace slab::ui {

namespace {

constexpr const char* noSize = "no size of the donor";

QLabel* quietWord(const QString& words) {
    auto* label = new QLabel(words);
    label->setProperty("role", "quiet");
    return label;
}

} // namespace

ReadingStrip::ReadingStrip(BoardCanvas* canvas, QWidget* parent)
    : QWidget(parent), m_canvas(canvas), m_heading(new ElidedLabel), m_words(new ElidedLabel),
      m_plane(new ElidedLabel), m_name(new QLineEdit), m_size(new QComboBox),
      m_widen(new QCheckBox("uncertainty to the clearance")), m_take(new QToolButton),
      m_remove(new QToolButton) {
    setAccessibleName(tr("the chosen line on a picture"));
    auto* row = new FlowLayout(this, 8, 4);
    m_heading->setFixedWidth(110);
    row->addWidget(m_heading);
    m_name->setFixedWidth(110);
    explain(m_name, "Name of the line", "What the line is, for example seat or left rail.");
    row->addWidget(m_name);
    m_words->setFont(Theme::figures(13));
    m_words->setFixedWidth(260);
    row->addWidget(m_words);
    buildDepth(row);
    row->startGroup();
    row->addWidget(quietWord("is"));
    m_size->setMinimumWidth(190);
    explain(
        m_size, "Size of the donor",
        "Which size of the donor this line is. The picture then is one of the donor: it keeps its size at "
        "every scale.");
    row->addWidget(m_size);
    explain(
        m_widen, "Uncertainty to the clearance",
        "Also adds two standard errors to the clearance of every part that this size moves. A photo is no "
        "tape: check what matters on the donor itself before you cut.");
    row->addWidget(m_widen);
    m_remove->setText("Delete the line");
    explain(m_remove, "Delete the line", "Takes the line off the picture (Delete).");
    row->addWidget(m_remove);
    // Last, for its words are as long as the size's name.
    m_take->setText("Take over");
    explain(m_take, "Take over", "The donor gets this size; Undo takes it back.");
    row->addWidget(m_take);
    connect(m_name, &QLineEdit::editingFinished, this, [this] {
        if (!serves() || !m_name->isModified()) return;
        m_name->setModified(false);
        m_canvas->desk().apply(
            setValue(at("name"), quotedJson(m_name->text().trimmed().toStdString()), "Rename line"));
    });
    connect(m_name, &QLineEdit::returnPressed, this, &ReadingStrip::done);
    connect(m_size, &QComboBox::activated, this,
            [this](int index) { chooseSize(m_size->itemData(index).toString().toStdString()); });
    connect(m_take, &QToolButton::clicked, this, &ReadingStrip::take);
    connect(m_remove, &QToolButton::clicked, this, [this] {
        removeChosen(m_canvas->desk());
        Q_EMIT done();
    });
    connect(&canvas->desk(), &BoardDesk::choiceChanged, this, &ReadingStrip::refresh);
    connect(&canvas->pictures(), &PictureLayer::changed, this, &ReadingStrip::refresh);
    refresh();
}

/// A photo is true in the sheet's plane; what stands before it looks larger.
void ReadingStrip::buildDepth(FlowLayout* row) {
    const QStringList names = formulaNames(m_canvas->desk().project());
    m_depth = new StripEntry("in front of the sheet by", names);
    m_depthError = new StripEntry("±", names);
    explain(m_depth->edit(), "In front of the sheet by",
            "How far the line lies before the plane that was marked, towards the camera; behind it is "
            "negative; empty: the picture's. Nearer things look larger.");
    explain(m_depthError->edit(), "± of that", "How sure that is; empty: a twentieth of it.");
    for (const auto& [entry, key] : {std::pair{m_depth, "depth"}, std::pair{m_depthError, "depth_error"}}) {
        entry->hold(entry == m_depth ? 92 : 60);
        row->addWidget(entry);
        connect(entry, &StripEntry::entered, this, [this, entry = entry, key = key] {
            takeDepth(entry, key);
            Q_EMIT done();
        });
        connect(entry, &StripEntry::left, this, [this, entry = entry, key = key] { takeDepth(entry, key); });
        connect(entry, &StripEntry::givenUp, this, &ReadingStrip::done);
    }
    m_plane->setQuiet(true);
    m_plane->setFont(Theme::words(12));
    m_plane->setFixedWidth(440); // px: what stands behind it keeps its place
    row->addWidget(m_plane);
}

void ReadingStrip::takeDepth(StripEntry* entry, const char* key) {
    if (!serves() || !entry->isTyped()) return;
    StripField field;
    field.label = entry->label();
    field.pointers = {at(key)};
    BoardDesk& desk = m_canvas->desk();
    if (!desk.apply(typedInto(*desk.session(), field, entry->edit()->text()))) entry->restore();
}

const PlacedPicture* ReadingStrip::picture() const {
    return m_canvas->pictures().at(m_canvas->desk().choice().picture);
}

const PlacedLine* ReadingStrip::line() const {
    const PlacedPicture* on = picture();
    return on ? on->line(m_canvas->desk().choice().reading) : nullptr;
}

const MeasuredSize* ReadingStrip::measured() const {
    const PlacedLine* one = line();
    if (!one || one->size.empty()) return nullptr;
    for (const MeasuredSize& size : m_canvas->pictures().placed().sizes)
        if (size.size == one->size) return &size;
    return nullptr;
}

std::string ReadingStrip::at(const char* key) const {
    const BoardChoice& choice = m_canvas->desk().choice();
    return "/pictures/" + std::to_string(choice.picture) + "/lines/" + std::to_string(choice.reading) + "/" +
           key;
}

QString ReadingStrip::words() const {
    const PlacedLine* one = line();
    if (!one) return {};
    const UnitStyle& units = m_canvas->desk().scene().units;
    const auto figure = [&](const Measured& m) { return QString::fromStdString(measuredText(m, units)); };
    QString text = figure(one->length);
    if (const MeasuredSize* all = measured(); all && all->lines.size() > 1)
        text += QString(" · %1 lines give %2").arg(all->lines.size()).arg(figure(all->value));
    return text;
}

void ReadingStrip::refresh() {
    const PlacedLine* one = line();
    if (!one) return;
    const BoardDesk& desk = m_canvas->desk();
    m_heading->setText(QString::fromStdString(picture()->name));
    if (!m_name->hasFocus() || !m_name->isModified()) m_name->setText(QString::fromStdString(one->name));
    m_words->setText(words());
    const QString plane = m_canvas->pictures().depthWords(desk.choice().picture, desk.choice().reading);
    m_plane->setText(plane);
    const PictureLine& typed = desk.project()
                                   .pictures[static_cast<std::size_t>(desk.choice().picture)]
                                   .lines[static_cast<std::size_t>(desk.choice().reading)];
    m_depth->show(QString::fromStdString(typed.depth));
    m_depthError->show(QString::fromStdString(typed.depth_error));
    const QSignalBlocker quiet(m_size);
    m_size->clear();
    m_size->addItem(noSize, QString());
    for (const DonorSize& size : donorSizes(desk.project().donor.kind))
        if (size.kind == Kind::length)
            m_size->addItem(QString::fromStdString(size.label), QString::fromStdString(size.name));
    const int index = m_size->findData(QString::fromStdString(one->size));
    if (index < 0) m_size->addItem(QString::fromStdString(one->size), QString::fromStdString(one->size));
    m_size->setCurrentIndex(index < 0 ? m_size->count() - 1 : index);
    const MeasuredSize* size = measured();
    m_take->setEnabled(size != nullptr);
    m_take->setText(size ? "Take over: " + QString::fromStdString(size->label) : QString("Take over"));
    m_widen->setEnabled(size != nullptr);
}

void ReadingStrip::chooseSize(const std::string& size) {
    if (!serves()) return;
    std::vector<Edit> edits{setValue(at("size"), quotedJson(size))};
    // A donor does not shrink with the scale, so neither does a picture that it is measured on.
    if (!size.empty() && picture()->space == Space::subject)
        edits.push_back(
            setValue("/pictures/" + std::to_string(picture()->index) + "/space", quotedJson("build")));
    m_canvas->desk().apply(chained("Say what a line measures", std::move(edits)));
    Q_EMIT done();
}

void ReadingStrip::take() {
    const MeasuredSize* size = measured();
    if (!size) return;
    BoardDesk& desk = m_canvas->desk();
    Edit edit = takeOver(*size, m_widen->isChecked());
    const QString label = QString::fromStdString(size->label);
    const bool deep = line()->depth.matters();
    // Tried first, so that a refusal is told beside the sheet.
    if (const auto fine = edit.apply(desk.project()); !fine) {
        desk.apply(tl::make_unexpected(fine.error()));
        return;
    }
    const bool done = desk.apply(std::move(edit));
    Q_EMIT this->done();
    if (done)
        Q_EMIT desk.told("The donor's " + label + " is the one measured on the picture now" +
                             (deep ? "." : "; the line counts as lying in the sheet's plane."),
                         true);
}

} // namespace slab::ui
