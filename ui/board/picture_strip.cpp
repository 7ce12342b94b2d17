#include "ui/board/picture_strip.h"
#include "ui/board/board_canvas.h"
#include "ui/board/board_deeds.h"
#include "ui/board/picture_layer.h"
#include "ui/board/picture_tool.h"
#include "ui/paint/flow_layout.h"
#include "ui/tables/table_edits.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QResizeEvent>
#include <QSignalBlocker>
#include <QSlider>
#include <QToolButton>
#include <algorithm>
#include <utility>

namespace slab::ui {

namespace {

const char* const views[] = {"side", "front", "plan"};

} // namespace

PictureStrip::PictureStrip(BoardCanvas* canvas, QWidget* parent)
    : QWidget(parent), m_canvas(canvas), m_row(new FlowLayout(this, 6, 4)), m_heading(new ElidedLabel),
      m_words(new QLabel), m_view(new QComboBox), m_space(new QComboBox),
      m_opacity(new QSlider(Qt::Horizontal)) {
    setAccessibleName(tr("the chosen picture"));
    m_heading->setFixedWidth(130);
    m_row->addWidget(m_heading);
    buildSections();
    buildPlace();
    buildScale();
    buildDeeds();
    buildDepth();
    m_words->setProperty("role", "quiet");
    m_words->setFont(Theme::words(12));
    m_words->setWordWrap(true);
    m_words->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    m_row->addWidget(m_words);
    connectAll();
    refresh();
}

/// Where it lies and how strong it shows.
void PictureStrip::buildPlace() {
    startSection(placeSection);
    for (const char* word : {"Side", "Front", "Plan"}) m_view->addItem(word);
    explain(m_view, "Elevation of the picture", "The elevation that the picture lies under.");
    add(m_view);
    for (const char* word : {"the subject", "the donor"}) m_space->addItem(word);
    explain(m_space, "What the picture shows",
            "A picture of the subject shrinks with the scale; one of the donor keeps its size.");
    add(m_space);
    m_opacity->setRange(5, 100);
    m_opacity->setFixedWidth(90);
    auto* strength = new QLabel("strength");
    strength->setProperty("role", "quiet");
    strength->setBuddy(m_opacity);
    add(strength);
    explain(m_opacity, "How strong the picture shows", "Pale to draw over it, strong to see it.");
    add(m_opacity);
    m_right = entry("x", "x",
                    "Where its first point stands along the elevation; before one is marked, the lower "
                    "left corner of the rectangle or of the picture.");
    m_up = entry("z", "y", "The same, up.");
}

/// What gives it its size and its direction.
void PictureStrip::buildScale() {
    using Deed = PictureTool::Deed;
    const auto marks = [this](Deed deed) { return [this, deed] { mark(static_cast<int>(deed)); }; };
    startSection(scaleSection);
    m_distance = entry("distance", "distance", "What lies between two points of it in truth.");
    m_markButtons << button("Two points", "To scale: click two points whose distance is typed before it.",
                            marks(Deed::distance));
    button("Level", "Turns the picture: click two points of a line that is level in truth.",
           [this] { level(PictureTool::levelWord); });
    button("Plumb", "Turns the picture: click two points of a line that is plumb in truth.",
           [this] { level(PictureTool::plumbWord); });
    m_turned = entry("turned", "rotation",
                     "An angle instead of a line: turned by this from as pictured, anticlockwise.");
    startSection(rectangleSection);
    m_width = entry("rectangle", "rectangle_width",
                    "The rectangle's first side: from the first corner to the second.");
    m_height = entry("by", "rectangle_height", "Its other side.");
    m_markButtons << button("Four corners",
                            "Makes a photo taken at an angle true: click the corners of a rectangle whose "
                            "sides are typed before it.",
                            marks(Deed::corners));
    button("Swap", "Swaps the rectangle's two sides: the first corner to the second is the width.",
           [this] { swapSides(); });
}

void PictureStrip::buildDeeds() {
    using Deed = PictureTool::Deed;
    const auto marks = [this](Deed deed) { return [this, deed] { mark(static_cast<int>(deed)); }; };
    startSection(useSection);
    button("Crop", "Keeps a part of the picture: drag a box.", marks(Deed::crop));
    button("Cut into views", "Makes several pictures of a sheet with several views: drag a box round each.",
           [this] { cutViews(); });
    button("Mark", "Marks features that points snap to.", marks(Deed::feature));
    button("Measure on it",
           "Lines whose lengths are told with their uncertainty; each can become a size of the donor.",
           marks(Deed::line));
    m_hide = button("Hide", "Hides the picture; its marks go with it.", [this] { toggleHidden(); });
    button("Remove", "Takes the picture off the sheet; its file stays.", [this] {
        removeChosen(m_canvas->desk());
        Q_EMIT done();
    });
    m_file = button("Choose the file…", "Another file for this picture; its marks stay where they are.",
                    [this] { Q_EMIT fileWanted(); });
    m_accept = button("Accept the changed file",
                      "The file is another one than was marked: check that the marks still sit where they "
                      "should, then accept it.",
                      [this] { acceptFile(); });
}

/// A photo is true in one plane only: how far what is measured lies before it, and how far the camera was.
void PictureStrip::buildDepth() {
    startSection(depthSection);
    m_depth = entry("in front by", "depth",
                    "How far what you measure lies in front of the sheet, towards the camera (behind it: "
                    "negative). Nearer things look larger. Each line can have its own.");
    m_depthError = entry("±", "depth_error", "How sure that is; empty: a twentieth of it.");
    m_camera = entry("camera", "camera",
                     "How far the camera stood from the sheet; empty: as the four corners tell it.");
    m_cameraError = entry("±", "camera_error", "How sure that is; empty: a twentieth of it.");
}

StripEntry* PictureStrip::entry(const QString& label, const char* key, const QString& tip) {
    auto* one = new StripEntry(label, formulaNames(m_canvas->desk().project()));
    one->hold(label == "±" ? 60 : 92);
    explain(one->edit(), label, tip);
    add(one);
    m_entries.push_back({one, key});
    return one;
}

void PictureStrip::connectAll() {
    for (const auto& [one, key] : m_entries) {
        connect(one, &StripEntry::entered, this, [this, entry = one, key = key] {
            take(entry, key);
            Q_EMIT done();
        });
        connect(one, &StripEntry::left, this, [this, entry = one, key = key] {
            // A size on its way to the points that are marked next is not one of those that are marked.
            if (!m_markButtons.contains(qobject_cast<QToolButton*>(QApplication::focusWidget())))
                take(entry, key);
        });
        connect(one, &StripEntry::givenUp, this, &PictureStrip::done);
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
    connect(&m_canvas->desk(), &BoardDesk::choiceChanged, this, &PictureStrip::refresh);
    connect(&m_canvas->pictures(), &PictureLayer::changed, this, &PictureStrip::refresh);
}

QToolButton* PictureStrip::button(const QString& words, const QString& tip, std::function<void()> deed) {
    auto* one = new QToolButton;
    one->setText(words);
    explain(one, words, tip);
    connect(one, &QToolButton::clicked, this, [deed = std::move(deed)] { deed(); });
    add(one);
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
    if (!serves()) {
        m_seen = {-1, -1}; // chosen anew, it opens with what it needs
        return;
    }
    const int index = m_canvas->desk().choice().picture;
    const Picture& picture = m_canvas->desk().project().pictures[static_cast<std::size_t>(index)];
    m_heading->setText(QString::fromStdString(picture.name));
    m_words->setText(m_canvas->pictures().words(index));
    giveRoom();
    showFigures(picture);
    openWhatIsNeeded(index);
    m_hide->setText(picture.hidden ? "Show" : "Hide");
    const QSignalBlocker quietView(m_view), quietSlider(m_opacity), quietSpace(m_space);
    m_space->setCurrentIndex(picture.space == Space::build ? 1 : 0);
    for (int i = 0; i < 3; ++i)
        if (picture.view == views[i]) m_view->setCurrentIndex(i);
    const PlacedPicture* placed = m_canvas->pictures().at(index);
    if (placed && !m_opacity->isSliderDown())
        m_opacity->setValue(static_cast<int>(placed->opacity * 100 + 0.5));
}

void PictureStrip::showFigures(const Picture& picture) {
    const auto view = parseView(picture.view).value_or(BoardView::side);
    const int index = m_canvas->desk().choice().picture;
    const bool same = std::exchange(m_figuresOf, index) == index;
    m_right->rename(axisOf(view, 0));
    m_up->rename(axisOf(view, 1));
    for (const auto& [entry, text] :
         {std::pair{m_right, &picture.x}, std::pair{m_up, &picture.y},
          std::pair{m_distance, &picture.distance}, std::pair{m_width, &picture.rectangle_width},
          std::pair{m_height, &picture.rectangle_height}, std::pair{m_depth, &picture.depth},
          std::pair{m_depthError, &picture.depth_error}, std::pair{m_camera, &picture.camera},
          std::pair{m_cameraError, &picture.camera_error}})
        // A size typed before its points are marked is kept for them.
        if (!(same && isForMarks(entry) && !isMarkedFor(entry) && entry->isTyped()))
            entry->show(QString::fromStdString(*text));
    showPlace(picture);
    m_turned->show(m_canvas->pictures().turnText(index));
    m_camera->built()->setText(m_canvas->pictures().cameraWords(index));
}

/// Its place is kept to a thousandth; beside that it is read as other lengths are.
void PictureStrip::showPlace(const Picture& picture) {
    const BoardDesk& desk = m_canvas->desk();
    for (StripEntry* one : {m_right, m_up}) {
        const QString text = one->edit()->text();
        const Reading reading = readingOf(desk, text, true, picture.space);
        const bool plain = !isInch(desk.scene().units) || !text.contains('.');
        one->tell(plain && reading.trouble.isEmpty() ? Reading{} : reading);
    }
}

/// As many rows as the words take, up to two; what takes more is in the tip.
void PictureStrip::giveRoom() {
    constexpr int least = 120, most = 900, rows = 2; // px
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
    if (event->oldSize().width() == width() || !serves()) return;
    giveRoom();
    fold();
}

void PictureStrip::begin(const QString& typed) {
    reveal(m_distance);
    m_distance->edit()->setFocus(Qt::ShortcutFocusReason);
    if (!typed.isEmpty()) m_distance->edit()->setText(typed);
}

} // namespace slab::ui
