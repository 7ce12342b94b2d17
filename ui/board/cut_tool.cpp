#include "ui/board/cut_tool.h"
#include "ui/board/board_canvas.h"
#include "ui/board/picture_layer.h"
#include "ui/paint/flow_layout.h"
#include "ui/paint/page_painter.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QKeyEvent>
#include <QPainter>
#include <QToolButton>
#include <algorithm>

namespace slab::ui {

namespace {

struct Elevation {
    const char *view, *word;
    int key;
};
constexpr Elevation elevations[] = {
    {"side", "Side", Qt::Key_S}, {"front", "Front", Qt::Key_F}, {"plan", "Plan", Qt::Key_P}};

QString elevationWord(const std::string& view) {
    for (const Elevation& e : elevations)
        if (view == e.view) return e.word;
    return {};
}

} // namespace

CutTool::CutTool(BoardCanvas& canvas, int picture) : BoardTool(canvas), m_picture(picture) {}

const PlacedPicture* CutTool::sheet() const {
    return m_canvas.pictures().at(m_picture);
}

QString CutTool::sheetName() const {
    const PlacedPicture* picture = sheet();
    return picture ? QString::fromStdString(picture->name) : QString();
}

std::optional<BoardView> CutTool::keepsTo() const {
    const PlacedPicture* picture = sheet();
    if (!picture) return {};
    return PictureLayer::viewOf(*picture);
}

BoardPrompt CutTool::prompt() const {
    if (m_cuts.empty()) return {"Drag a box round the first view of the sheet", 1, 0};
    return {"Drag a box round the next view, or cut with Return", static_cast<int>(m_cuts.size()) + 1, 0};
}

QString CutTool::words() const {
    if (m_cuts.empty()) return "Drag a box round the first view of the sheet";
    return "Drag a box round each view · S, F, P: side, front, plan · drag its edges · Return cuts";
}

double CutTool::least() const {
    return leastBox / m_canvas.view().scale;
}

std::string CutTool::nextView() const {
    for (const Elevation& e : elevations)
        if (std::none_of(m_cuts.begin(), m_cuts.end(), [&](const ViewCut& c) { return c.view == e.view; }))
            return e.view;
    return "side";
}

void CutTool::press(const BoardPointer& pointer) {
    const PlacedPicture* picture = sheet();
    if (!picture) return;
    move(pointer);
    m_down = true;
    m_from = pointer.at;
    m_grip = m_hover;
    m_fresh = m_over < 0;
    if (!m_fresh) {
        m_chosen = m_over;
    } else {
        m_cuts.push_back({{}, nextView(), boxBetween(*picture, m_from, m_from)});
        m_chosen = static_cast<int>(m_cuts.size()) - 1;
    }
    m_held = m_cuts[static_cast<std::size_t>(m_chosen)].box;
}

void CutTool::move(const BoardPointer& pointer) {
    const PlacedPicture* picture = sheet();
    m_over = -1;
    m_hover = {};
    for (std::size_t i = m_cuts.size(); picture && i-- > 0;) {
        m_hover = gripAt(m_cuts[i].box, pointer.at, m_canvas.reach());
        if (!m_hover.any()) continue;
        m_over = static_cast<int>(i);
        return;
    }
}

void CutTool::drag(const BoardPointer& pointer) {
    const PlacedPicture* picture = sheet();
    if (!m_down || !picture || m_chosen < 0) return;
    Box2& box = m_cuts[static_cast<std::size_t>(m_chosen)].box;
    box = m_fresh ? boxBetween(*picture, m_from, pointer.at)
                  : pulled(*picture, m_held, m_grip, pointer.at - m_from, least());
}

void CutTool::release(const BoardPointer& pointer) {
    if (!m_down) return;
    drag(pointer);
    m_down = false;
    // A click is no view.
    if (m_fresh && m_chosen >= 0 &&
        m_cuts[static_cast<std::size_t>(m_chosen)].box.size().minCoeff() < least())
        drop();
    m_fresh = false;
    move(pointer);
}

void CutTool::setElevation(const std::string& view) {
    if (m_chosen < 0) return;
    m_cuts[static_cast<std::size_t>(m_chosen)].view = view;
    m_canvas.update();
    Q_EMIT m_canvas.pointed();
}

void CutTool::drop() {
    if (m_chosen < 0) return;
    m_cuts.erase(m_cuts.begin() + m_chosen);
    m_chosen = static_cast<int>(m_cuts.size()) - 1;
    m_over = -1;
    m_canvas.update();
    Q_EMIT m_canvas.pointed();
}

bool CutTool::cut() {
    const PlacedPicture* picture = sheet();
    if (!picture) return false;
    std::vector<ViewCut> cuts = m_cuts;
    for (ViewCut& c : cuts) c.name = picture->name + " " + c.view;
    const auto first = static_cast<int>(
        std::find_if(cuts.begin(), cuts.end(), [](const ViewCut& c) { return c.view == "side"; }) -
        cuts.begin());
    const int index = m_picture + (first < static_cast<int>(cuts.size()) ? first : 0);
    BoardDesk& board = desk();
    // Tried first, so that a refusal is told beside the sheet.
    Edit edit = cutViews(*picture, std::move(cuts), board.scene().scale);
    if (const auto fine = edit.apply(board.project()); !fine)
        return board.apply(tl::make_unexpected(fine.error()));
    if (!board.apply(std::move(edit))) return false;
    m_cuts.clear();
    m_chosen = -1;
    board.choose(
        {parseView(board.project().pictures[static_cast<std::size_t>(index)].view).value_or(BoardView::side),
         {},
         {},
         -1,
         index});
    Q_EMIT m_canvas.toolDone(); // this tool is gone after that
    return true;
}

bool CutTool::key(QKeyEvent& event) {
    for (const Elevation& e : elevations)
        if (event.key() == e.key && event.modifiers() == Qt::NoModifier && m_chosen >= 0) {
            setElevation(e.view);
            return true;
        }
    switch (event.key()) {
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        drop();
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        cut();
        return true;
    default:
        return false;
    }
}

bool CutTool::cancel() {
    const bool any = !m_cuts.empty();
    m_cuts.clear();
    m_chosen = m_over = -1;
    m_down = m_fresh = false;
    return any;
}

Qt::CursorShape CutTool::cursor(const BoardPointer&) const {
    const PlacedPicture* picture = sheet();
    const int at = m_down ? m_chosen : m_over;
    if (!picture || at < 0 || m_fresh) return Qt::CrossCursor;
    return cursorFor(m_down ? m_grip : m_hover);
}

void CutTool::paint(QPainter& painter) const {
    const PlacedPicture* picture = sheet();
    if (!picture) return;
    const Palette& c = Theme::colours();
    for (std::size_t i = 0; i < m_cuts.size(); ++i) {
        const QPolygonF corners = boxOnScreen(PictureLayer::viewOf(*picture), m_cuts[i].box, m_canvas);
        const bool chosen = static_cast<int>(i) == m_chosen;
        QColor fill = c.chosen;
        fill.setAlphaF(chosen ? 0.16F : 0.07F);
        painter.setBrush(fill);
        painter.setPen(QPen(c.chosen, chosen ? 2 : 1));
        painter.drawPolygon(corners);
        if (chosen) paintGrips(painter, corners);
        drawText(painter, corners.boundingRect().center(), elevationWord(m_cuts[i].view),
                 Theme::words(14, true), c.ink, 0, c.card);
    }
}

CutStrip::CutStrip(BoardCanvas* canvas, QWidget* parent)
    : QWidget(parent), m_canvas(canvas), m_heading(new ElidedLabel), m_words(new ElidedLabel) {
    setAccessibleName(tr("views of a picture sheet"));
    auto* row = new FlowLayout(this, 6, 4);
    m_heading->setFixedWidth(200);
    row->addWidget(m_heading);
    const auto add = [&](const QString& words, const QString& tip, auto deed) {
        auto* button = new QToolButton;
        button->setText(words);
        explain(button, words, tip);
        row->addWidget(button);
        connect(button, &QToolButton::clicked, this, [this, deed] {
            if (tool()) deed();
            Q_EMIT done();
        });
        return button;
    };
    for (std::size_t i = 0; i < 3; ++i) {
        const Elevation& e = elevations[i];
        m_views[i] = add(e.word,
                         QString("The chosen box is the %1 (%2).")
                             .arg(QString(e.word).toLower(), QKeySequence(e.key).toString()),
                         [this, view = e.view] { tool()->setElevation(view); });
        m_views[i]->setCheckable(true);
    }
    m_drop = add("Drop the box", "The chosen box goes (Delete).", [this] { tool()->drop(); });
    m_cut = add("Cut into views",
                "Makes a picture of each box in its elevation, at the scale of the sheet (Return).",
                [this] { tool()->cut(); });
    add("Give up", "The sheet stays as it is (Escape twice).", [this] { Q_EMIT m_canvas->toolDone(); });
    m_words->setQuiet(true);
    m_words->setFont(Theme::words(12));
    m_words->setFixedWidth(260);
    row->addWidget(m_words);
    refresh();
}

CutTool* CutStrip::tool() const {
    return dynamic_cast<CutTool*>(&m_canvas->tool());
}

void CutStrip::refresh() {
    const CutTool* cutting = tool();
    if (!cutting) return;
    m_heading->setText("Views of " + cutting->sheetName());
    const auto& cuts = cutting->cuts();
    const bool any = cutting->chosen() >= 0;
    QStringList views;
    for (const ViewCut& c : cuts) views << elevationWord(c.view).toLower();
    m_words->setText(cuts.empty() ? QString("no box yet") : views.join(", "));
    for (std::size_t i = 0; i < 3; ++i) {
        m_views[i]->setEnabled(any);
        m_views[i]->setChecked(any &&
                               cuts[static_cast<std::size_t>(cutting->chosen())].view == elevations[i].view);
    }
    m_drop->setEnabled(any);
    m_cut->setEnabled(!cuts.empty());
}

} // namespace slab::ui
