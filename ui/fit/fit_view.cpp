#include "ui/fit/fit_view.h"
#include "ui/fit/fit_canvas.h"
#include "ui/fit/fit_hand.h"
#include "ui/fit/fit_menu.h"
#include "ui/fit/fit_prompt.h"
#include "ui/fit/pill.h"
#include "ui/fit/scene_options.h"
#include "ui/fit/soft_render.h"
#include "ui/theme/empty_state.h"
#include "ui/theme/theme.h"
#include <QApplication>
#include <QCursor>
#include <QEvent>
#include <QMenu>
#include <QStackedLayout>
#include <QVBoxLayout>
#include <QVariantAnimation>
#include <QWindow>
#include <algorithm>

namespace slab::ui {

namespace {
constexpr int mostPills = 5;
}

struct FitView::Private {
    FitView* q;
    Session* session;
    FitControls* controls = nullptr;
    FitHand* hand = nullptr;
    std::unique_ptr<FitCanvas> canvas;
    QWidget* stage = nullptr; ///< holds the canvas and the labels over it
    EmptyState* empty = nullptr;
    QStackedLayout* stack = nullptr;
    SceneBuilder builder;
    SceneStyle style;
    std::vector<std::unique_ptr<Pill>> pills; ///< gone before the canvas that they lie on
    std::unique_ptr<Pill> readout;
    std::unique_ptr<FitPrompt> prompt;
    QVariantAnimation glide;
    ViewCamera from, to;
    bool fitted = false, hadShell = false;
    bool byHand = false;   ///< the builder has turned, moved or zoomed since the body was last fitted
    std::size_t forms = 0; ///< in the document when the scene was last made
    std::uint64_t document = 0;

