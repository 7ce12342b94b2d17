#include "core/body/checks.h"
#include "core/body/contact.h"
#include "core/body/moved_skin.h"
#include "core/body/pieces.h"
#include "core/body/snap.h"
#include "core/geometry/occt.h"
#include "core/geometry/patchwork.h"
#include <algorithm>
#include <map>
#include <set>

namespace slab {

namespace {

constexpr const char* overlapRemedy = "Overlap by at least one thickness, or separate.";

/// One closed skin before naming: a polyhedron and where each face came from, first owner first.
struct Part {
    Polyhedron solid;
    std::vector<std::vector<FaceOrigin>> origins;
    bool joined = false;
};

/// Input faces of some forms, numbered flat.
std::vector<FaceOrigin> flatOrigins(const std::vector<const FormSolid*>& forms) {
    std::vector<FaceOrigin> flat;
    for (const FormSolid* form : forms)
        for (const PolyFace& face : form->solid.faces) flat.push_back(originOf(form->form, face.name));
    return flat;
}

class Joiner {
public:
    Joiner(const ResolvedForms& forms, const MayMerge& mayMerge, const Job& job, JoinMemory* memory)
        : m_mayMerge(mayMerge), m_job(job), m_memory(memory), m_solids(forms.solids), m_units(forms.units) {}

    std::vector<Part> parts;
    std::vector<Finding> findings;

    void run() {
        std::vector<FormSolid> joined;
        for (const FormSolid& s : m_solids)
            if (!s.standing) joined.push_back(s);
        snapPlanes(joined, findings, m_units);
        for (const auto& cluster : clusters(joined)) {
            if (m_job.stopped()) return;
            if (cluster.size() == 1 || !joinCluster(cluster))
                for (const FormSolid* form : cluster) addAlone(*form, true);
        }
        looseParts();
        for (const FormSolid& s : m_solids)
            if (s.standing) addAlone(s, false);
    }

private:
    const MayMerge& m_mayMerge;
    const Job& m_job;
    JoinMemory* m_memory;
    const std::vector<FormSolid>& m_solids;
    const UnitStyle& m_units;

    /// Forms whose boxes touch, directly or over others; in document order.
    static std::vector<std::vector<const FormSolid*>> clusters(const std::vector<FormSolid>& forms) {
        std::vector<std::size_t> group(forms.size());
        std::vector<Box3> boxes;
        for (const FormSolid& f : forms) boxes.push_back(bounds(f.solid));
        for (std::size_t b = 0; b < forms.size(); ++b) {
            group[b] = b;
            for (std::size_t a = 0; a < b; ++a) {
                if ((boxes[a].min.array() > boxes[b].max.array() + 1e-3).any() ||
                    (boxes[b].min.array() > boxes[a].max.array() + 1e-3).any())
                    continue;
                const std::size_t from = group[b], to = group[a];
                for (std::size_t& g : group)
                    if (g == from || g == to) g = std::min(from, to);
            }
        }
        std::map<std::size_t, std::vector<const FormSolid*>> sorted;
        for (std::size_t i = 0; i < forms.size(); ++i) sorted[group[i]].push_back(&forms[i]);
        std::vector<std::vector<const FormSolid*>> result;
        for (auto& [first, members] : sorted) result.push_back(std::move(members));
        return result;
    }

    [[nodiscard]] MayMergeFaces mergeRule(const std::vector<FaceOrigin>& flat) const {
        if (!m_mayMerge) return {};
        return [this, &flat](int a, int b) {
            return m_mayMerge(flat[static_cast<std::size_t>(a)].base, flat[static_cast<std::size_t>(b)].base);
        };
    }

    static Part partOf(const Polyhedron& solid, const std::vector<std::vector<int>>& inputs,
                       const std::vector<FaceOrigin>& flat, const std::vector<std::size_t>& faces) {
        Part part;
        std::vector<int> renumbered(solid.vertices.size(), -1);
        for (std::size_t f : faces) {
            PolyFace face = solid.faces[f];
            for (auto& loop : face.loops)
                for (int& v : loop) {
                    int& to = renumbered[static_cast<std::size_t>(v)];
                    if (to < 0) {
                        to = static_cast<int>(part.solid.vertices.size());
                        part.solid.vertices.push_back(solid.vertices[static_cast<std::size_t>(v)]);
                    }
                    v = to;
                }
            part.solid.faces.push_back(std::move(face));
            std::vector<FaceOrigin> origins;
            for (int i : inputs[f]) origins.push_back(flat[static_cast<std::size_t>(i)]);
            part.origins.push_back(std::move(origins));
        }
        return part;
    }

    void addAlone(const FormSolid& form, bool joined) {
        const auto flat = flatOrigins({&form});
        const Merged whole = merged(patchworkOf({form.solid}), mergeRule(flat));
        std::vector<std::size_t> all(whole.solid.faces.size());
        for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
        parts.push_back(partOf(whole.solid, whole.faceInputs, flat, all));
        parts.back().joined = joined;
    }

