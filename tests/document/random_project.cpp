#include "tests/document/random_project.h"
#include "core/document/describe.h"
#include "core/document/texts.h"

namespace slab {
namespace {

class Maker {
public:
    explicit Maker(std::mt19937_64& random) : m_random(random) {}

    Project make() {
        Project p;
        p.units = one({"mm", "cm", "m", "in", "ft"});
        p.paper = one({"A4", "A3", "Letter", "Tabloid", "roll 36 in"});
        p.extra = extra();
        for (int i = below(m_random, 6); i > 0; --i)
            p.dimensions.push_back({{}, {}, coin() ? Space::subject : Space::build, {}, extra()});
        for (int i = below(m_random, 8); i > 0; --i) p.forms.push_back(form());
        for (int i = below(m_random, 4); i > 0; --i) p.stock.sheets.push_back(sheet());
        for (int i = below(m_random, 4); i > 0; --i) p.openings.push_back(opening());
        parts(p);
        donor(p.donor);
        p.rider.table = one({"adult", "child", "none"});
        p.rider.sex = one({"both", "female", "male"});
        p.rider.extra = extra();
        p.clearance.extra = extra();
        p.clearance.solids.resize(size(3));
        p.stock.extra = extra();
        p.materials.extra = extra();
        p.materials.plates.resize(size(4));
        p.joints.fallback = coin() ? JointKind::mitre : JointKind::cover;
        p.joints.order.resize(size(4));
        p.joints.edges.resize(size(3));
        for (EdgeJoint& e : p.joints.edges) e.joint = static_cast<JointKind>(below(m_random, 4));
        p.cut.resize(size(3));
        for (int i = below(m_random, 3); i > 0; --i)
            p.pieces.push_back(
                {{}, std::vector<std::string>(size(3)), number(), number(), number(), extra()});
        fill(p);
        return p;
    }

private:
    std::mt19937_64& m_random;
    int m_count = 0;

