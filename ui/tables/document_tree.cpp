#include "ui/tables/document_tree.h"
#include <algorithm>
#include <nlohmann/json.hpp>

namespace slab::ui {

namespace {

using namespace detail;

std::string escapedToken(std::string_view token) {
    std::string out;
    for (const char c : token) out += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
    return out;
}

const char* ownerWord(const Dimension&) {
    return "dimension";
}
const char* ownerWord(const Placement&) {
    return "placement";
}
const char* ownerWord(const Curve&) {
    return "curve";
}
const char* ownerWord(const OutlinePoint&) {
    return "point";
}
const char* ownerWord(const FacetFace&) {
    return "face";
}
const char* ownerWord(const Form&) {
    return "form";
}
const char* ownerWord(const Materials&) {
    return "materials";
}
const char* ownerWord(const EdgeJoint&) {
    return "edge";
}
const char* ownerWord(const Joints&) {
    return "joints";
}
const char* ownerWord(const Opening&) {
    return "opening";
}
const char* ownerWord(const DonorSolid&) {
    return "solid";
}
const char* ownerWord(const Donor&) {
    return "donor";
}
const char* ownerWord(const Rider&) {
    return "rider";
}
const char* ownerWord(const Clearance&) {
    return "clearance";
}
const char* ownerWord(const SheetStock&) {
    return "sheet";
}
const char* ownerWord(const Stock&) {
    return "stock";
}
const char* ownerWord(const CutPanel&) {
    return "cut";
}
const char* ownerWord(const PieceKey&) {
    return "piece";
}
const char* ownerWord(const Rib&) {
    return "frame";
}
const char* ownerWord(const CleatRule&) {
    return "cleat rule";
}
const char* ownerWord(const Seam&) {
    return "seam";
}
const char* ownerWord(const Module&) {
    return "module";
}
const char* ownerWord(const Passage&) {
    return "passage";
}
const char* ownerWord(const DonorWheel&) {
    return "donor wheel";
}
const char* ownerWord(const ServicePoint&) {
    return "service point";
}
const char* ownerWord(const Passenger&) {
    return "passenger";
}
const char* ownerWord(const GroundStretch&) {
    return "stretch";
}
const char* ownerWord(const RoutePart&) {
    return "part of the route";
}
const char* ownerWord(const Ballast&) {
    return "ballast";
}
const char* ownerWord(const Ride&) {
    return "ride";
}
const char* ownerWord(const RoundStock&) {
    return "round part";
}
const char* ownerWord(const PicturePoint&) {
    return "picture point";
}
const char* ownerWord(const PictureLine&) {
    return "picture line";
}
const char* ownerWord(const Picture&) {
    return "picture";
}
const char* ownerWord(const DimensionLine&) {
    return "dimension line";
}
const char* ownerWord(const Turntable&) {
    return "turntable";
}
const char* ownerWord(const Trunnion&) {
    return "trunnion";
}
const char* ownerWord(const Linkage&) {
    return "linkage";
}
const char* ownerWord(const BeltWheel&) {
    return "wheel";
}
const char* ownerWord(const Belt&) {
    return "belt";
}
const char* ownerWord(const Mechanisms&) {
    return "mechanisms";
}
const char* ownerWord(const Project&) {
    return "document";
}

/// Whether a field of an outline point means something there; others show only if something is typed in them.
bool meant(Points points, std::string_view key) {
    if (key == "name" || points == Points::any) return true;
    switch (points) {
    case Points::profile:
        return key == "side" || key == "x" || key == "z" || key == "half_width";
    case Points::plan:
        return key == "side" || key == "x" || key == "y";
    case Points::corner:
        return key == "x" || key == "y" || key == "z";
    default:
        return key == "x" || key == "y";
    }
}

/// Visitor of core/document/describe.h that adds a row for every field.
class Builder {
public:
    explicit Builder(Node& at, Points points = Points::any) : m_at(at), m_points(points) {}

