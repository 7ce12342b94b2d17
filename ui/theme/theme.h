#pragma once
#include "core/drawing/drawing.h"
#include <QColor>
#include <QFont>
#include <QString>

namespace slab::ui {

/// The palette of a builder's bench in daylight: paper, card, ink… in light and dark.
struct Palette {
    QColor paper, card, ink, quiet, line, chosen, chosenFill, fits, tight, hits, donor;
    QColor foam, hardboard, plywood, cardboard, plastic;
};

class Theme {
public:
    static const Palette& colours();
    static bool dark();
    static void setDark(bool dark); ///< restyles the application; views get a PaletteChange event
    static void install();          ///< fonts from resources or system, style sheet, palette
    static QFont words(int px = 13, bool bold = false);
    static QFont figures(int px = 13, bool bold = false); ///< numbers: all digits equally wide
    static QColor ink(Ink ink);                           ///< drawing inks on screen
    static QColor tint(const QString& stockKind);
    /// `over` laid on `under` with the given share, for quiet fills.
    static QColor mix(const QColor& over, const QColor& under, double share);
};

} // namespace slab::ui