    static std::vector<std::string> aboutForms(const std::vector<const FormSolid*>& forms) {
        std::vector<std::string> about;
        for (const FormSolid* f : forms) about.push_back("form:" + f->form);
        return about;
    }

    [[nodiscard]] Expected<occt::Fused> united(const std::vector<Polyhedron>& solids,
                                               const MayMergeFaces& merge) const {
        if (!m_memory) return occt::fuse(solids, merge, m_job);
        if (auto moved = m_memory->moved(solids)) return std::move(*moved);
        auto fused = occt::fuse(solids, merge, m_job);
        if (fused) m_memory->remember(solids, *fused);
        return fused;
    }

    /// @return false if the forms are to be kept apart
    bool joinCluster(const std::vector<const FormSolid*>& cluster) {
        if (tooMany(cluster)) return true;
        std::vector<Polyhedron> solids;
        for (const FormSolid* f : cluster) solids.push_back(f->solid);
        const auto flat = flatOrigins(cluster);
        const auto fused = united(solids, mergeRule(flat));
        if (!fused) {
            if (fused.error().code != "stopped") failed(cluster, fused.error());
            return false;
        }
        for (const Vec3& at : fused->contacts) contact(cluster, at);
        std::vector<Part> found;
        for (int s = 0; s < fused->solids; ++s) {
            std::vector<std::size_t> faces;
            for (std::size_t f = 0; f < fused->faceSolid.size(); ++f)
                if (fused->faceSolid[f] == s) faces.push_back(f);
            if (!addSound(cluster, partOf(fused->solid, fused->faceInputs, flat, faces), found)) return false;
        }
        swallowed(cluster, found);
        for (Part& p : found) parts.push_back(std::move(p));
        return true;
    }

    /// Joining takes about the square of the pairs that cross: beyond this it would take minutes. No body
    /// that can be built has so many.
    bool tooMany(const std::vector<const FormSolid*>& cluster) {
        constexpr std::size_t most = 1200;
        std::vector<Box3> boxes;
        for (const FormSolid* f : cluster) boxes.push_back(bounds(f->solid));
        std::size_t pairs = 0;
        for (std::size_t i = 0; i < boxes.size(); ++i)
            for (std::size_t j = i + 1; j < boxes.size(); ++j)
                pairs += (boxes[i].min.array() <= boxes[j].max.array()).all() &&
                         (boxes[j].min.array() <= boxes[i].max.array()).all();
        if (pairs <= most) return false;
        findings.push_back({Severity::stop,
                            "too-many-crossings",
                            std::to_string(cluster.size()) + " forms cross each other in " +
                                std::to_string(pairs) + " places; at most " + std::to_string(most) +
                                " are joined. They are left out.",
                            {"form:" + cluster.front()->form, "form:" + cluster.back()->form},
                            "Delete forms that lie inside others, or make some of them standing forms.",
                            {}});
        return true;
    }

    /// Adds a joined solid, parted where it touches itself, so that every skin is closed.
    bool addSound(const std::vector<const FormSolid*>& cluster, Part whole, std::vector<Part>& found) {
        whole.joined = true;
        const auto skin = makeSkin(whole.solid);
        if (skin) {
            found.push_back(std::move(whole));
            return true;
        }
        if (skin.error().code != "edge-contact") {
            failed(cluster, skin.error());
            return false;
        }
        contact(cluster, bounds(whole.solid).min);
        const auto pieces = partedAtContacts(whole.solid);
        if (!pieces) {
            failed(cluster, pieces.error());
            return false;
        }
        for (const ContactPiece& piece : *pieces) {
            Part part{piece.solid, {}, true};
            for (const std::size_t f : piece.faces) part.origins.push_back(whole.origins[f]);
            if (const auto closed = makeSkin(part.solid); !closed) {
                failed(cluster, closed.error());
                return false;
            }
            found.push_back(std::move(part));
        }
        return true;
    }

    void failed(const std::vector<const FormSolid*>& cluster, const Error& error) {
        findings.push_back({Severity::stop,
                            "join-failed",
                            error.message + " They stand side by side instead.",
                            aboutForms(cluster),
                            error.remedy.empty() ? "Move one of the forms a little." : error.remedy,
                            {}});
    }

    void contact(const std::vector<const FormSolid*>& cluster, const Vec3& at) {
        const auto last = std::find_if(findings.rbegin(), findings.rend(),
                                       [](const Finding& f) { return f.code == "edge-contact"; });
        const std::vector<std::string> about = aboutForms(cluster);
        if (last != findings.rend() && last->about == about) return; // one entry for a cluster is enough
        findings.push_back({Severity::stop, "edge-contact", "Forms touch only along an edge or in a point.",
                            about, overlapRemedy, std::array{at.x(), at.y(), at.z()}});
    }

    void swallowed(const std::vector<const FormSolid*>& cluster, const std::vector<Part>& found) {
        std::set<std::string> seen;
        for (const Part& p : found)
            for (const auto& origins : p.origins)
                for (const FaceOrigin& o : origins) seen.insert(o.form);
        for (const FormSolid* f : cluster)
            if (!seen.contains(f->form))
                findings.push_back({Severity::note,
                                    "form-swallowed",
                                    "Form " + f->form + " lies wholly inside other forms and adds nothing.",
                                    {"form:" + f->form},
                                    "Move it outward, or delete it.",
                                    {}});
    }

