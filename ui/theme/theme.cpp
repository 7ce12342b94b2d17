#include "ui/theme/theme.h"
#include "ui/theme/style_sheet.h"
#include <QApplication>
#include <QFontDatabase>
#include <QPalette>
#include <QStyleFactory>

namespace slab::ui {

namespace {

Palette lightColours() {
    return {"#F4F1EA", "#FFFFFF", "#1F2A33", "#636E77", "#DAD4C8", "#2F6DB5", "#E3EDF8", "#2A8C82",
            "#C98A12", "#C8452A", "#4A545C", "#CFE0EA", "#CDA982", "#DDBB7F", "#C9A77C", "#D9D6E3"};
}

Palette darkColours() {
    // Materials keep their hue and give up lightness, so that light lines stay readable on them.
    return {"#1B2026", "#242B32", "#E8E4DA", "#97A1AA", "#38414A", "#6FA8E8", "#2C4057", "#4DB6AA",
            "#E3AE45", "#EE7455", "#A7B0B7", "#3B5564", "#6B543C", "#6E5C38", "#65523A", "#524F60"};
}

struct State {
    bool dark = false;
    Palette light = lightColours(), night = darkColours();
    // B612's figures are all equally wide; those of its mono sister are as wide, but so are its points and
    // marks.
    QString words = "B612", figures = "B612";
};

State& state() {
    static State s;
    return s;
}

void restyle() {
    const Palette& c = Theme::colours();
    QPalette p;
    p.setColor(QPalette::Window, c.paper);
    p.setColor(QPalette::WindowText, c.ink);
    p.setColor(QPalette::Base, c.card);
    p.setColor(QPalette::AlternateBase, c.paper);
    p.setColor(QPalette::Text, c.ink);
    p.setColor(QPalette::Button, c.card);
    p.setColor(QPalette::ButtonText, c.ink);
    p.setColor(QPalette::BrightText, c.hits);
    p.setColor(QPalette::Highlight, c.chosen);
    p.setColor(QPalette::HighlightedText, Theme::dark() ? c.paper : QColor(Qt::white));
    p.setColor(QPalette::ToolTipBase, c.card);
    p.setColor(QPalette::ToolTipText, c.ink);
    p.setColor(QPalette::PlaceholderText, c.quiet);
    p.setColor(QPalette::Link, c.chosen);
    p.setColor(QPalette::Mid, c.line);
    p.setColor(QPalette::Disabled, QPalette::Text, c.quiet);
    p.setColor(QPalette::Disabled, QPalette::WindowText, c.quiet);
    p.setColor(QPalette::Disabled, QPalette::ButtonText, c.quiet);
    QApplication::setPalette(p);
    if (qApp) qApp->setStyleSheet(styleSheet(c));
}

QFont make(const QString& family, int px, bool bold) {
    QFont font(family);
    font.setPixelSize(px);
    font.setBold(bold);
    return font;
}

} // namespace

const Palette& Theme::colours() {
    return state().dark ? state().night : state().light;
}

bool Theme::dark() {
    return state().dark;
}

void Theme::setDark(bool dark) {
    if (state().dark == dark) return;
    state().dark = dark;
    restyle();
}

void Theme::install() {
    const QStringList families = QFontDatabase::families();
    if (!families.contains(state().words)) state().words = "DejaVu Sans";
    if (!families.contains(state().figures)) state().figures = "DejaVu Sans";
    QApplication::setStyle(QStyleFactory::create("Fusion"));
    QApplication::setFont(words());
    restyle();
}

QFont Theme::words(int px, bool bold) {
    return make(state().words, px, bold);
}

QFont Theme::figures(int px, bool bold) {
    return make(state().figures, px, bold);
}

QColor Theme::ink(Ink ink) {
    const Palette& c = colours();
    switch (ink) {
    case Ink::line:
        return c.ink;
    case Ink::quiet:
        return c.quiet;
    case Ink::chosen:
        return c.chosen;
    case Ink::fits:
        return c.fits;
    case Ink::tight:
        return c.tight;
    case Ink::hits:
        return c.hits;
    case Ink::foam:
        return c.foam;
    case Ink::hardboard:
        return c.hardboard;
    case Ink::plywood:
        return c.plywood;
    case Ink::card:
        return c.cardboard;
    case Ink::plastic:
        return c.plastic;
    case Ink::paper:
        return c.card;
    case Ink::pale:
        return mix(c.chosen, c.foam, 0.3);
    }
    return c.ink;
}

QColor Theme::tint(const QString& stockKind) {
    return ink(stockKind == "hardboard" ? Ink::hardboard
               : stockKind == "plywood" ? Ink::plywood
               : stockKind == "card"    ? Ink::card
               : stockKind == "plastic" ? Ink::plastic
                                        : Ink::foam);
}

QColor Theme::mix(const QColor& over, const QColor& under, double share) {
    const auto part = [share](int a, int b) { return static_cast<int>(a * share + b * (1 - share) + 0.5); };
    return {part(over.red(), under.red()), part(over.green(), under.green()),
            part(over.blue(), under.blue())};
}

} // namespace slab::ui
