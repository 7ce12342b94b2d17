// The harbour tram is traced from the drawing beside it: its outlines lie on the drawing's lines, read from
// the drawing's own file and brought into the elevations by the document's two marked points.
#include "core/body/skin.h"
#include "core/picture/svg_file.h"
#include "tests/evaluate/samples.h"
#include <fstream>
#include <iterator>
#include <map>

using namespace slab;
using namespace slab::test;

namespace {

constexpr double off = 3; ///< mm of the subject that a traced point may stand off its line

/// Points along a path, a straight piece between two of them.
Ring pointsOf(const SvgSubpath& path) {
    Ring points{path.start};
    for (const SvgSegment& s : path.segments) {
        const Vec2 from = points.back();
        const int steps = s.kind == SvgSegment::Kind::line ? 1 : 64;
        for (int i = 1; i <= steps; ++i) {
            const double t = static_cast<double>(i) / steps, r = 1 - t;
            points.push_back(s.kind == SvgSegment::Kind::line ? s.to
                             : s.kind == SvgSegment::Kind::arc
                                 ? s.arc.at(s.arc.start + t * s.arc.sweep)
                                 : Vec2(r * r * r * from + 3 * r * r * t * s.c1 + 3 * r * t * t * s.c2 +
                                        t * t * t * s.to));
        }
    }
    if (path.closed) points.push_back(points.front());
    return points;
}

double fromLine(const Vec2& p, const Ring& line) {
    double least = 1e300;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const Vec2 way = line[i + 1] - line[i];
        const double t = std::clamp((p - line[i]).dot(way) / std::max(way.squaredNorm(), 1e-12), 0.0, 1.0);
        least = std::min(least, (p - line[i] - t * way).norm());
    }
    return least;
}

struct Traced {
    std::map<std::string, Ring> lines; ///< of the drawing by their ids, in their elevation, mm of the build
    ResolvedForms forms;
    double scale = 1;

    [[nodiscard]] const std::vector<Vec3>& corners(const std::string& form) const {
        for (const FormSolid& solid : forms.solids)
            if (solid.form == form) return solid.solid.vertices;
        ADD_FAILURE() << "no form " << form;
        static const std::vector<Vec3> none;
        return none;
    }
};

Traced traced(const char* scale) {
    Project tram = sample("harbour-tram");
    tram.scale = scale;
    Evaluator evaluator;
    const Evaluation e =
        evaluator.evaluate(tram, Effort::live, 0, {}, readPictureFiles(tram, sampleFolder()));
    std::ifstream in(sampleFolder() / "harbour-tram.svg", std::ios::binary);
    const auto svg = readSvg(std::string(std::istreambuf_iterator<char>(in), {}));
    Traced out;
    if (!svg || !e.pictures) {
        ADD_FAILURE() << "the drawing cannot be read";
        return out;
    }
    const double px = svg->size.unitX * 96 / 25.4; // for one unit of the drawing
    for (const PlacedPicture& picture : e.pictures->pictures) {
        EXPECT_EQ(picture.state, PlacedPicture::State::present) << picture.name;
        EXPECT_EQ(picture.scale, PlacedPicture::Scale::distance) << picture.name;
        for (const SvgShape& shape : svg->shapes) {
            if (shape.id.rfind(picture.view + "-", 0) != 0 || shape.paths.empty()) continue;
            Ring& line = out.lines[shape.id];
            for (const Vec2& p : pointsOf(shape.paths.front())) {
                EXPECT_TRUE(contains({picture.crop.min, Vec2(picture.crop.max.x(), picture.crop.min.y()),
                                      picture.crop.max, Vec2(picture.crop.min.x(), picture.crop.max.y())},
                                     px * p, 0))
                    << shape.id << " is cropped away";
                line.push_back(toPlane(picture.fix, px * p));
            }
        }
    }
    out.scale = e.scale;
    out.forms = resolveForms(tram, *e.scope);
    return out;
}

} // namespace

TEST(TracedTram, OutlinesLieOnTheDrawing) {
    for (const char* scale : {"2/5", "1", "0.3"}) {
        const Traced t = traced(scale);
        ASSERT_EQ(t.lines.size(), 8U) << scale;
        double worst = 0;
        int points = 0;
        const auto on = [&](const Vec2& p, const char* line) {
            const double d = fromLine(p, t.lines.at(line)) / t.scale;
            EXPECT_LE(d, off) << line << " at " << p.transpose() / t.scale << ", scale " << scale;
            worst = std::max(worst, d);
            ++points;
        };
        for (const Vec3& p : t.corners("body")) {
            on({p.x(), p.z()}, "side-body");
            if (std::abs(p.z() / t.scale - 360) < 1 || std::abs(p.z() / t.scale - 2820) < 1)
                on({p.y(), p.z()}, "front-body");
        }
        for (const Vec3& p : t.corners("lantern")) {
            on({p.x(), p.y()}, "plan-lantern");
            if (p.z() / t.scale < 2800) continue; // its foot reaches into the body
            on({p.y(), p.z()}, "front-lantern");
            on({p.x(), p.z()}, "side-lantern");
        }
        for (const Vec3& p : t.corners("fender")) {
            on({p.y(), p.z()}, "front-fender");
            on({p.x(), p.z()}, "side-fender");
            if (p.x() / t.scale > 5100) on({p.x(), p.y()}, "plan-fender");
        }
        std::printf("scale %s: %d points, worst %.3f mm of the subject\n", scale, points, worst);
        EXPECT_GT(points, 80);
    }
}

TEST(TracedTram, FlatsStayAsNearToTheCurvesAsTheySay) {
    const Traced t = traced("2/5");
    double told = 0;
    for (const CurveFit& fit : t.forms.curves)
        if (fit.form == "body") told = std::max(told, fit.deviation);
    EXPECT_GT(told, 0);
    EXPECT_LE(told, 20 * t.scale) << "the document's chord error";
    Ring flats; // the port side's corners as they follow each other round the drawing's line
    std::vector<std::pair<double, Vec2>> round;
    const Ring& line = t.lines.at("side-body");
    for (const Vec3& p : t.corners("body")) {
        if (p.y() < 0) continue;
        const Vec2 at(p.x(), p.z());
        std::size_t nearest = 0;
        double along = 0, best = 1e300;
        for (std::size_t i = 0; i + 1 < line.size(); ++i) {
            const double d = fromLine(at, {line[i], line[i + 1]});
            if (d < best) {
                best = d;
                nearest = i;
                along = (at - line[i]).norm();
            }
        }
        round.emplace_back(static_cast<double>(nearest) + along / 1e6, at);
    }
    std::sort(round.begin(), round.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (const auto& [place, at] : round) flats.push_back(at);
    ASSERT_GT(flats.size(), 12U);
    flats.push_back(flats.front());
    double worst = 0;
    for (const Vec2& p : line) worst = std::max(worst, fromLine(p, flats));
    EXPECT_LE(worst, told + off * t.scale);
    EXPECT_GE(worst, told - off * t.scale) << "the deviation that is told is reached";
}

TEST(TracedTram, ADragOfTheScaleKeepsItFittingInABand) {
    Project tram = sample("harbour-tram");
    for (const auto& [scale, state] :
         {std::pair("2/5", FitState::fits), {"0.45", FitState::fits}, {"0.3", FitState::hits}}) {
        tram.scale = scale;
        const Evaluation e = evaluated(tram);
        EXPECT_EQ(e.fit->state, state) << scale;
        EXPECT_TRUE(e.sheets->unplaced.empty()) << scale;
    }
}
