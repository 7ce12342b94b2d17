#include "ui/tables/part_facts.h"
#include "core/units/moment.h"
#include <algorithm>

namespace slab::ui {

namespace {

QString text(const std::string& words) {
    return QString::fromStdString(words);
}

QString printed(const MechanismFact& fact, const UnitStyle& style) {
    switch (fact.unit) {
    case MechanismFact::Unit::length:
        return text(printFine(fact.value, style));
    case MechanismFact::Unit::fine:
        return text(printHundredths(fact.value, style));
    case MechanismFact::Unit::angle:
        return text(printAngle(fact.value));
    case MechanismFact::Unit::mass:
        return text(printMass(fact.value, style));
    case MechanismFact::Unit::moment:
        return text(printMoment(fact.value, style));
    case MechanismFact::Unit::number:
        break;
    }
    return QString::number(fact.value, 'g', 6);
}

/// Margin over what is wanted, of the check where it is least; null without any.
const SweptCheck* tightest(const MechanismSet& set, const std::string& mechanism) {
    const SweptCheck* least = nullptr;
    for (const SweptCheck& c : set.checks)
        if (c.mechanism == mechanism && (!least || c.clearance - c.wanted < least->clearance - least->wanted))
            least = &c;
    return least;
}

QString gapWords(const SweptCheck& check, const UnitStyle& style) {
    return check.clearance <= 0 ? QString("meets") : text(printFine(check.clearance, style));
}

class Facts {
public:
    explicit Facts(const Session& session) : m_e(session.evaluation()), m_style(session.unitStyle()) {}

    template <class T>
    void mechanisms(const char* list, const std::vector<T>& entries) {
        for (std::size_t i = 0; i < entries.size(); ++i) {
            m_name = entries[i].name;
            m_pointer = std::string("/mechanisms/") + list + "/" + std::to_string(i);
            for (const MechanismFact& f : m_e.mechanisms->facts)
                if (f.mechanism == entries[i].name) add(f.key, text(f.words), printed(f, m_style), {});
            if (const SweptCheck* c = tightest(*m_e.mechanisms, entries[i].name))
                add("nearest", "Nearest: " + text(c->fixed), gapWords(*c, m_style),
                    text(c->moving) + ", " + text(c->pose) + "; wanted " +
                        text(printFine(c->wanted, m_style)) + ".");
        }
    }

    void modules(const std::vector<Module>& entries) {
        for (std::size_t i = 0; i < entries.size(); ++i)
            for (const ModuleInfo& m : m_e.modules->modules) {
                if (m.name != entries[i].name || m.name.empty()) continue;
                m_pointer = "/modules/" + std::to_string(i);
                m_name = m.name;
                module(m);
            }
    }

    std::vector<PartFact> list;

private:
    const Evaluation& m_e;
    UnitStyle m_style;
    std::string m_pointer, m_name;

    void add(const std::string& key, QString words, QString value, QString tip) {
        list.push_back({m_pointer, m_name, key, std::move(words), std::move(value), std::move(tip)});
    }
    void module(const ModuleInfo& m) {
        const auto size = [&](const Vec3& v) {
            return text(printLength(v.x(), m_style)) + " × " + text(printLength(v.y(), m_style)) + " × " +
                   text(printLength(v.z(), m_style));
        };
        const QString open = m.unweighed.empty() ? QString() : QString(" + ?");
        QStringList missing;
        for (const std::string& part : m.unweighed) missing << text(part);
        const bool none = !(m.mass > 0) && !m.unweighed.empty();
        add("mass", "Mass", none ? QString("?") : text(printMass(m.mass, m_style)) + open,
            "Plates, tubes and their weights; no paint, no glue, no screws." +
                (missing.isEmpty() ? QString()
                                   : " What these weigh is not known, add it: " + missing.join(", ") + "."));
        add("plates", "Plates", QString::number(m.plates.size()), {});
        QStringList bought;
        for (const std::string& part : m.bought) bought << text(part);
        if (!bought.isEmpty())
            add("bought", "Tubes, drums and the like", QString::number(bought.size()),
                bought.join(", ") + ".");
        add("stands", "As it stands", size(m.bounds.size()), "Along the body, across it, and up.");
        add("box", "Least box", size(m.box.size), "In the position that takes the least room.");
        for (const ModulePassing& p : m.passings)
            add("passage " + p.passage, (p.passes() ? "Passes " : "Does not pass ") + text(p.passage),
                (p.passes() ? "" : "−") + text(printFine(std::abs(p.way.margin), m_style)),
                "What is to spare in the tighter direction, in its best position.");
    }
};

} // namespace

std::vector<PartFact> partFacts(const Session& session) {
    const Evaluation& e = session.evaluation();
    const Project& p = session.project();
    Facts facts(session);
    if (!e.modules) return {}; // they come with the sweeps
    facts.modules(p.modules);
    if (e.mechanisms) {
        facts.mechanisms("turntables", p.mechanisms.turntables);
        facts.mechanisms("trunnions", p.mechanisms.trunnions);
        facts.mechanisms("linkages", p.mechanisms.linkages);
        facts.mechanisms("belts", p.mechanisms.belts);
    }
    return std::move(facts.list);
}

QString partSummary(const Session& session, const std::string& owner, const std::string& name) {
    const Evaluation& e = session.evaluation();
    if (owner == "module" && e.modules)
        for (const ModuleInfo& m : e.modules->modules)
            if (m.name == name && !name.empty()) return text(printMass(m.mass, session.unitStyle()));
    if (owner == "cleat rule" && e.cleats) {
        int pieces = 0;
        double length = 0;
        for (const CleatLine& line : e.cleats->lines) {
            if (line.rule != name) continue;
            pieces += line.count;
            length += line.count * line.length;
        }
        return pieces == 0
                   ? QString("none")
                   : QString("%1, together ").arg(pieces) + text(printLength(length, session.unitStyle()));
    }
    const bool moves = owner == "turntable" || owner == "trunnion" || owner == "linkage" || owner == "belt";
    if (moves && e.mechanisms)
        if (const SweptCheck* c = tightest(*e.mechanisms, name))
            return c->clearance <= 0 ? gapWords(*c, session.unitStyle())
                                     : "gap " + gapWords(*c, session.unitStyle());
    return {};
}

} // namespace slab::ui
