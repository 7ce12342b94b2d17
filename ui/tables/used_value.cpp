#include "ui/tables/used_value.h"
#include "core/trial/figures.h"
#include "core/trial/words.h"
#include <algorithm>

namespace slab::ui {

namespace {

QString words(const std::string& text) {
    return QString::fromStdString(text);
}

QString number(double value) {
    return QString::number(value, 'g', 4);
}

QString ofRide(const Session& session, const std::string& key) {
    const Evaluation& e = session.evaluation();
    const trial::RideFigures usual;
    if (key == "friction") return number(usual.friction);
    if (key == "load_share") return number(usual.loadShare);
    if (key == "reaction") return number(usual.reaction);
    if (key == "braking") return number(usual.braking / 1000);
    if (key == "adhesive") return number(trial::usualAdhesive);
    if (key == "wind") return words(trial::speedWords(trial::usualWind * 1e6 / 3600, e.units));
    if (key == "field") return words(printAngle(trial::usualField * trial::degree));
    if (!e.trial) return {};
    if (e.trial->balance) {
        const trial::Balance& b = *e.trial->balance;
        if (key == "speed" && b.speed > 0) return words(trial::speedWords(b.speed, e.units));
        if (key == "radius") return words(printLength(b.radius, e.units));
    }
    // Sight is worked out last: until then what was there stays.
    if (key != "sees" || e.donor == nullptr || e.donor->people.empty() || !session.seen()) return {};
    const trial::View& view = session.seen()->trial->views.front();
    if (view.wanted > 0) return words(printLength(view.wanted, e.units));
    return {};
}

QString ofPerson(const Evaluation& e, const std::string& name, const std::string& key) {
    if (!e.donor) return {};
    const auto& people = e.donor->people;
    const auto who =
        std::find_if(people.begin(), people.end(), [&](const Person& p) { return p.name == name; });
    if (who == people.end()) return {};
    if (key == "stature") return words(printLength(who->stature, e.units));
    if (key == "mass") return words(printMass(who->mass, e.units));
    if (key == "recline" || key.starts_with("lean_")) return words(printAngle(0));
    if (key == "shoes" || key == "helmet" || key.starts_with("shift_")) return words(printLength(0, e.units));
    if (key != "clearance") return {};
    const auto solid = std::find_if(e.donor->solids.begin(), e.donor->solids.end(),
                                    [&](const FitSolid& s) { return s.name == name + "/torso"; });
    return solid == e.donor->solids.end() ? QString() : words(printFine(solid->clearance, e.units));
}

} // namespace

QString usedInstead(const Session& session, const Node& node) {
    const Evaluation& e = session.evaluation();
    if (!node.value.empty()) return {};
    if (node.owner == "ride") return ofRide(session, node.key);
    if (node.owner == "rider") return ofPerson(e, "rider", node.key);
    if (node.owner == "passenger" && node.parent) return ofPerson(e, node.parent->name(), node.key);
    return {};
}

} // namespace slab::ui
