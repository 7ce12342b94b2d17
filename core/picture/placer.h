#pragma once
// The steps that place one picture: its file and crop (place.cpp), its scale and turn (place_scale.cpp), what
// is marked on it (place_marks.cpp).
#include "core/picture/place.h"
#include "core/picture/reader.h"
#include <optional>

namespace slab {

class Placer : private PictureReader {
public:
    Placer(const Picture& picture, int index, const Scope& scope, std::vector<Finding>& findings);
    PlacedPicture place(const PictureFile* file);

private:
    using Scale = PlacedPicture::Scale;
    static constexpr double usualOpacity = 0.6, usualClick = 1, mostClick = 1e4; ///< px

    PlacedPicture m_out;
    double m_click = usualClick;
    Vec2 m_at = Vec2::Zero(), m_near = Vec2::Zero();
    Ring m_part; ///< px: corners of what is to be shown
    std::optional<double> m_turn;

    /// A number within its bounds, or what stands for it.
    double within(const Text& text, const std::string& field, double usual, double most);
    /// Standard error of a marked point: its own, or `usual`, px.
    double errorOf(const PicturePoint& point, const std::string& field, double usual);
    void look(const PictureFile* file);
    void crop();
    void cropToCorners();
    void cropToBox();
    void nothingLeft(const char* field);

    [[nodiscard]] bool hasCalibration() const;
    [[nodiscard]] bool hasLevel() const; ///< a line of its own
    void askForSize();
    [[nodiscard]] TwoPoints twoPoints(double usualError);
    [[nodiscard]] std::optional<LevelLine> levelLine();
    /// Turned by the level line or by the typed angle, as far as there is one.
    [[nodiscard]] Expected<PlaneFix> oriented(const PlaneFix& fix, const Vec2& pivot);
    void calibrate();
    void rectify();
    [[nodiscard]] std::vector<PointPair> cornerPairs();
    void question(const MarkedRectangle& marked);
    void stand(const Homography& flat, const std::vector<PointPair>& pairs);
    void standOnLowest(PlaneFix plane);
    void compare(const TwoPoints& two, PlaneFix& flat, const std::vector<PointPair>& pairs);
    void provisional();

    void show();
    void marks();
    void lookBehind();
    [[nodiscard]] PictureDepth depthOf(const Text& depth, const Text& error, const std::string& field);
    [[nodiscard]] PlacedPoint point(const std::string& name, const Vec2& at, double click) const;
    void beyond(const std::string& what, const std::string& field);
    void line(int index);
    [[nodiscard]] EndErrors endErrors(const PictureLine& l, const std::string& field);
};

} // namespace slab
