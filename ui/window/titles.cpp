#include "ui/window/titles.h"
#include "ui/session/session.h"
#include <algorithm>

namespace slab::ui {

namespace {

QString fitNote(const Session& session) {
    const auto& fit = session.evaluation().fit;
    if (!fit || fit->pairs.empty()) return {};
    const auto least =
        std::min_element(fit->pairs.begin(), fit->pairs.end(), [](const auto& a, const auto& b) {
            return a.clearance - a.wanted < b.clearance - b.wanted;
        });
    const QString pair = QString::fromStdString(least->plate + " to " + least->solid);
    const QString words =
        least->state == FitState::hits
            ? "hits · " + pair
            : "least gap " + QString::fromStdString(printLength(least->clearance, session.unitStyle())) +
                  " · " + pair;
    return fit->confirmed ? words : words + " …";
}

const Panel* chosenPanel(const Session& session, std::size_t& number) {
    const auto& panels = session.evaluation().panels;
    const std::string plate = session.selection().plate.toStdString();
    if (!panels || plate.empty()) return nullptr;
    for (std::size_t i = 0; i < panels->size(); ++i) {
        const auto& names = (*panels)[i].plates;
        if ((*panels)[i].name != plate && std::find(names.begin(), names.end(), plate) == names.end())
            continue;
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
        t.note[1] = QString::fromStdString(panel->name) + " · outside face up";
        if (panel->copyCount() > 1) t.note[1] += QString(" · cut %1").arg(panel->copyCount());
        if (!panel->folds.empty())
            t.note[1] +=
                QString(panel->folds.size() == 1 ? " · %1 fold" : " · %1 folds").arg(panel->folds.size());
        if (!panel->mirrorOf.empty())
            t.note[1] += " · other hand of " + QString::fromStdString(panel->mirrorOf);
    } else if (e.panels) {
        t.note[1] = QString("%1 panels").arg(e.panels->size());
    }
    t.title[2] = "Sheets";
    if (e.sheets) {
        const int count = e.totals.sheets;
        t.note[2] = QString("%1 %2 · %3 % used")
                        .arg(count)
                        .arg(count == 1 ? "sheet" : "sheets")
                        .arg(e.totals.usedPercent, 0, 'f', 0);
        if (!e.sheets->unplaced.empty())
            t.note[2] += QString(" · %1 not placed").arg(e.sheets->unplaced.size());
        if (e.sheets->provisional) t.note[2] += " · being improved…";
    }
    return t;
}

} // namespace slab::ui
