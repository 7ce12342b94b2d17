#include "tests/ui_views/hand_body.h"
#include "core/survey/survey.h"
#include <QApplication>
#include <QImage>
#include <QWidget>
#include <algorithm>

namespace slab::test {

namespace {

constexpr double length = 1400, width = 640, height = 520, under = 90;

Body handBody() {
    Body body;
    // Two halves are not needed: one box, bow raked by moving its top corners forward.
    Polyhedron box = makeBox({-length / 2, -width / 2, under}, {length / 2, width / 2, under + height});
    auto skin = makeSkin(box);
    body.skin = *skin;
    for (auto& face : body.skin.faces) {
        face.form = "hull";
        face.name = "hull/" + face.name;
    }
    body.volume = length * width * height;
    body.bounds = {{-length / 2, -width / 2, under}, {length / 2, width / 2, under + height}};
    return body;
}

FitSolid solid(std::string name, std::string group, ConvexSolid shape) {
    return {std::move(name), std::move(group), std::move(shape), 20, false, {}};
}

ConvexSolid boxSolid(const Vec3& min, const Vec3& max) {
    return {ConvexSolid::Kind::hull, makeBox(min, max).vertices, 0};
}

DonorSet handDonor(const Project& project, const Scope& scope) {
    const auto read = [&](const Text& text) {
        const auto value =
            text.empty() ? Expected<Quantity>(Quantity{}) : evaluate(text, scope, Space::build, Kind::length);
        return value ? value->value : 0.0;
    };
    DonorSet out;
    out.place = {read(project.donor.at.x), 0, read(project.donor.at.z)};
    out.solids.push_back(
        solid("donor/base", "donor", translated(boxSolid({-380, -250, 60}, {330, 250, 330}), out.place)));
    out.solids.push_back(
        solid("donor/seat", "donor", translated(boxSolid({-260, -220, 330}, {160, 220, 430}), out.place)));
    const Vec3 rider = out.place + Vec3(read(project.rider.shift_x), 0, read(project.rider.shift_z));
    out.solids.push_back(
        solid("rider/trunk", "rider",
              {ConvexSolid::Kind::hull, {rider + Vec3(-120, 0, 560), rider + Vec3(-150, 0, 880)}, 130}));
    out.solids.push_back(
        solid("rider/head", "rider",
              {ConvexSolid::Kind::hull, {rider + Vec3(-130, 0, 1110), rider + Vec3(-130, 0, 1160)}, 95}));
    return out;
}

FitResult handFit(const DonorSet& donor, const PlateSet& plates) {
    FitResult out;
    out.leastClearance = 1e9;
    for (const auto& s : donor.solids) {
        FitPair best;
        best.clearance = 1e9;
        for (const auto& plate : plates.plates) {
            for (const auto& cell : plate.cells) {
                const Nearest n = nearest(s.shape, cell);
                if (n.distance >= best.clearance) continue;
                best = {s.name, plate.name, FitState::fits, n.distance, 75, 0, n.onA, n.onB, false};
                best.state = n.meets                    ? FitState::hits
                             : n.distance < best.wanted ? FitState::tight
                                                        : FitState::fits;
            }
        }
        if (best.plate.empty()) continue;
        out.leastClearance = std::min(out.leastClearance, best.clearance);
        out.state = std::max(out.state, best.state);
        out.pairs.push_back(std::move(best));
    }
    return out;
}

void nestByHand(Evaluation& out) {
    NestProblem problem;
    for (const auto& panel : *out.panels)
        problem.parts.push_back(
            {panel.name, panel.footprint, static_cast<int>(panel.plates.size()), {}, false, 2, panel.stock});
    problem.sheets.push_back({"xps_13", 1220, 2440, 6, 1, -1, 14});
    NestResult result;
    NestLayout layout;
    double x = 20, y = 20, row = 0;
    for (std::size_t i = 0; i < problem.parts.size(); ++i) {
        const Box2 box = bounds(problem.parts[i].shape.outer);
        for (int copy = 0; copy < problem.parts[i].copies; ++copy) {
            if (x + box.size().x() > 2420) x = 20, y += row + 10, row = 0;
            if (y + box.size().y() > 1200) {
                result.layouts.push_back(std::move(layout));
                layout = {};
                x = y = 20;
                row = 0;
            }
            layout.places.push_back({static_cast<int>(i), copy, x - box.min.x(), y - box.min.y(), 0, false});
            layout.used += area(problem.parts[i].shape) / (1220.0 * 2440);
            x += box.size().x() + 10;
            row = std::max(row, box.size().y());
        }
    }
    if (!layout.places.empty()) result.layouts.push_back(std::move(layout));
    if (!result.layouts.empty()) result.layouts.front().onHand = true;
    result.density = 0.72;
    out.nestProblem = std::make_shared<const NestProblem>(std::move(problem));
    out.sheets = std::make_shared<const NestResult>(std::move(result));
}

} // namespace

Project handProject() {
    Project p;
    p.title = "Box by hand";
    p.units = "mm";
    p.materials.fallback = "xps_13";
    p.joints.order = {"hull/top", "hull/bottom", "hull/port", "hull/starboard"};
    SheetStock sheet;
    sheet.name = "xps_13";
    sheet.width = "1220 mm";
    sheet.length = "2440 mm";
    sheet.thickness = "25 mm";
    p.stock.sheets.push_back(sheet);
    p.donor.kind = "powered_chair";
    p.donor.at.x = "-40 mm";
    return p;
}

Evaluation handEvaluation(const Project& project, std::uint64_t revision) {
    Evaluation out;
    out.revision = revision;
    if (const auto unit = parseUnit(project.units)) out.units.unit = *unit;
    out.scope = std::make_shared<const Scope>();
    const Body body = handBody();
    PlateRules rules;
    for (const auto& face : body.skin.faces) {
        FaceChoice choice{"xps_13", 25, static_cast<int>(project.joints.order.size())};
        for (std::size_t i = project.joints.order.size(); i-- > 0;) {
            if (matches(project.joints.order[i], face.name)) choice.rank = static_cast<int>(i);
        }
        for (const auto& m : project.materials.plates) {
            if (matches(m.plates, face.name) && m.stock.empty()) choice = {};
        }
        rules.faces.push_back(choice);
    }
    rules.edges = project.joints.edges;
    out.body = std::make_shared<const Body>(body);
    const PlateSet plates = buildPlates(body, rules);
    out.findings = plates.findings;
    out.panels = std::make_shared<const std::vector<Panel>>(makePanels(plates));
    const DonorSet donor = handDonor(project, *out.scope);
    out.fit = std::make_shared<const FitResult>(handFit(donor, plates));
    out.plates = std::make_shared<const PlateSet>(plates);
    out.donor = std::make_shared<const DonorSet>(donor);
    StockSet stock;
    stock.sheets.push_back({"xps_13", "foam", 1220, 2440, 25, 6, 14, 1, 35, true, true, "any"});
    out.stock = std::make_shared<const StockSet>(stock);
    nestByHand(out);
    return out;
}

ui::Engine handEngine() {
    return {[](const Project& project, Effort, std::uint64_t revision, const Job&) {
                return handEvaluation(project, revision);
            },
            [](const Project&, double, double, const Job&) { return ScaleSurvey{}; }};
}

void rest(ui::Session& session) {
    session.settle();
    session.waitUntilAtRest(20000);
    QApplication::processEvents();
}

void shot(const QImage& image, const char* name) {
    const QString folder = qEnvironmentVariable("SLABSIDE_SHOTS");
    if (!folder.isEmpty()) image.save(folder + '/' + QString::fromLatin1(name) + QStringLiteral(".png"));
}

void shot(QWidget& widget, const char* name) {
    if (qEnvironmentVariableIsSet("SLABSIDE_SHOTS")) shot(widget.grab().toImage(), name);
}

} // namespace slab::test