    void build();
    void connectAll();
    void refreshScene();
    void refreshCamera();
    void keepInView();
    void placePills();
    void showReadout();
    void resized();
    void glideTo(const ViewCamera& camera);
    void look(Direction direction);
    void fit(bool softly);
    void startSection();
    [[nodiscard]] const FitPair* tightest() const;
};

FitView::FitView(Session* session, QWidget* parent) : QWidget(parent), m(std::make_unique<Private>()) {
    m->q = this;
    m->session = session;
    m->build();
    m->connectAll();
    m->refreshScene();
}

FitView::~FitView() {
    m->glide.stop();
    m->canvas->surface()->removeEventFilter(this);
    m->canvas->widget()->removeEventFilter(this);
}

void FitView::Private::build() {
    q->setAccessibleName(tr("Fit view"));
    q->setAccessibleDescription(tr("The body in three dimensions around donor and rider"));
    auto* all = new QVBoxLayout(q);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(8);
    auto* holder = new QWidget;
    stack = new QStackedLayout(holder);
    stage = new QWidget;
    stage->setMinimumSize(160, 120);
    auto* stageLayout = new QVBoxLayout(stage);
    stageLayout->setContentsMargins(0, 0, 0, 0);
    canvas = canUseOpenGl() ? makeGlCanvas(stage) : makePaintCanvas(stage);
    canvas->widget()->setAccessibleName(tr("body in three dimensions"));
    stageLayout->addWidget(canvas->widget());
    stack->addWidget(stage);
    empty = new EmptyState(tr("The body stands here, around donor and rider, as soon as it has a form."),
                           tr("Add a form"));
    QObject::connect(empty, &EmptyState::clicked, q, &FitView::formWanted);
    stack->addWidget(empty);
    all->addWidget(holder, 1);
    controls = new FitControls;
    all->addWidget(controls);
    hand = new FitHand(session, controls, q);
    for (int i = 0; i < mostPills; ++i) pills.push_back(std::make_unique<Pill>(canvas->surface()));
    readout = std::make_unique<Pill>(canvas->surface());
    prompt = std::make_unique<FitPrompt>(canvas->surface());
    readout->letThrough();
    q->setFocusProxy(canvas->widget());
    canvas->surface()->installEventFilter(q);
    canvas->widget()->installEventFilter(q);
    glide.setDuration(220);
    glide.setStartValue(0.0);
    glide.setEndValue(1.0);
}

void FitView::Private::connectAll() {
    QObject::connect(session, &Session::evaluationChanged, q, [this] { refreshScene(); });
    QObject::connect(session, &Session::selectionChanged, q, [this] { refreshScene(); });
    QObject::connect(controls, &FitControls::changed, q, [this] {
        hand->camera.parallel = controls->state().parallel;
        refreshScene();
    });
    QObject::connect(controls, &FitControls::directionWanted, q, [this](Direction d) { look(d); });
    QObject::connect(controls, &FitControls::fitWanted, q, [this] { fit(true); });
    QObject::connect(controls, &FitControls::sectionStarted, q, [this] { startSection(); });
    QObject::connect(hand, &FitHand::cameraMoved, q, [this] {
        glide.stop();
        byHand = true;
        controls->mark(std::nullopt);
        refreshCamera();
    });
    QObject::connect(hand, &FitHand::directionWanted, q, [this](Direction d) { look(d); });
    QObject::connect(hand, &FitHand::fitWanted, q, [this] { fit(true); });
    QObject::connect(hand, &FitHand::frameWanted, q, [this](const Box3& box) {
        ViewCamera wanted = hand->camera;
        wanted.frame(box, 1.7);
        byHand = true;
        glideTo(wanted);
    });
    QObject::connect(controls, &FitControls::mechanismWanted, q,
                     [this](const MechanismWords* kind) { hand->takeMechanism(kind); });
    QObject::connect(hand, &FitHand::menuWanted, q,
                     [this](const QPointF& at, const std::optional<MechanismSpot>& spot, double step) {
                         QMenu* menu = fitMenu(session, hand, canvas->widget(), spot, step);
                         menu->popup(canvas->widget()->mapToGlobal(at.toPoint()));
                     });
    QObject::connect(hand, &FitHand::ghostChanged, q, [this] { refreshScene(); });
    QObject::connect(hand, &FitHand::moved, q, [this] { showReadout(); });
    QObject::connect(hand, &FitHand::cursorWanted, q, [this](Qt::CursorShape shape) {
        if (auto* window = qobject_cast<QWindow*>(canvas->surface()))
            window->setCursor(shape);
        else
            canvas->widget()->setCursor(shape);
    });
    for (std::size_t i = 0; i < pills.size(); ++i) {
        QObject::connect(pills[i].get(), &Pill::clicked, q, [this, i] {
            if (i < hand->scene.links.size())
                session->selectPlate(QString::fromStdString(hand->scene.links[i].plate));
        });
    }
    QObject::connect(&glide, &QVariantAnimation::valueChanged, q, [this](const QVariant& share) {
        hand->camera = between(from, to, share.toDouble());
        refreshCamera();
    });
}

void FitView::Private::refreshScene() {
    const Evaluation& evaluation = session->evaluation();
    hand->scene = builder.build(evaluation, sceneOptions(*session, controls->state()));
    hand->scene.edge.insert(hand->scene.edge.end(), hand->ghost.begin(), hand->ghost.end());
    // Worst first, so that labels go to what matters most.
    std::stable_sort(
        hand->scene.links.begin(), hand->scene.links.end(), [](const SceneLink& a, const SceneLink& b) {
            return a.state != b.state ? a.state > b.state : (a.from - a.to).norm() < (b.from - b.to).norm();
        });
    stack->setCurrentWidget(hand->scene.empty() ? static_cast<QWidget*>(empty) : stage);
    if (session->shownDocument() != document) fitted = false;
    document = session->shownDocument();
    style.seeThrough = controls->state().seeThrough;
    canvas->showScene(hand->scene, style, session->unitStyle());
    if (!fitted && !hand->scene.empty()) {
        fitted = true;
        hand->camera.look(Direction::threeQuarter);
        controls->mark(Direction::threeQuarter);
        fit(false);
    } else {
        keepInView();
        refreshCamera();
    }
    const Box3& shell = hand->scene.shell;
    hadShell = (shell.max - shell.min).norm() > 0;
    forms = session->project().forms.size();
    showReadout();
}

/// What is new, or has grown out of the view, is brought into it, unless the builder looks somewhere by hand.
void FitView::Private::keepInView() {
    const Box3& shell = hand->scene.shell;
    const bool shelled = (shell.max - shell.min).norm() > 0;
    const bool appeared = shelled && !hadShell, added = session->project().forms.size() > forms;
    if (!shelled || hand->isMoving() || glide.state() == QAbstractAnimation::Running) return;
    if (!appeared && !added && byHand) return;
    if (!hand->camera.sees(hand->scene.bounds)) {
        // While something is dragged, the body stays just inside; what is new gets its usual margin.
        hand->camera.frame(hand->scene.bounds, appeared || added ? 1.12 : 1.02);
        byHand = false;
    } else if (appeared) {
        hand->camera.frame(hand->scene.bounds);
    }
}

void FitView::Private::refreshCamera() {
    canvas->showCamera(hand->camera);
    placePills();
}

void FitView::Private::resized() {
    const QSize size = canvas->widget()->size();
    to.width = hand->camera.width = std::max(1, size.width());
    to.height = hand->camera.height = std::max(1, size.height());
    // Beside the board it is narrower, and wide again after it: what no hand has placed fills it.
    const bool still = !hand->isMoving() && glide.state() != QAbstractAnimation::Running;
    if (!byHand && still && !hand->scene.empty()) hand->camera.frame(hand->scene.bounds);
    keepInView();
    refreshCamera();
    showReadout();
}

void FitView::Private::glideTo(const ViewCamera& camera) {
    glide.stop();
    from = hand->camera;
    to = camera;
    if (!canvas->native() || !q->isVisible()) {
        hand->camera = to;
        refreshCamera();
        return;
    }
    glide.start();
}

void FitView::Private::look(Direction direction) {
    ViewCamera wanted = hand->camera;
    wanted.look(direction);
    if (!hand->scene.empty()) wanted.frame(hand->scene.bounds);
    byHand = false;
    glideTo(wanted);
    controls->mark(direction);
}

void FitView::Private::fit(bool softly) {
    ViewCamera wanted = hand->camera;
    wanted.frame(hand->scene.bounds);
    byHand = false;
    if (softly) {
        glideTo(wanted);
        return;
    }
    glide.stop();
    hand->camera = wanted;
    refreshCamera();
}

void FitView::Private::startSection() {
    const int axis = controls->state().sectionAxis;
    // The half between the eye and the cut goes away.
    controls->setKeepBelow(-hand->camera.forward()[axis] > 0);
}

void FitView::Private::placePills() {
    const auto& links = hand->scene.links;
    std::vector<QRect> taken;
    for (std::size_t i = 0; i < pills.size(); ++i) {
        Pill* pill = pills[i].get();
        if (i >= links.size()) {
            pill->hide();
            continue;
        }
        const Vec3 at = hand->camera.toScreen((links[i].from + links[i].to) / 2);
        pill->say(QString::fromStdString(links[i].text), colourOf(links[i].state));
        pill->placeAt({at.x(), at.y() + 24});
        const bool covered = std::any_of(taken.begin(), taken.end(),
                                         [&](const QRect& r) { return r.intersects(pill->geometry()); });
        const bool inside =
            at.x() > 0 && at.y() > 0 && at.x() < hand->camera.width && at.y() < hand->camera.height;
        pill->setVisible(!covered && inside);
        if (covered || !inside) continue;
        taken.push_back(pill->geometry());
    }
}

const FitPair* FitView::Private::tightest() const {
    const auto& fit = session->evaluation().fit;
    if (!fit) return nullptr;
    const FitPair* worst = nullptr;
    for (const auto& pair : fit->pairs) {
        if (!worst || pair.state > worst->state ||
            (pair.state == worst->state && pair.clearance < worst->clearance))
            worst = &pair;
    }
    return worst;
}

void FitView::Private::showReadout() {
    if (prompt->show(controls->opening(), canvas->widget()->size(), hand->at()))
        q->setFocus(Qt::OtherFocusReason); // Esc and Return are for it
    const bool turning = hand->isTurning();
    if (turning || !hand->ghostWords().isEmpty()) {
        readout->say(turning ? hand->turnWords() : hand->ghostWords(),
                     colourOf(!turning && hand->ghostNear() ? FitState::tight : FitState::fits));
        readout->placeAt(hand->at() + QPointF(0, -30));
        readout->setVisible(true);
        return;
    }
    if (!hand->isMoving()) {
        readout->hide();
        return;
    }
    const auto& fit = session->evaluation().fit;
    const FitPair* pair = tightest();
    if (!fit || !pair) return;
    const QString words =
        pair->state == FitState::hits
            ? tr("hits %1").arg(QString::fromStdString(pair->plate))
            : tr("gap %1 · %2")
                  .arg(QString::fromStdString(printLength(pair->clearance, session->unitStyle())),
                       QString::fromStdString(pair->plate));
    readout->say(words, colourOf(pair->state));
    readout->placeAt(hand->at() + QPointF(0, -30));
    readout->setVisible(true);
}

bool FitView::usesOpenGl() const {
    return m->canvas->native();
}
QObject* FitView::surface() const {
    return m->canvas->surface();
}

std::optional<QPointF> FitView::pixelOf(const QString& id) const {
    const auto at = visiblePixel(m->hand->scene, m->hand->camera, id.toStdString());
    return at ? std::optional(QPointF(at->x(), at->y())) : std::nullopt;
}

QPointF FitView::pixelAt(const Vec3& place) const {
    const Vec3 at = m->hand->camera.toScreen(place);
    return {at.x(), at.y()};
}

void FitView::takeMechanism(const MechanismWords* kind) {
    m->hand->takeMechanism(kind);
    setFocus(Qt::OtherFocusReason);
}

QImage FitView::picture(const QSize& size) const {
    ViewCamera camera = m->hand->camera;
    camera.width = size.width();
    camera.height = size.height();
    SceneStyle style = m->style;
    style.pixelRatio = 1;
    return renderScene(m->hand->scene, camera, style, m->session->unitStyle());
}

QString FitView::prompt() const {
    return m->prompt->words();
}

bool FitView::showsAll() const {
    return m->hand->camera.sees(m->hand->scene.bounds);
}

void FitView::fitToView() {
    m->fit(false);
}

bool FitView::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m->canvas->widget() && event->type() == QEvent::Resize) m->resized();
    if (watched == m->canvas->surface()) {
        // Keys of a menu that is open: a window that is no widget would get them in its place.
        QWidget* menu = event->type() == QEvent::KeyPress ? QApplication::activePopupWidget() : nullptr;
        if (!menu) return m->hand->handle(event);
        QApplication::sendEvent(menu, event);
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void FitView::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange && m->hand) m->refreshScene();
    QWidget::changeEvent(event);
}

void FitView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    const bool first = !m->fitted || m->hand->camera.width < 2;
    m->resized();
    if (first && !m->hand->scene.empty()) m->fit(false);
}

} // namespace slab::ui
