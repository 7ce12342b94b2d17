// What a drawing's unit does to its curves.
#include "core/picture/svg_outline.h"
#include <gtest/gtest.h>

namespace slab {
namespace {

TEST(SvgOutlines, CurvesStayCurvesInEveryUnit) {
    const auto read = readSvg("<svg xmlns='http://www.w3.org/2000/svg' width='200mm' height='100mm' "
                              "viewBox='0 0 200 100'>"
                              "<path d='M 0 0 C 30 80 90 90 200 0 C 90 -90 30 -80 0 0 Z'/></svg>");
    ASSERT_TRUE(read);
    const SvgFile& leaf = *read;
    const SvgSubpath path = leaf.shapes.at(0).paths.at(0);
    for (const SvgUnit& unit : unitChoices(leaf)) {
        SvgScale scale;
        scale.mmX = unit.unitX;
        scale.mmY = unit.unitY;
        scale.tolerance = 0.5;
        scale.flats = 5;
        const auto draft = draftOutline(path, scale);
        // 200 m of leaf within half a millimetre need more corners than a form has.
        if (unit.unitX > 500) continue;
        ASSERT_TRUE(draft) << unit.name << ": " << draft.error().message;
        std::printf("%s: %zu corners, %d splines, %d flattened\n", unit.name.c_str(), draft->points.size(),
                    draft->splined, draft->flattened);
        EXPECT_EQ(draft->flattened, 0) << unit.name;
        EXPECT_GE(draft->points.size(), 3U);
        EXPECT_LE(draft->deviation, 0.5) << unit.name;
    }
}

} // namespace
} // namespace slab
