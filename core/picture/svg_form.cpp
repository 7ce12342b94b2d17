#include "core/picture/svg_form.h"
#include "core/picture/typed.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace slab {

namespace {

Unit documentUnit(const Project& p) {
    const auto unit = parseUnit(p.units);
    return unit ? *unit : Unit::mm;
}

double signedAreaOf(const OutlineDraft& draft) {
    return signedArea(Ring(draft.points));
}

/// What the old points of a form hand on: half-widths, and where there are as many, names of points and
/// sides.
void handOn(const std::vector<OutlinePoint>& old, OutlineTexts& texts) {
    if (old.empty()) return;
    std::map<std::string, std::string> names;
    std::vector<std::string> taken;
    for (std::size_t i = 0; i < texts.points.size(); ++i) {
        const OutlinePoint& from = old[std::min(i, old.size() - 1)];
        OutlinePoint& to = texts.points[i];
        if (!from.half_width.empty()) to.half_width = from.half_width;
        const bool named = old.size() >= texts.points.size() && !from.name.empty();
        const std::string name = freeName(named ? from.name : to.name, taken);
        names[to.name] = name;
        taken.push_back(name);
        to.name = name;
        if (named) to.side = from.side;
    }
    for (Curve& c : texts.curves) {
        c.from = names[c.from];
        c.to = names[c.to];
    }
}

} // namespace

OutlineTexts outlineTexts(const OutlineDraft& draft, Unit unit, const OutlineImport& how) {
    const auto text = [&](double mm) -> Text {
        const Text plain = fineLength(mm, unit);
        return how.space == Space::build ? "build(" + plain + ")" : plain;
    };
    const bool profile = how.as == OutlineImport::As::profile;
    // A bulge counts to the outside: to the right of the way round when that runs counter-clockwise.
    const double outside = signedAreaOf(draft) > 0 ? -1 : 1;
    OutlineTexts out;
    const std::size_t n = draft.points.size();
    for (std::size_t i = 0; i < n; ++i) {
        OutlinePoint p;
        p.name = "p" + std::to_string(i + 1);
        p.x = text(draft.points[i].x());
        (profile ? p.z : p.y) = text(draft.points[i].y());
        if (profile) p.half_width = how.half_width;
        out.points.push_back(std::move(p));
        const OutlineEdge& edge = draft.edges[i];
        if (edge.kind == OutlineEdge::Kind::line) continue;
        Curve c;
        c.from = out.points.back().name;
        c.to = "p" + std::to_string((i + 1) % n + 1);
        c.tolerance = how.space == Space::build ? "build(" + how.tolerance + ")" : how.tolerance;
        if (edge.kind == OutlineEdge::Kind::arc) {
            c.bulge = text(outside * edge.bulge);
        } else if (edge.kind == OutlineEdge::Kind::spline) {
            c.kind = CurveKind::spline;
            for (const Vec2& at : edge.through) {
                OutlinePoint through;
                through.x = text(at.x());
                (profile ? through.z : through.y) = text(at.y());
                c.through.push_back(std::move(through));
            }
        } else {
            c.kind = CurveKind::ellipse;
            c.x = text(edge.meet.x());
            (profile ? c.z : c.y) = text(edge.meet.y());
            const double degrees = edge.sweep * 180 / std::numbers::pi;
            if (std::abs(degrees - 90) > 1e-9) c.sweep = printExact(edge.sweep, Unit::deg);
        }
        out.curves.push_back(std::move(c));
    }
    return out;
}

Edit addOutline(OutlineDraft draft, OutlineImport how) {
    Edit edit{"Import outline", {}, {}};
    edit.apply = [draft = std::move(draft), how = std::move(how)](const Project& p) -> Expected<Project> {
        Project next = p;
        OutlineTexts texts = outlineTexts(draft, documentUnit(p), how);
        std::vector<std::string> taken;
        for (const Form& f : p.forms) taken.push_back(f.name);
        Form form;
        form.name = freeName(how.name.empty() ? "outline" : how.name, taken);
        if (how.as == OutlineImport::As::profile)
            form.shape = ProfileShape{std::move(texts.points), std::move(texts.curves)};
        else if (how.as == OutlineImport::As::plate)
            form.shape = PlateShape{std::move(texts.points), std::move(texts.curves)};
        else
            form.shape = TaperShape{texts.points, texts.points, "0", how.height, std::move(texts.curves)};
        next.forms.push_back(std::move(form));
        return next;
    };
    return edit;
}

Edit replaceOutline(int form, OutlineDraft draft, OutlineImport how) {
    Edit edit{"Replace outline", {}, {}};
    edit.apply = [form, draft = std::move(draft),
                  how = std::move(how)](const Project& p) -> Expected<Project> {
        const std::string place = "/forms/" + std::to_string(form);
        if (form < 0 || static_cast<std::size_t>(form) >= p.forms.size())
            return fail("no-such-place", "There is no such form.", place);
        Project next = p;
        Shape& shape = next.forms[static_cast<std::size_t>(form)].shape;
        OutlineImport as = how;
        as.as = std::holds_alternative<ProfileShape>(shape) ? OutlineImport::As::profile
                : std::holds_alternative<TaperShape>(shape) ? OutlineImport::As::taper
                                                            : OutlineImport::As::plate;
        OutlineTexts texts = outlineTexts(draft, documentUnit(p), as);
        if (auto* profile = std::get_if<ProfileShape>(&shape)) {
            handOn(profile->outline, texts);
            *profile = {std::move(texts.points), std::move(texts.curves)};
        } else if (auto* plate = std::get_if<PlateShape>(&shape)) {
            handOn(plate->outline, texts);
            *plate = {std::move(texts.points), std::move(texts.curves)};
        } else if (auto* taper = std::get_if<TaperShape>(&shape)) {
            handOn(taper->base, texts);
            taper->base = taper->top = texts.points;
            taper->curves = std::move(texts.curves);
        } else {
            return fail("wrong-type", "A round or facet form has no outline.", place + "/kind",
                        "Choose a profile, taper or plate form.");
        }
        return next;
    };
    return edit;
}

} // namespace slab