    void text(const char* key, const std::string& value, const Spec& spec) {
        if (value.empty() && !meant(m_points, key)) return;
        Node& n = leaf(spec.role == Role::word ? Node::Kind::choice : Node::Kind::text, key, value);
        n.role = spec.role;
        n.required = spec.need == Need::required;
        for (const auto word : spec.words) n.words.emplace_back(word);
    }
    void flag(const char* key, bool value) { leaf(Node::Kind::flag, key, value ? "true" : "false"); }
    void real(const char* key, double value) { leaf(Node::Kind::real, key, nlohmann::json(value).dump()); }
    void version(const char*, int) {}
    void choice(const char* key, bool value, Words words) {
        Node& n = leaf(Node::Kind::choice, key, std::string(words[value ? 1 : 0]));
        n.role = Role::word;
        for (const auto word : words) n.words.emplace_back(word);
    }
    template <class E>
    void pick(const char* key, const E& value, Words words, const Spec&) {
        Node& n = leaf(Node::Kind::choice, key, std::string(words[static_cast<std::size_t>(value)]));
        n.role = Role::word;
        n.required = true;
        for (const auto word : words) n.words.emplace_back(word);
    }
    void names(const char* key, const std::vector<std::string>& values, const Spec& spec) {
        Node& list = m_at.add(Node::Kind::names, key);
        list.role = spec.role;
        for (std::size_t i = 0; i < values.size(); ++i) {
            Node& n = list.add(Node::Kind::text, std::to_string(i));
            n.value = values[i];
            n.role = spec.role;
            n.field = key;
            n.entry = n.required = true;
        }
    }
    void pair(const char* key, const std::string& a, const std::string& b, const Spec& spec) {
        Node& both = m_at.add(Node::Kind::pair, key);
        both.role = spec.role;
        for (const auto* text : {&a, &b}) {
            Node& n = both.add(Node::Kind::text, text == &a ? "0" : "1");
            n.value = *text;
            n.role = spec.role;
            n.field = key;
            n.required = true;
        }
    }
    void map(const char* key, const std::vector<NamedText>& values, const Spec& spec) {
        Node& group = m_at.add(Node::Kind::map, key);
        group.role = spec.role;
        for (const NamedText& one : values) mapEntry(group, key, one.name, one.value, spec);
    }
    void map(const char* key, const std::vector<PlateMaterial>& values, const Spec& spec) {
        Node& group = m_at.add(Node::Kind::map, key);
        group.role = spec.role;
        for (const PlateMaterial& one : values)
            mapEntry(group, key, one.plates, one.stock, spec).nothing = one.stock.empty();
    }
    template <class T>
    void object(const char* key, const T& value) {
        build(m_at.add(Node::Kind::group, key), value);
    }
    template <class T>
    void list(const char* key, const std::vector<T>& values, const Spec& spec) {
        Node& group = m_at.add(Node::Kind::list, key);
        group.owner = ownerWord(T{});
        for (std::size_t i = 0; i < values.size(); ++i) {
            Node& n = group.add(Node::Kind::group, std::to_string(i));
            n.entry = true;
            n.field = key;
            build(n, values[i], spec.points);
        }
    }
    void shape(const char* key, const Shape& value) {
        Node& n = leaf(Node::Kind::choice, key, std::string(kShapeWords[value.index()]));
        n.role = Role::word;
        n.required = true;
        for (const auto word : kShapeWords) n.words.emplace_back(word);
        std::visit([this](const auto& s) { fields(*this, s); }, value);
    }
    void rest(const Extra& extra) {
        for (const auto& [key, json] : extra) leaf(Node::Kind::json, key, json);
    }

    template <class T>
    static void build(Node& at, const T& value, Points points = Points::any) {
        at.owner = ownerWord(value);
        Builder builder(at, points);
        fields(builder, value);
    }

private:
    Node& m_at;
    Points m_points;

