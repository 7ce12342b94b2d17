// What can be added to the route.
#include "core/trial/examples.h"
#include "ui/ride/ride_pages.h"
#include <QMenu>
#include <cmath>

namespace slab::ui {

namespace {

/// A line that cannot be chosen: some styles draw a section as a bare line.
void addCaption(QMenu* menu, const QString& words) {
    if (!menu->isEmpty()) menu->addSeparator();
    menu->addAction(words)->setEnabled(false);
}

/// Measured ones begin with a round figure in the document's unit.
Text roundedIn(const Text& text, const UnitStyle& units) {
    const auto mm = parseLength(text, Unit::mm);
    if (text.empty() || !mm || !isInch(units)) return text;
    return printExact(std::round(*mm / 25.4 * 2) / 2, Unit::none) + " in";
}

RoutePart measuredIn(RoutePart part, const UnitStyle& units) {
    for (Text* text : {&part.width, &part.height, &part.length, &part.rise}) *text = roundedIn(*text, units);
    for (GroundStretch& s : part.stretches) {
        s.run = roundedIn(s.run, units);
        s.rise = roundedIn(s.rise, units);
    }
    return part;
}

/// Those of one's own that stand in no standard.
std::vector<RoutePart> ownParts() {
    RoutePart step, kerb, ground;
    for (RoutePart* part : {&step, &kerb, &ground}) part->note = "Measure your own.";
    step.name = "own step";
    kerb.name = "own kerb";
    step.kind = kerb.kind = "step";
    step.rise = "40 mm";
    kerb.rise = "120 mm";
    ground.name = "own ground";
    ground.kind = "ground";
    ground.stretches = {
        {"before", "1 m", "0 mm", {}}, {"slope", "1.2 m", "100 mm", {}}, {"behind", "1 m", "0 mm", {}}};
    return {step, kerb, ground};
}

} // namespace

QString sizeBeside(const RoutePart& part, const UnitStyle& units) {
    QStringList sizes;
    for (const Text& text : part.kind == "bed"       ? std::vector<Text>{part.width, part.length}
                            : !part.diameter.empty() ? std::vector<Text>{part.diameter}
                            : !part.width.empty()    ? std::vector<Text>{part.width}
                                                     : std::vector<Text>{part.rise}) {
        const auto mm = parseLength(text, Unit::mm);
        if (!mm || (text.find("in") != Text::npos) == isInch(units)) return {};
        sizes << QString::fromStdString(printLength(*mm, units));
    }
    return QStringLiteral(" (%1)").arg(sizes.join(QStringLiteral(" × ")));
}

void fillExamples(QMenu* menu, const UnitStyle& units, std::function<void(const RoutePart&)> taken) {
    menu->setToolTipsVisible(true);
    const auto add = [&](const QString& words, const RoutePart& part) {
        QAction* action = menu->addAction(QString(words).replace('&', "&&"));
        action->setToolTip(QString::fromStdString(part.note));
        QObject::connect(action, &QAction::triggered, menu, [taken, part] { taken(part); });
    };
    const auto& all = trial::routeExamples();
    addCaption(menu, QStringLiteral("As published; local rules govern"));
    for (const trial::RouteExample& example : all)
        if (!example.section.empty())
            add(QString::fromStdString(example.words) + sizeBeside(example.part, units) +
                    QStringLiteral("  ·  ") + QString::fromStdString(example.section),
                example.part);
    addCaption(menu, QStringLiteral("To be measured: the figures are a beginning"));
    for (const trial::RouteExample& example : all)
        if (example.section.empty())
            add(QString::fromStdString(example.words), measuredIn(example.part, units));
    for (const RoutePart& part : ownParts()) {
        QString words = QString::fromStdString(part.name);
        words[0] = words[0].toUpper();
        add(words, measuredIn(part, units));
    }
}

} // namespace slab::ui