    /// The joined forms are meant to be one body: what does not hang on to the largest part is loose.
    void looseParts() {
        const Part* largest = nullptr;
        for (const Part& p : parts)
            if (!largest || volume(p.solid) > volume(largest->solid)) largest = &p;
        for (const Part& p : parts) {
            if (&p == largest) continue;
            std::vector<std::string> about;
            for (const auto& origins : p.origins) {
                const std::string form = "form:" + origins.front().form;
                if (std::find(about.begin(), about.end(), form) == about.end()) about.push_back(form);
            }
            const Box3 box = bounds(p.solid);
            const Vec3 at = (box.min + box.max) / 2;
            findings.push_back(
                {Severity::look, "loose-piece",
                 "A piece of " + about.front().substr(5) + " does not touch the rest of the body.", about,
                 "Overlap by at least one thickness, or make it a standing form.",
                 std::array{at.x(), at.y(), at.z()}});
        }
    }
};

/// Joins the parts' skins to one, each its own body.
void gather(Body& body, const std::vector<Part>& parts, std::vector<FaceOrigin>& owners) {
    std::set<std::string> owning;
    for (const Part& p : parts)
        for (const auto& origins : p.origins) owning.insert(origins.front().base);
    for (const Part& part : parts) {
        const auto made = makeSkin(part.solid);
        if (!made) {
            body.findings.push_back(
                findingOf(made.error(), Severity::stop, {"form:" + part.origins.front().front().form}));
            continue;
        }
        const int vertices = static_cast<int>(body.skin.vertices.size());
        const int faces = static_cast<int>(body.skin.faces.size());
        body.skin.vertices.insert(body.skin.vertices.end(), made->vertices.begin(), made->vertices.end());
        for (std::size_t f = 0; f < made->faces.size(); ++f) {
            SkinFace face = made->faces[f];
            const FaceOrigin& owner = part.origins[f].front();
            face.body = body.skin.bodies;
            face.form = owner.form;
            for (auto& loop : face.loops)
                for (int& v : loop) v += vertices;
            for (const FaceOrigin& o : part.origins[f])
                if (!owning.contains(o.base) &&
                    std::find(face.aliases.begin(), face.aliases.end(), o.base) == face.aliases.end())
                    face.aliases.push_back(o.base);
            body.skin.faces.push_back(std::move(face));
            owners.push_back(owner);
        }
        for (SkinEdge e : made->edges) {
            e.a += vertices;
            e.b += vertices;
            e.left += faces;
            e.right += faces;
            body.skin.edges.push_back(e);
        }
        ++body.skin.bodies;
    }
}

void measure(Body& body) {
    const Polyhedron all = toPolyhedron(body.skin);
    body.volume = volume(all);
    body.area = surfaceArea(all);
    body.bounds = boundsOf(body);
}

Body joinAll(const ResolvedForms& forms, const MayMerge& mayMerge, const std::vector<PieceKey>& keys,
             const Job& job, JoinMemory* memory) {
    Body body;
    body.plates = forms.plates;
    body.rounds = forms.rounds;
    body.curves = forms.curves;
    Joiner joiner(forms, mayMerge, job, memory);
    joiner.run();
    body.findings = std::move(joiner.findings);
    std::vector<FaceOrigin> owners;
    gather(body, joiner.parts, owners);
    body.pieces = namePieces(body.skin, owners, keys, forms.scale);
    for (Finding& f : sliverFindings(body.skin, forms.units)) body.findings.push_back(std::move(f));
    measure(body);
    return body;
}

} // namespace

Body joinForms(const ResolvedForms& forms, const MayMerge& mayMerge, const std::vector<PieceKey>& keys,
               const Job& job) {
    return joinAll(forms, mayMerge, keys, job, nullptr);
}

Body joinForms(const ResolvedForms& forms, const MayMerge& mayMerge, const std::vector<PieceKey>& keys,
               const Job& job, JoinMemory& memory) {
    return joinAll(forms, mayMerge, keys, job, &memory);
}

Body rescaled(const Body& unit, double unitScale, const ResolvedForms& forms) {
    const double factor = forms.scale / unitScale;
    Body body = unit;
    for (Vec3& p : body.skin.vertices) p *= factor;
    for (SkinFace& face : body.skin.faces) face.plane.offset *= factor;
    body.plates = forms.plates;
    body.rounds = forms.rounds;
    body.curves = forms.curves;
    std::erase_if(body.findings,
                  [](const Finding& f) { return f.code == "sliver-edge" || f.code == "sliver-face"; });
    for (Finding& f : body.findings)
        if (f.at)
            for (double& x : *f.at) x *= factor;
    for (Finding& f : sliverFindings(body.skin, forms.units)) body.findings.push_back(std::move(f));
    measure(body);
    return body;
}

} // namespace slab
