#include "ui/board/picture_strip.h"
#include "ui/board/board_canvas.h"
#include "ui/board/board_deeds.h"
#include "ui/board/cut_tool.h"
#include "ui/board/picture_layer.h"
#include "ui/board/picture_tool.h"
#include "ui/paint/flow_layout.h"
#include "ui/tables/table_edits.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QComboBox>
#include <QLabel>
#include <QSignalBlocker>
#include <QSlider>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

namespace slab::ui {

namespace {

const char* const views[] = {"side", "front", "plan"};

} // namespace

PictureStrip::PictureStrip(BoardCanvas* canvas, QWidget* parent)
    : QWidget(parent), m_canvas(canvas), m_heading(new ElidedLabel), m_words(new QLabel),
      m_view(new QComboBox), m_space(new QComboBox), m_opacity(new QSlider(Qt::Horizontal)) {
    setAccessibleName(tr("the chosen picture"));
    auto* row = new FlowLayout(this, 6, 4);
    m_heading->setFixedWidth(130);
    row->addWidget(m_heading);
    for (const char* word : {"Side", "Front", "Plan"}) m_view->addItem(word);
    explain(m_view, "Elevation of the picture", "The elevation that the picture lies under.");
    row->addWidget(m_view);
    for (const char* word : {"the subject", "the donor"}) m_space->addItem(word);
    explain(m_space, "What the picture shows",
            "A picture of the subject shrinks with the scale; one of the donor keeps its size.");
    row->addWidget(m_space);
    m_opacity->setRange(5, 100);
    m_opacity->setFixedWidth(90);
    explain(m_opacity, "How strong the picture shows", "Pale to draw over it, strong to see it.");
    row->addWidget(m_opacity);
    const QStringList names = formulaNames(canvas->desk().project());
    m_distance = new StripEntry("distance", names);
    m_width = new StripEntry("rectangle", names);
    m_height = new StripEntry("by", names);
    using Deed = PictureTool::Deed;
    const auto marks = [this](Deed deed) { return [this, deed] { mark(static_cast<int>(deed)); }; };
    row->startGroup();
    row->addWidget(m_distance);
    row->addWidget(button("Two points", "To scale: click two points whose distance is typed before it.",
                          marks(Deed::distance)));
    row->addWidget(button("Level", "Turns the picture until the line of the two points is level.",
                          [this] { level("0 deg"); }));
    row->addWidget(button("Plumb", "Turns the picture until the line of the two points is plumb.",
                          [this] { level("90 deg"); }));
    row->startGroup();
    row->addWidget(m_width);
    row->addWidget(m_height);
    row->addWidget(
        button("Four corners",
               "Makes a photo taken at an angle true: click the corners of a rectangle whose sides "
               "are typed before it.",
               marks(Deed::corners)));
    row->addWidget(button("Swap",
                          "Swaps the rectangle's two sides: the first corner to the second is the width.",
                          [this] { swapSides(); }));
    row->startGroup(); // what is done with it begins a row of its own where one row does not hold all
    row->addWidget(button("Crop", "Keeps a part of the picture: drag a box.", marks(Deed::crop)));
    row->addWidget(button("Cut into views",
                          "Makes several pictures of a sheet with several views: drag a box round each.",
                          [this] { cutViews(); }));
    row->addWidget(button("Mark", "Marks features that points snap to.", marks(Deed::feature)));
    row->addWidget(
        button("Measure on it",
               "Lines whose lengths are told with their uncertainty; each can become a size of the donor.",
               marks(Deed::line)));
    m_hide = button("Hide", "Hides the picture; its marks go with it.", [this] { toggleHidden(); });
    row->addWidget(m_hide);
    row->addWidget(button("Remove", "Takes the picture off the sheet; its file stays.", [this] {
        removeChosen(m_canvas->desk());
        Q_EMIT done();
    }));
    m_words->setProperty("role", "quiet");
    m_words->setFont(Theme::words(12));
    m_words->setWordWrap(true);
    m_words->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    row->addWidget(m_words);
    for (const auto& [entry, key] : {std::pair{m_distance, "distance"}, std::pair{m_width, "rectangle_width"},
                                     std::pair{m_height, "rectangle_height"}}) {
        entry->hold(92);
        connect(entry, &StripEntry::entered, this, [this, entry = entry, key = key] {
            take(entry, key);
            Q_EMIT done();
        });
        connect(entry, &StripEntry::left, this, [this, entry = entry, key = key] { take(entry, key); });
        connect(entry, &StripEntry::givenUp, this, &PictureStrip::done);
    }
    connect(m_view, &QComboBox::activated, this, [this](int index) {
        if (serves())
            m_canvas->desk().apply(
                setValue(at("view"), quotedJson(views[index]), "Move picture to another view"));
    });
    connect(m_space, &QComboBox::activated, this, [this](int index) {
        if (serves())
            m_canvas->desk().apply(setValue(at("space"), quotedJson(index == 1 ? "build" : "subject"),
                                            "Change what the picture shows"));
    });
    connect(m_opacity, &QSlider::valueChanged, this, [this](int value) {
        if (!serves()) return;
        Edit edit = setValue(at("opacity"), quotedJson(std::to_string(value) + " / 100"),
                             "Change how strong a picture shows", "picture opacity " + at("opacity"));
        m_canvas->desk().apply(std::move(edit));
        if (!m_opacity->isSliderDown()) m_canvas->desk().session()->settle();
    });
    connect(m_opacity, &QSlider::sliderReleased, this, [this] { m_canvas->desk().session()->settle(); });
    connect(&canvas->desk(), &BoardDesk::choiceChanged, this, &PictureStrip::refresh);
    connect(&canvas->pictures(), &PictureLayer::changed, this, &PictureStrip::refresh);
    refresh();
}

QToolButton* PictureStrip::button(const QString& words, const QString& tip, std::function<void()> deed) {
    auto* one = new QToolButton;
    one->setText(words);
    explain(one, words, tip);
    connect(one, &QToolButton::clicked, this, [deed = std::move(deed)] { deed(); });
    return one;
}

bool PictureStrip::serves() const {
    const BoardDesk& desk = m_canvas->desk();
    return desk.choice().picture >= 0 &&
           desk.choice().picture < static_cast<int>(desk.project().pictures.size());
}

std::string PictureStrip::at(const char* key) const {
    return "/pictures/" + std::to_string(m_canvas->desk().choice().picture) + "/" + key;
}

void PictureStrip::refresh() {
    if (!serves()) return;
    const int index = m_canvas->desk().choice().picture;
    const Picture& picture = m_canvas->desk().project().pictures[static_cast<std::size_t>(index)];
    m_heading->setText(QString::fromStdString(picture.name));
    m_words->setText(m_canvas->pictures().words(index));
    giveRoom();
    m_distance->show(QString::fromStdString(picture.distance));
    m_width->show(QString::fromStdString(picture.rectangle_width));
    m_height->show(QString::fromStdString(picture.rectangle_height));
    m_hide->setText(picture.hidden ? "Show" : "Hide");
    const QSignalBlocker quietView(m_view), quietSlider(m_opacity), quietSpace(m_space);
    m_space->setCurrentIndex(picture.space == Space::build ? 1 : 0);
    for (int i = 0; i < 3; ++i)
        if (picture.view == views[i]) m_view->setCurrentIndex(i);
    const PlacedPicture* placed = m_canvas->pictures().at(index);
    if (placed && !m_opacity->isSliderDown())
        m_opacity->setValue(static_cast<int>(placed->opacity * 100 + 0.5));
}

/// As many rows as the words take, up to three; what takes more is in the tip.
void PictureStrip::giveRoom() {
    constexpr int least = 120, most = 900, rows = 3; // px
    const QString words = m_words->text();
    const QFontMetrics metrics = m_words->fontMetrics();
    const int room = std::clamp(width(), least, most),
              wanted = std::clamp(metrics.horizontalAdvance(words) + 8, least, room);
    m_words->setFixedSize(wanted,
                          std::min(m_words->heightForWidth(wanted), rows * metrics.lineSpacing() + 2));
    m_words->setToolTip(words);
}

void PictureStrip::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    if (event->oldSize().width() != width() && serves()) giveRoom();
}

