#include "ui/window/titles.h"
#include "core/fit/swept.h"
#include "ui/fit/scene.h"
#include "ui/session/session.h"

namespace slab::ui {

namespace {

/// "donor/joystick hand" -> "joystick hand", "rider/torso" -> "rider torso".
QString solidWords(const std::string& solid) {
    QString words = QString::fromStdString(solid);
    if (words.startsWith("donor/")) return words.mid(6);
    return words.replace('/', ' ');
}

QString fitNote(const Session& session) {
    const auto& fit = session.evaluation().fit;
    if (onlySkin(session.evaluation())) return "shape only · no sheets yet";
    if (!fit) return {};
    const FitPair* least = bindingPair(*fit, session.evaluation().afloat.get());
    if (!least) return {};
    const QString pair = QString::fromStdString(least->plate) + " · to " + solidWords(least->solid);
    const QString words =
        least->state == FitState::hits
            ? "hits · " + pair
            : "least gap " + QString::fromStdString(printLength(least->clearance, session.unitStyle())) +
                  " · " + pair;
    return fit->confirmed ? words : "… " + words;
}

const Panel* chosenPanel(const Session& session, std::size_t& number) {
    const auto& panels = session.evaluation().panels;
    const std::string plate = session.selection().plate.toStdString();
    if (!panels || plate.empty()) return nullptr;
    for (std::size_t i = 0; i < panels->size(); ++i) {
        if ((*panels)[i].name != plate && !(*panels)[i].isOf(plate)) continue;
        number = i + 1;
        return &(*panels)[i];
    }
    return nullptr;
}

} // namespace

QString errorWords(const Error& error) {
    QString words = QString::fromStdString(error.message).trimmed();
    const bool stopped = words.endsWith('.');
    if (!error.where.empty()) {
        if (stopped) words.chop(1);
        words += " (" + QString::fromStdString(error.where) + ")";
    }
    if (!words.endsWith('.')) words += ".";
    QString remedy = QString::fromStdString(error.remedy).trimmed();
    if (remedy.isEmpty()) return words;
    remedy[0] = remedy[0].toUpper();
    if (!remedy.endsWith('.')) remedy += ".";
    return words + QStringLiteral(" → ") + remedy;
}

Titles titlesOf(const Session& session) {
    Titles t;
    const Evaluation& e = session.evaluation();
    t.title[0] = "Fit";
    t.note[0] = fitNote(session);
    t.title[1] = "Panels";
    std::size_t number = 0;
    if (const Panel* panel = chosenPanel(session, number)) {
        t.title[1] = QString("Panel %1").arg(number, 2, 10, QChar('0'));
        t.note[1] = QString::fromStdString(panel->name);
        if (panel->copyCount() > 1) t.note[1] += QString(" · cut %1").arg(panel->copyCount());
        if (!panel->folds.empty())
            t.note[1] +=
                QString(panel->folds.size() == 1 ? " · %1 fold" : " · %1 folds").arg(panel->folds.size());
        t.note[1] += " · outside face up";
        if (!panel->mirrorOf.empty())
            t.note[1] += " · other hand of " + QString::fromStdString(panel->mirrorOf);
    } else if (e.panels) {
        t.note[1] = QString("%1 panels").arg(e.panels->size());
    }
    t.title[2] = "Sheets";
    if (e.sheets) {
        const int count = e.totals.sheets;
        QStringList words{QString("%1 %2").arg(count).arg(count == 1 ? "sheet" : "sheets")};
        // Where there is little room the last words go first.
        if (!e.sheets->unplaced.empty()) words << QString("%1 not placed").arg(e.sheets->unplaced.size());
        words << QString("%1 % used").arg(e.totals.usedPercent, 0, 'f', 0);
        if (e.sheets->provisional) words << "being improved…";
        t.note[2] = words.join(" · ");
    }
    return t;
}

} // namespace slab::ui
