#include "core/stock/stock.h"

namespace slab {

// Density: least values of ASTM C578-10 (polystyrene foam types), copy at
// https://pdf4pro.com/file/2832e/foam_docs_ASTM_C578_Types.pdf.pdf; oriented strand board 640 kg/m³ (40
// lb/ft³, Canadian Wood Council, as quoted at http://answers.google.com/answers/threadview/id/451409.html);
// plywood 36 lb/ft³ = 577 kg/m³ and tempered hardboard 60 lb/ft³ = 961 kg/m³ from memory. Size 4 x 8 ft (1220
// x 2440 mm): common practice. Plywood and strand board thickness: label thickness of PS 1 and PS 2
// performance categories,
// http://apawood-europe.org/products-trademarks/plywood/trademarks/performance-category/ .
const std::vector<SheetIdea>& sheetIdeas() {
    static const std::vector<SheetIdea> ideas = {
        {"xps_13", "foam", "48 in", "96 in", "1/2 in", "25", "ASTM C578 type IV, least density"},
        {"xps_25", "foam", "48 in", "96 in", "1 in", "25", "ASTM C578 type IV, least density"},
        {"xps_50", "foam", "48 in", "96 in", "2 in", "25", "ASTM C578 type IV, least density"},
        {"eps_25", "foam", "48 in", "96 in", "1 in", "15", "ASTM C578 type I, least density"},
        {"eps_50", "foam", "48 in", "96 in", "2 in", "15", "ASTM C578 type I, least density"},
        {"hardboard_3", "hardboard", "48 in", "96 in", "1/8 in", "961",
         "tempered, 60 lb/ft³, from memory; ANSI A135.4 asks for at least 31 lb/ft³"},
        {"hardboard_6", "hardboard", "48 in", "96 in", "1/4 in", "961",
         "tempered, 60 lb/ft³, from memory; ANSI A135.4 asks for at least 31 lb/ft³"},
        {"plywood_6", "plywood", "48 in", "96 in", "0.225 in", "577",
         "PS 1 category 1/4, label thickness; density 36 lb/ft³ from memory"},
        {"plywood_12", "plywood", "48 in", "96 in", "0.451 in", "577",
         "PS 1 category 15/32, label thickness; density 36 lb/ft³ from memory"},
        {"plywood_18", "plywood", "48 in", "96 in", "0.703 in", "577",
         "PS 1 category 23/32, label thickness; density 36 lb/ft³ from memory"},
        {"osb_12", "plywood", "48 in", "96 in", "0.483 in", "640",
         "PS 2 category 1/2, label thickness; density 40 lb/ft³ (Canadian Wood Council)"},
        {"corrugated_4", "card", "48 in", "96 in", "4 mm", "150",
         "C flute 4 mm (coltpaper.com corrugated box guide); 0.6 kg/m² from memory; any box size"},
        {"foamcore_5", "card", "32 in", "40 in", "3/16 in", "125", "size and density from memory"},
        {"plastic_4", "plastic", "48 in", "96 in", "4 mm", "190", "fluted plastic, 0.76 kg/m², from memory"},
    };
    return ideas;
}

// ASTM D1785 schedule 40, outside diameter and least wall, inches. Two agreeing copies:
// https://pdfcoffee.com/astm-d1785-3-pdf-free.html and http://www.sd-w.com/channel_flow/pipe_data/ .
// Inside diameter by this table is outside - 2 x least wall (not the average inside diameter, which is
// smaller).
const std::vector<PipeSize>& pipeSizes() {
    static const std::vector<PipeSize> sizes = {
        {"1/2", 0.840, 0.109},   {"3/4", 1.050, 0.113}, {"1", 1.315, 0.133},     {"1-1/4", 1.660, 0.140},
        {"1-1/2", 1.900, 0.145}, {"2", 2.375, 0.154},   {"2-1/2", 2.875, 0.203}, {"3", 3.500, 0.216},
        {"4", 4.500, 0.237},     {"5", 5.563, 0.258},   {"6", 6.625, 0.280},     {"8", 8.625, 0.322},
        {"10", 10.750, 0.365},   {"12", 12.750, 0.406},
    };
    return sizes;
}

// ANSI C80.3 electrical metallic tubing, outside diameter, inches:
// https://htrsd.org/er-doctor/what-is-the-od-of-2-emt.html and
// https://engineerfix.com/what-is-the-outer-diameter-of-3-4-emt-conduit . Larger sizes and walls:
// https://hostforstudent.com/what-is-the-wall-thickness-of-2-emt/ ; 0 = not read.
const std::vector<PipeSize>& conduitSizes() {
    static const std::vector<PipeSize> sizes = {
        {"1/2", 0.706, 0.042},   {"3/4", 0.922, 0.049},   {"1", 1.163, 0.057},     {"1-1/4", 1.510, 0.065},
        {"1-1/2", 1.740, 0.065}, {"2", 2.197, 0.065},     {"2-1/2", 2.875, 0.072}, {"3", 3.500, 0.072},
        {"3-1/2", 4.000, 0},     {"4", 4.500, 0},
    };
    return sizes;
}

// PS 20 softwood lumber, dressed dry, inches:
// https://engineeringtoolbox.com/softwood-lumber-dimensions-d_1452.html and
// https://sutherlands.com/article/lumber-dimensions-nominal-vs-actual/64 .
const std::vector<LumberSize>& lumberSizes() {
    static const std::vector<LumberSize> sizes = {
        {"1x2", 0.75, 1.5},  {"1x3", 0.75, 2.5},   {"1x4", 0.75, 3.5},    {"1x6", 0.75, 5.5},
        {"1x8", 0.75, 7.25}, {"1x10", 0.75, 9.25}, {"1x12", 0.75, 11.25}, {"2x2", 1.5, 1.5},
        {"2x3", 1.5, 2.5},   {"2x4", 1.5, 3.5},    {"2x6", 1.5, 5.5},     {"2x8", 1.5, 7.25},
        {"2x10", 1.5, 9.25}, {"2x12", 1.5, 11.25},
    };
    return sizes;
}

} // namespace slab
