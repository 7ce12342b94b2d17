#include "ui/ride/ride_page.h"
#include "ui/ride/ride_canvas.h"
#include "ui/ride/ride_list.h"
#include "ui/theme/card.h"
#include "ui/theme/empty_state.h"
#include "ui/theme/theme.h"
#include <QHBoxLayout>
#include <QLabel>
#include <QSplitter>
#include <QStackedLayout>
#include <QVBoxLayout>

namespace slab::ui {

namespace {
constexpr int besideFrom = 620; ///< px: list and drawing lie side by side
}

RidePage::RidePage(Session* session, const QString& name, const QString& says, QWidget* parent)
    : QWidget(parent), m_session(session), m_name(name), m_title(new QLabel(name)),
      m_stack(new QStackedLayout), m_split(new QSplitter(Qt::Horizontal)),
      m_list(new RideList(name + tr(", figures"), says)), m_canvas(new RideCanvas(name + tr(", drawing"))),
      m_strip(new QHBoxLayout) {
    setAccessibleName(name);
    setAccessibleDescription(says);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(4);
    m_title->setFont(Theme::words(14, true));
    m_title->setVisible(false);
    all->addWidget(m_title);
    all->addLayout(m_stack, 1);
    auto* right = new QWidget;
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    column->addWidget(m_canvas, 1);
    column->addLayout(m_strip);
    m_strip->setSpacing(8);
    m_split->setHandleWidth(space::between);
    m_split->setChildrenCollapsible(false);
    m_split->setAccessibleName(name);
    m_split->addWidget(m_list);
    m_split->addWidget(right);
    m_split->setStretchFactor(0, 0);
    m_split->setStretchFactor(1, 1);
    m_stack->addWidget(m_split);
    m_noDonor = addEmpty(tr("What carries it? With a donor this shows how it stands, what it passes on its "
                            "way, what is seen from it and how one gets out."),
                         tr("Take a powered chair"), [this] {
                             take(setValue("/donor/kind", "\"powered_chair\"", "Take a powered chair"));
                         });
    m_waiting = addEmpty(tr("As soon as the body has plates, it is tried out here."), {}, {});
    m_canvas->setPainter([this](QPainter& painter, const QRectF& area, std::vector<RideSpot>& spots) {
        paint(painter, area, spots);
    });
    connect(m_list, &RideList::chosen, this, &RidePage::choose);
    connect(m_canvas, &RideCanvas::pointed, this, [this](int row) {
        m_list->choose(row);
        choose(row);
    });
    setFocusProxy(m_list);
}

RidePage::~RidePage() = default;

const Evaluation& RidePage::evaluation() const {
    return m_session->evaluation();
}

EmptyState* RidePage::addEmpty(const QString& words, const QString& button, std::function<void()> deed) {
    auto* empty = new EmptyState(words, button);
    m_stack->addWidget(empty);
    if (deed) connect(empty, &EmptyState::clicked, this, [deed = std::move(deed)] { deed(); });
    return empty;
}

void RidePage::take(const Edit& edit) {
    if (m_session->apply(edit)) m_session->settle();
}

EmptyState* RidePage::lacking() const {
    const Project& project = m_session->project();
    if (project.donor.kind == "none" && project.donor.wheels.empty()) return m_noDonor;
    if (!evaluation().trial || !evaluation().plates || evaluation().plates->plates.empty()) return m_waiting;
    return nullptr;
}

const EmptyState* RidePage::emptyShown() const {
    return qobject_cast<const EmptyState*>(m_stack->currentWidget());
}

void RidePage::show(std::shared_ptr<const BodyShapes> shapes) {
    if (outdated().isEmpty())
        m_shapes = std::move(shapes);
    else if (m_shapesOf != evaluation().revision)
        m_shapes = std::make_shared<const BodyShapes>(bodyShapes(evaluation()));
    m_shapesOf = evaluation().revision;
    EmptyState* empty = lacking();
    m_stack->setCurrentWidget(empty ? static_cast<QWidget*>(empty) : m_split);
    refreshControls();
    refreshRows();
    refreshControls(); // of the row that is chosen now
}

void RidePage::refreshRows() {
    m_list->show(rows());
    m_list->setFaint(!outdated().isEmpty());
    if (m_list->chosenRow() < 0) m_list->choose(favourite(m_list->rows()));
    QStringList words;
    for (const RideRow& row : m_list->rows())
        if (!row.heading && words.size() < 16) words << row.spoken();
    m_canvas->setWords(words.join(". "));
    m_canvas->update();
}

void RidePage::setTitled(bool titled) {
    m_title->setVisible(titled);
}

const RideRow* RidePage::chosen() const {
    const int row = m_list->chosenRow();
    return row < 0 ? nullptr : &m_list->rows()[static_cast<std::size_t>(row)];
}

void RidePage::choose(int row) {
    if (row < 0 || static_cast<std::size_t>(row) >= m_list->rows().size()) return;
    const RideRow& chosen = m_list->rows()[static_cast<std::size_t>(row)];
    Selection place = chosen.place;
    if (chosen.thing != RideThing::untried) place.result = chosen.thing, place.resultIndex = chosen.index;
    refreshControls();
    m_canvas->update();
    if (!(place == Selection{})) m_session->select(place);
}

bool RidePage::reveal(const QString& part) {
    for (std::size_t i = 0; i < m_list->rows().size(); ++i) {
        const RideRow& row = m_list->rows()[i];
        if (row.heading || row.place.part.isEmpty() || row.place.part != part) continue;
        const RideRow* now = chosen();
        if (!now || now->place.part != part) m_list->choose(static_cast<int>(i));
        refreshControls();
        m_canvas->update();
        return true;
    }
    return false;
}

void RidePage::paint(QPainter& painter, const QRectF& area, std::vector<RideSpot>& spots) const {
    if (!m_shapes || !evaluation().trial) return;
    const QString old = outdated();
    painter.setOpacity(old.isEmpty() ? 1 : 0.4);
    draw({painter, area, evaluation(), *m_shapes, m_list->rows(), m_list->chosenRow(), spots});
    painter.setOpacity(1);
    if (!old.isEmpty())
        inkWords(painter, {area.left() + 6, area.top() + 14}, old, Theme::colours().ink, Anchor::left, true,
                 13);
}

void RidePage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    const bool beside = width() >= besideFrom;
    const Qt::Orientation wanted = beside ? Qt::Horizontal : Qt::Vertical;
    if (m_split->orientation() == wanted && event->oldSize().isValid() &&
        event->oldSize().width() == width() && event->oldSize().height() == height())
        return;
    m_split->setOrientation(wanted);
    if (beside) {
        const int figures = std::clamp(width() * 32 / 100, 250, 360);
        m_split->setSizes({figures, width() - figures - space::between});
    } else {
        m_split->setSizes({height() * 38 / 100, height() * 62 / 100});
    }
}

void RidePage::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange) m_canvas->update();
    QWidget::changeEvent(event);
}

} // namespace slab::ui