    Node& leaf(Node::Kind kind, std::string key, std::string value) {
        Node& n = m_at.add(kind, std::move(key));
        n.value = std::move(value);
        return n;
    }
    static Node& mapEntry(Node& group, const char* key, const std::string& name, const std::string& value,
                          const Spec& spec) {
        Node& n = group.add(Node::Kind::text, name);
        n.value = value;
        n.role = spec.role;
        n.field = key;
        n.entry = true;
        return n;
    }
};

} // namespace

std::string Node::pointer() const {
    if (!base.empty()) return base;
    return parent ? parent->pointer() + "/" + escapedToken(key) : std::string();
}

int Node::row() const {
    if (parent)
        for (std::size_t i = 0; i < parent->children.size(); ++i)
            if (parent->children[i].get() == this) return static_cast<int>(i);
    return 0;
}

const Node* Node::child(std::string_view wanted) const {
    for (const auto& c : children)
        if (c->key == wanted) return c.get();
    return nullptr;
}

Node* Node::child(std::string_view wanted) {
    return const_cast<Node*>(static_cast<const Node*>(this)->child(wanted));
}

std::string Node::name() const {
    if (const Node* n = child("name")) return n->value;
    if (const Node* n = child("panel")) return n->value;
    if (entry && parent && parent->kind == Kind::map) return key;
    return {};
}

Node& Node::add(Kind newKind, std::string newKey) {
    auto n = std::make_unique<Node>();
    n->kind = newKind;
    n->key = std::move(newKey);
    n->field = n->key;
    n->owner = owner;
    n->parent = this;
    children.push_back(std::move(n));
    return *children.back();
}

std::unique_ptr<Node> Node::copy() const {
    auto n = std::make_unique<Node>();
    n->kind = kind;
    n->key = key;
    n->owner = owner;
    n->field = field;
    n->role = role;
    n->value = value;
    n->entry = entry;
    n->required = required;
    n->nothing = nothing;
    n->absent = absent;
    n->generic = generic;
    n->label = label, n->check = check;
    n->words = words;
    for (const auto& c : children) {
        n->children.push_back(c->copy());
        n->children.back()->parent = n.get();
    }
    return n;
}

void addOffers(Node& root, const std::vector<Offer>& offers) {
    for (const Offer& offer : offers) {
        Node* map = nodeAt(root, offer.pointer);
        if (!map) continue;
        Node* known = map->child(offer.key);
        Node& n = known ? *known : map->add(Node::Kind::text, offer.key);
        n.absent = !known;
        n.entry = true;
        n.field = map->key;
        n.role = offer.role;
        n.generic = offer.generic;
        n.label = offer.label, n.check = offer.check;
    }
    // Readings stay in the order of the printed sheet, typed or not.
    Node* sheet = nodeAt(root, "/donor/measures");
    if (!sheet) return;
    const auto place = [&](const std::unique_ptr<Node>& n) {
        return std::find_if(
                   offers.begin(), offers.end(),
                   [&](const Offer& o) { return o.pointer == "/donor/measures" && o.key == n->key; }) -
               offers.begin();
    };
    std::stable_sort(sheet->children.begin(), sheet->children.end(),
                     [&](const auto& a, const auto& b) { return place(a) < place(b); });
}

void addFacts(Node& root, const std::vector<FactRow>& facts) {
    for (const FactRow& fact : facts) {
        Node* entry = nodeAt(root, fact.pointer);
        if (!entry || entry->name() != fact.name) continue;
        Node& n = entry->add(Node::Kind::fact, "fact " + fact.key);
        n.label = fact.label;
        n.value = fact.tip;
    }
}

std::unique_ptr<Node> treeOf(const Project& project) {
    auto root = std::make_unique<Node>();
    Builder::build(*root, project);
    return root;
}

Node* nodeAt(Node& root, std::string_view pointer) {
    Node* at = &root;
    while (!pointer.empty() && at) {
        pointer.remove_prefix(1);
        const std::size_t end = std::min(pointer.find('/'), pointer.size());
        std::string token;
        for (std::size_t i = 0; i < end; ++i)
            if (pointer[i] == '~' && i + 1 < end)
                token += pointer[++i] == '0' ? '~' : '/';
            else
                token += pointer[i];
        pointer.remove_prefix(end);
        at = at->child(token);
    }
    return at;
}

std::string quotedJson(std::string_view text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

} // namespace slab::ui