void PictureStrip::take(StripEntry* entry, const char* key) {
    if (!serves() || !entry->isTyped()) return;
    StripField field;
    field.label = entry->label();
    field.pointers = {at(key)};
    const Picture& picture =
        m_canvas->desk().project().pictures[static_cast<std::size_t>(m_canvas->desk().choice().picture)];
    // Before its points are marked, a size is only kept for the marking.
    const bool marked = entry == m_distance ? !picture.from.x.empty() : picture.corners.size() == 4;
    if (!marked) return;
    if (!m_canvas->desk().apply(typedInto(*m_canvas->desk().session(), field, entry->edit()->text())))
        entry->restore();
}

void PictureStrip::mark(int deed) {
    if (!serves()) return;
    const auto what = static_cast<PictureTool::Deed>(deed);
    const Unit unit = m_canvas->desk().scope().unit;
    const auto typed = [&](StripEntry* entry) {
        return QString::fromStdString(withUnit(entry->edit()->text().trimmed().toStdString(), unit));
    };
    const bool corners = what == PictureTool::Deed::corners;
    StripEntry* missing = what == PictureTool::Deed::distance && typed(m_distance).isEmpty() ? m_distance
                          : corners && typed(m_width).isEmpty()                              ? m_width
                          : corners && typed(m_height).isEmpty()                             ? m_height
                                                                                             : nullptr;
    if (missing) {
        Q_EMIT m_canvas->desk().told("Type the known size first.");
        missing->edit()->setFocus(Qt::OtherFocusReason);
        return;
    }
    auto tool = std::make_unique<PictureTool>(*m_canvas, m_canvas->desk().choice().picture, what);
    tool->setFigures(typed(corners ? m_width : m_distance), typed(m_height));
    m_canvas->setTool(std::move(tool));
    Q_EMIT done();
}

