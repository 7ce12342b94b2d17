#pragma once
// The document as plain values. Every length, angle and number that the builder types is kept as text (a
// formula); core/evaluate turns it into figures. `extra` keeps fields that this version does not know.
#include "core/document/mechanisms.h"
#include "core/document/pictures.h"
#include "core/document/ride.h"
#include "core/document/woodwork.h"
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace slab {

struct Dimension {
    std::string name;
    Text value;
    Space space = Space::subject;
    std::string note;
    Extra extra;
    bool operator==(const Dimension&) const = default;
};

struct OutlinePoint {
    std::string name; ///< the side from this point to the next takes this point's name unless `side` is given
    std::string side;
    Text x, y, z;    ///< profile: x, z; taper and plate: x, y; facet corner: x, y, z
    Text half_width; ///< profile only
    Extra extra;
    bool operator==(const OutlinePoint&) const = default;
};

enum class CurveKind { arc, ellipse, spline };
/// A curved edge between two neighbouring outline points, replaced by facets that deviate from it as little
/// as so many can.
struct Curve {
    std::string from, to;
    CurveKind kind = CurveKind::arc;
    Text bulge;   ///< arc: sagitta; positive to the outside of the outline
    Text x, y, z; ///< ellipse: where the tangents at its two ends meet
    Text sweep;   ///< ellipse: angle of the circle arc that it is stretched from, in (0, 180°);
                  ///< empty = 90°
    std::vector<OutlinePoint> through; ///< spline: points that it runs through, from `from` to `to`
    Text facets;                       ///< count; or empty and …
    Text tolerance;                    ///< … greatest chord error
    Extra extra;
    bool operator==(const Curve&) const = default;
};

/// Side outline (x, z) with a half-width at each point; symmetric about y = 0.
struct ProfileShape {
    std::vector<OutlinePoint> outline;
    std::vector<Curve> curves;
    bool operator==(const ProfileShape&) const = default;
};
/// Base outline in plan and top outline with as many corners, at two heights.
struct TaperShape {
    std::vector<OutlinePoint> base, top;
    Text base_z, top_z;
    std::vector<Curve> curves; ///< apply to base and top alike
    bool operator==(const TaperShape&) const = default;
};
/// One free flat plate: outline (x, y) in its own plane, outside face up (+z), growing down by its thickness.
struct PlateShape {
    std::vector<OutlinePoint> outline;
    std::vector<Curve> curves;
    bool operator==(const PlateShape&) const = default;
};
/// A cylinder or cone along its own z from 0 to length. `part` names a found or stock part it is made from.
struct RoundShape {
    Text diameter, top_diameter, length, wall;
    std::string part;
    bool cuts = true; ///< cuts its own opening in the plates that it crosses
    Text gap;         ///< added to the radius of that opening
    bool operator==(const RoundShape&) const = default;
};
struct FacetFace {
    std::string name;
    std::vector<std::string> corners; ///< counter-clockwise seen from outside
    Extra extra;
    bool operator==(const FacetFace&) const = default;
};
struct FacetShape {
    std::vector<OutlinePoint> corners;
    std::vector<FacetFace> faces;
    bool flatten = false;            ///< faces that are not flat are made flat by least squares
    bool symmetric = false;          ///< then corners that mirror each other in y = 0 go on doing so
    std::vector<std::string> pinned; ///< corners that stay where they are
    std::vector<NamedText> weights;  ///< how much a corner's move counts, by its name; 1 unless given
    bool operator==(const FacetShape&) const = default;
};

using Shape = std::variant<ProfileShape, TaperShape, PlateShape, RoundShape, FacetShape>;

struct Form {
    std::string name;
    Shape shape;
    bool standing = false; ///< own closed skin instead of joined (profile, taper, facet)
    bool mirror =
        false;        ///< a second one reflected in y = 0 ("name port" stays, the other is "name starboard")
    bool off = false; ///< kept in the document but left out of the body
    Placement at;
    std::string note;
    Extra extra;
    bool operator==(const Form&) const = default;
};

struct PlateMaterial {
    std::string plates; ///< plate name or pattern with *
    std::string stock;  ///< sheet name; empty = no plate there (left out)
    bool operator==(const PlateMaterial&) const = default;
};
struct Materials {
    std::string fallback;              ///< "default" in the file
    std::vector<PlateMaterial> plates; ///< first match wins
    Extra extra;
    bool operator==(const Materials&) const = default;
};

enum class JointKind { cover, mitre, fold, open };
struct EdgeJoint {
    std::string a, b; ///< "between"; for cover, `a` covers `b`
    JointKind joint = JointKind::cover;
    Extra extra;
    bool operator==(const EdgeJoint&) const = default;
};
struct Joints {
    JointKind fallback = JointKind::cover; ///< cover: by order, equals mitre; mitre: all mitred
    std::vector<std::string> order;        ///< plate patterns, highest rank first
    std::vector<EdgeJoint> edges;
    Extra extra;
    bool operator==(const Joints&) const = default;
};

enum class OpeningShape { rectangle, circle, slot, polygon };
/// A hole cut on purpose: in one host plate (u right, v up, from the plate's outline centre), or along a
/// direction through every plate that its prism meets.
struct Opening {
    std::string name;
    OpeningShape shape = OpeningShape::rectangle;
    std::string plate;                 ///< host plate name; empty = use direction
    std::string direction;             ///< "x", "y", "z", "-x", …
    std::vector<std::string> plates;   ///< with a direction: patterns it is limited to; empty = all
    Text u, v;                         ///< on the host, build size scaled like subject
    Text x, y, z;                      ///< with a direction: a point on its axis
    Text width, height;                ///< rectangle, slot (height = width of the slot, round ends)
    Text diameter;                     ///< circle
    Text corner_radius;                ///< rectangle
    Text turn;                         ///< angle in the plate, counter-clockwise
    std::vector<OutlinePoint> outline; ///< polygon: x, y
    bool parallel_walls = false;       ///< walls along the direction instead of square to each plate
    std::string purpose;               ///< "", "exit", "sight_slit", "hand_hole", "wheel_arch", "light"
    bool lid = false;                  ///< what is cut out comes back as a hatch that lifts off
    Text lid_gap;                      ///< all round the hatch, build
    Text lap;                          ///< width of the strip behind its edge, build; empty = none
    std::string lap_stock;             ///< of that strip; empty = the plate's own
    Extra extra;
    bool operator==(const Opening&) const = default;
};

/// A named convex solid of the donor (box: centre, size; cylinder and capsule: from at along axis).
struct DonorSolid {
    std::string name;
    std::string shape;           ///< "box", "cylinder", "capsule"
    Text x, y, z;                ///< centre
    Text size_x, size_y, size_z; ///< box
    Text diameter, length;       ///< cylinder, capsule (length without the caps)
    std::string axis = "z";      ///< "x", "y", "z"
    Text clearance;              ///< empty = the default clearance
    bool moving = false;
    Extra extra;
    bool operator==(const DonorSolid&) const = default;
};
struct Donor {
    std::string kind = "none";      ///< one of donorKinds()
    Placement at;                   ///< x, y, z, yaw used
    bool best_place = false;        ///< a search may move it along x
    std::vector<NamedText> changes; ///< sizes that differ from the generic donor, by name
    std::vector<DonorSolid> solids; ///< own solids, added; a name of the generic donor replaces that one
    std::vector<std::string> leave_out;
    std::vector<NamedText> measures; ///< readings of the measuring sheet, by name; the sizes follow from them
    std::vector<DonorWheel> wheels;  ///< own wheels, added or in the place of generic ones
    std::vector<ServicePoint> service; ///< "service_points" in the file
    std::string drive;                 ///< "pivot", "steered", "pushed"; empty = the generic donor's
    Extra extra;
    bool operator==(const Donor&) const = default;
};
struct Clearance {
    Text fallback = "20 mm";       ///< "default" in the file
    std::vector<NamedText> solids; ///< by solid name
    Extra extra;
    bool operator==(const Clearance&) const = default;
};

struct SheetStock {
    std::string name;
    std::string kind = "foam"; ///< foam, hardboard, plywood, card, plastic: tint and cautions
    Text width, length;        ///< "size" in the file
    Text thickness;
    bool measured = false; ///< thickness and size were measured by the builder, not nominal
    Text price = "0";
    Text on_hand = "0";
    Text trim = "0 mm";
    Text density = "0";        ///< kg/m³
    std::string turns = "any"; ///< allowed rotations: "any", "quarter", "half" (grain), "none"
    bool flip = false;         ///< both faces alike: a panel may lie either way up
    Extra extra;
    bool operator==(const SheetStock&) const = default;
};
struct Stock {
    std::vector<SheetStock> sheets;
    std::vector<RoundStock> rounds;
    Text match; ///< a round form may be so much larger or smaller than a stock part that it is made from
    Text kerf = "0 mm";
    Text margin = "2 mm";
    std::string currency = "$";
    Extra extra;
    bool operator==(const Stock&) const = default;
};

/// A panel that the builder has cut, and what it looked like then.
struct CutPanel {
    std::string panel;
    std::string fingerprint;
    Extra extra;
    bool operator==(const CutPanel&) const = default;
};
/// Plate piece keys saved so that undo and reload give the same names ("hull/port#2" and its neighbours,
/// centroid).
struct PieceKey {
    std::string name;
    std::vector<std::string> neighbours;
    double x = 0, y = 0, z = 0; ///< centroid at scale 1, mm
    Extra extra;
    bool operator==(const PieceKey&) const = default;
};

struct Project {
    int version = 1;
    std::string title;
    std::string units = "mm"; ///< "mm", "cm", "m", "in", "ft"
    Text scale = "1";
    std::vector<Dimension> dimensions;
    std::vector<Form> forms;
    Materials materials;
    Joints joints;
    std::vector<Opening> openings;
    std::vector<Rib> frames;
    std::vector<CleatRule> cleats;
    std::vector<Seam> seams;
    std::vector<Module> modules;
    std::vector<Passage> passages;
    Mechanisms mechanisms;
    std::vector<Picture> pictures;
    std::vector<DimensionLine> lines; ///< "dimension_lines" in the file
    Donor donor;
    Rider rider;
    std::vector<Passenger> passengers;
    Clearance clearance;
    std::vector<RoutePart> route;
    Ride ride;
    Stock stock;
    std::string paper = "A4"; ///< "Letter", "A4", "A3", "Tabloid", "roll 36 in", …
    std::vector<CutPanel> cut;
    std::vector<PieceKey> pieces;
    Text seed = "1";
    Extra extra;
    bool operator==(const Project&) const = default;
};

/// `*` matches any run of letters; otherwise letter by letter. "hull/port" also matches its pieces
/// "hull/port#2".
[[nodiscard]] bool matches(std::string_view pattern, std::string_view plateName);

} // namespace slab