    bool coin() { return below(m_random, 2) == 0; }
    double number() { return uniform(m_random, -5000, 5000); }
    std::size_t size(int count) { return static_cast<std::size_t>(below(m_random, count)); }
    std::string one(std::initializer_list<const char*> words) {
        return *(words.begin() + below(m_random, static_cast<int>(words.size())));
    }
    Extra extra() {
        if (below(m_random, 3) != 0) return {};
        Extra out{{"colour", R"("blue")"}, {"later", R"({"a":[1,2.5,null,{"b":true}]})"}};
        out.resize(1 + size(2));
        return out;
    }
    std::vector<OutlinePoint> points(int least) {
        std::vector<OutlinePoint> out(static_cast<std::size_t>(least + below(m_random, 5)));
        for (OutlinePoint& p : out) p.extra = extra();
        return out;
    }
    template <class T>
    void few(std::vector<T>& all) {
        all.resize(size(3));
        for (T& one : all) one.extra = extra();
    }
    void parts(Project& p) {
        few(p.frames);
        for (Rib& r : p.frames) r.axis = one({"x", "y", "z"});
        few(p.cleats);
        for (CleatRule& c : p.cleats) c.kind = one({"cleat", "block"});
        few(p.seams);
        few(p.modules);
        for (Module& m : p.modules) m.plates.resize(size(3));
        few(p.passages);
        few(p.passengers);
        for (Passenger& who : p.passengers) who.table = one({"adult", "child", "none"});
        few(p.route);
        for (RoutePart& part : p.route) {
            part.kind = one({"door", "kerb_ramp", "ground", "bed"});
            few(part.stretches);
        }
        few(p.ride.ballast);
        p.ride.extra = extra();
        few(p.donor.wheels);
        for (DonorWheel& w : p.donor.wheels) w.role = one({"fixed", "drive", "steered", "caster"});
        few(p.donor.service);
        for (ServicePoint& at : p.donor.service) at.from = one({"", "x", "-z"});
        p.donor.drive = one({"", "pivot", "steered", "pushed"});
        few(p.stock.rounds);
        Mechanisms& m = p.mechanisms;
        few(m.turntables);
        for (Turntable& t : m.turntables) t.carries.resize(size(3));
        few(m.trunnions);
        few(m.linkages);
        for (Linkage& l : m.linkages) l.joint = one({"hinge", "pin_slot"});
        few(m.belts);
        for (Belt& b : m.belts) {
            few(b.wheels);
            b.adjust = one({"wheel", "pitch"});
            b.mirror = coin();
        }
        few(p.pictures);
        for (Picture& v : p.pictures) {
            v.file = "sheet.png";
            v.view = one({"side", "front", "plan"});
            v.space = coin() ? Space::build : Space::subject;
            v.corners.resize(coin() ? 4 : 0);
            few(v.features);
            few(v.lines);
        }
        few(p.lines);
        for (DimensionLine& l : p.lines) {
            l.view = one({"side", "front", "plan"});
            l.along = one({"", "x", "y", "z"});
            l.from = l.to = "n1/p2";
        }
    }
    std::vector<Curve> someCurves() {
        std::vector<Curve> out(size(3));
        for (Curve& c : out) {
            c.kind = static_cast<CurveKind>(below(m_random, 3));
            if (c.kind == CurveKind::spline) few(c.through);
        }
        return out;
    }
    Form form() {
        Form f;
        const std::vector<Curve> curves = someCurves();
        switch (below(m_random, 5)) {
        case 0:
            f.shape = ProfileShape{points(3), curves};
            break;
        case 1:
            f.shape = TaperShape{points(3), points(3), {}, {}, curves};
            break;
        case 2:
            f.shape = PlateShape{points(3), curves};
            break;
        case 3:
            f.shape = RoundShape{{}, {}, {}, {}, {}, coin(), {}};
            break;
        default: {
            FacetShape s;
            s.corners = points(4);
            s.faces.resize(4 + size(3));
            s.flatten = coin();
            s.symmetric = coin();
            s.pinned.resize(size(3));
            s.weights.resize(size(3));
            for (FacetFace& face : s.faces) face.corners.resize(3 + size(3));
            f.shape = std::move(s);
        }
        }
        f.standing = coin();
        f.mirror = coin();
        f.off = coin();
        f.extra = extra();
        f.at.extra = extra();
        return f;
    }
    SheetStock sheet() {
        SheetStock s;
        s.kind = one({"foam", "hardboard", "plywood", "card", "plastic"});
        s.measured = coin();
        s.turns = one({"any", "quarter", "half", "none"});
        s.flip = coin();
        s.extra = extra();
        return s;
    }
    Opening opening() {
        Opening o;
        o.shape = static_cast<OpeningShape>(below(m_random, 4));
        o.direction = one({"", "x", "-y", "z"});
        o.plates.resize(size(3));
        if (o.shape == OpeningShape::polygon) o.outline = points(3);
        o.parallel_walls = coin();
        o.extra = extra();
        return o;
    }
    void donor(Donor& d) {
        d.kind = one({"none", "powered_chair", "scooter"});
        d.best_place = coin();
        d.changes.resize(size(3));
        d.solids.resize(size(3));
        for (DonorSolid& s : d.solids) {
            s.shape = one({"box", "cylinder", "capsule"});
            s.axis = one({"x", "y", "z"});
            s.moving = coin();
        }
        d.leave_out.resize(size(3));
        d.extra = extra();
    }

    /// Names stay unique; words keep what was chosen; the rest is filled with what a builder might write.
    void fill(Project& p) {
        using detail::Role;
        std::vector<std::string> sheets;
        for (SheetStock& s : p.stock.sheets) sheets.push_back(s.name = "sheet " + std::to_string(++m_count));
        detail::eachText(p, [&](Role role, std::string& text) {
            const bool maybe = coin();
            const std::string unique = std::to_string(++m_count);
            switch (role) {
            case Role::name:
                if (text.empty()) text = "n" + unique;
                break;
            case Role::point:
                text = "p" + unique;
                break;
            case Role::solid:
                text = "solid " + unique;
                break;
            case Role::plate:
            case Role::panel:
                text = "n1/" + one({"port", "*", "é ~ / \\ \" side"}) + unique;
                break;
            case Role::stock:
                text =
                    sheets.empty() || maybe ? std::string{} : sheets[size(static_cast<int>(sheets.size()))];
                break;
            case Role::label:
                if (text.empty()) text = one({"", "a note", "line\nbreak \t ½″ ✓", "\x01 odd"});
                break;
            case Role::length:
                text = one({"", "3 m", "7' 10-1/2\"", "a * 2", "½ in", "1e3"});
                break;
            case Role::angle:
                text = one({"", "30°", "0.5 rad", "12"});
                break;
            case Role::number:
            case Role::any:
                text = one({"3", "14.5", "0.1", "count * 2", "-7", "007", "1e5"});
                break;
            case Role::ratio:
                text = one({"2/5", "0.4", "1:2.5"});
                break;
            case Role::word:
            case Role::print:
                break;
            }
        });
    }
};

} // namespace

Project randomProject(std::mt19937_64& random) {
    return Maker(random).make();
}

} // namespace slab