void PictureStrip::swapSides() {
    if (!serves()) return;
    BoardDesk& desk = m_canvas->desk();
    const QString width = m_width->edit()->text(), height = m_height->edit()->text();
    const Picture& picture = desk.project().pictures[static_cast<std::size_t>(desk.choice().picture)];
    if (picture.corners.size() != 4) { // they are only kept for the marking
        m_width->edit()->setText(height);
        m_height->edit()->setText(width);
        return;
    }
    desk.apply(chained("Swap the rectangle's sides",
                       {setValue(at("rectangle_width"), quotedJson(picture.rectangle_height)),
                        setValue(at("rectangle_height"), quotedJson(picture.rectangle_width))}));
    const PlacedPicture* placed = m_canvas->pictures().at(desk.choice().picture);
    if (placed && !placed->doubt.empty())
        Q_EMIT desk.told(QString::fromStdString(placed->name + ": " + placed->doubt));
    Q_EMIT done();
}

void PictureStrip::cutViews() {
    if (!serves()) return;
    const int index = m_canvas->desk().choice().picture;
    const PlacedPicture* picture = m_canvas->pictures().at(index);
    if (!picture || picture->scale == PlacedPicture::Scale::none) {
        Q_EMIT m_canvas->desk().told(
            "The sheet's size is not known yet: type a distance and mark its two points.");
        m_distance->edit()->setFocus(Qt::OtherFocusReason);
        return;
    }
    m_canvas->setTool(std::make_unique<CutTool>(*m_canvas, index));
    Q_EMIT done();
}

void PictureStrip::level(const char* angle) {
    if (!serves()) return;
    BoardDesk& desk = m_canvas->desk();
    const Picture& picture = desk.project().pictures[static_cast<std::size_t>(desk.choice().picture)];
    if (picture.from.x.empty() || picture.to.x.empty()) {
        Q_EMIT desk.told("Mark two points of a line that is level or plumb in truth first: Two points.");
        return;
    }
    const bool there = picture.turn == angle;
    if (!there) desk.apply(setValue(at("turn"), quotedJson(angle), "Turn picture"));
    Q_EMIT desk.told(QString(there ? "The line of the two points lies %1 already."
                                   : "The line of the two points lies %1 now.")
                         .arg(QString(angle).startsWith("90") ? "plumb" : "level"));
}

void PictureStrip::toggleHidden() {
    if (!serves()) return;
    const bool hidden = m_canvas->desk()
                            .project()
                            .pictures[static_cast<std::size_t>(m_canvas->desk().choice().picture)]
                            .hidden;
    m_canvas->desk().apply(
        setValue(at("hidden"), hidden ? "false" : "true", hidden ? "Show picture" : "Hide picture"));
    refresh();
}

void PictureStrip::begin(const QString& typed) {
    m_distance->edit()->setFocus(Qt::ShortcutFocusReason);
    if (!typed.isEmpty()) m_distance->edit()->setText(typed);
}

} // namespace slab::ui
