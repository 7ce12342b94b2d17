#include "core/donor/sheet_maker.h"
#include "core/donor/generic.h"
#include <algorithm>
#include <numbers>

namespace slab {

namespace {

constexpr double softSpread = 4; ///< cushions give, mm, from memory

/// What is wanted, not what stands there: nothing to measure. And centres of mass, which no tape finds.
bool cannotBeTaped(const std::string& size) {
    constexpr const char* all[] = {"hand_room",      "helper_room",  "helper_width",  "helper_height",
                                   "puller_room",    "puller_width", "puller_height", "foot_room",
                                   "handlebar_room", "centre_x",     "centre_height"};
    return std::any_of(std::begin(all), std::end(all), [&](const char* name) { return size == name; });
}

SizeSum tidy(SizeSum sum) {
    SizeSum out;
    out.constant = sum.constant;
    for (const auto& [name, factor] : sum.terms) {
        const auto same = std::find_if(out.terms.begin(), out.terms.end(),
                                       [&, wanted = name](const auto& t) { return t.first == wanted; });
        if (same == out.terms.end())
            out.terms.emplace_back(name, factor);
        else
            same->second += factor;
    }
    std::erase_if(out.terms, [](const auto& t) { return t.second == 0; });
    return out;
}

/// A place along is told from the axle, to the side on which it lies.
void placeAlong(const DonorSize& size, Measure& m) {
    if (size.label.find("ahead of") == std::string::npos)
        m.words += size.value < 0 ? ", behind the axle" : ", ahead of the axle";
    m.axis = 0;
    m.to.at[0] = m.sum;
    if (size.value >= 0) return;
    m.sum = m.sum * -1;
    std::swap(m.from, m.to);
}

/// Words of a size that stands upright tell from where.
std::string uprightWords(const DonorSize& size) {
    const bool upright = size.name.ends_with("_height") || size.name == "ground_clearance";
    const bool told = size.label.find("above") != std::string::npos;
    return upright && !told ? size.label + ", above the floor" : size.label;
}

/// A, B, … Z without I and O, which read as figures; then AA, AB, …
std::string letterOf(std::size_t index) {
    static const std::string letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
    const std::size_t n = letters.size();
    return index < n ? std::string(1, letters[index])
                     : std::string(1, letters[index / n - 1]) + letters[index % n];
}

} // namespace

SizeSum operator+(SizeSum a, const SizeSum& b) {
    a.terms.insert(a.terms.end(), b.terms.begin(), b.terms.end());
    a.constant += b.constant;
    return a;
}
SizeSum operator*(SizeSum a, double factor) {
    for (auto& term : a.terms) term.second *= factor;
    a.constant *= factor;
    return a;
}
SizeSum operator-(const SizeSum& a, const SizeSum& b) {
    return a + b * -1;
}

SheetMaker::SheetMaker(const std::string& kind) : m_sizes(donorSizes(kind)) {}

bool SheetMaker::has(const char* name) const {
    return std::any_of(m_sizes.begin(), m_sizes.end(), [&](const DonorSize& s) { return s.name == name; });
}
SizeSum SheetMaker::of(const char* name) const {
    return has(name) ? SizeSum{{{name, 1.0}}, 0} : SizeSum{};
}

void SheetMaker::line(int axis, const Spot& from, const Spot& to, double spread) {
    Measure m;
    m.name = from.key + "_to_" + to.key;
    m.words = from.words + " to " + to.words;
    m.axis = axis;
    m.spread = spread;
    const auto i = static_cast<std::size_t>(axis);
    m.sum = tidy(to.mark.at[i] - from.mark.at[i]);
    m.from = from.mark, m.to = to.mark;
    if (valueOf(m.sum, m_sizes) < 0) { // read without a sign where the generic donor stands the other way
        m.sum = m.sum * -1;
        std::swap(m.from, m.to);
    }
    m_all.push_back(std::move(m));
}

void SheetMaker::web(int axis, const Spot& hub, std::initializer_list<Spot> rim, double spread) {
    for (const Spot& s : rim) line(axis, hub, s, spread);
    const std::vector<Spot> all(rim);
    for (std::size_t i = 0; i + 1 < all.size(); ++i) line(axis, all[i], all[i + 1], spread);
    if (all.size() > 2) line(axis, all.back(), all.front(), spread);
}

void SheetMaker::figure(std::string name, std::string words, SizeSum sum, double spread) {
    Measure m;
    m.name = std::move(name), m.words = std::move(words);
    m.axis = -1;
    m.sum = tidy(std::move(sum));
    m.spread = spread;
    m_all.push_back(std::move(m));
}

void SheetMaker::wheel(const char* key, const char* words, const char* diameter, const SizeSum& x) {
    const std::string k = key, w = words;
    figure(diameter, w + ": diameter", of(diameter));
    const Spot axle = at((k + "_axle").c_str(), ("middle of the " + w).c_str(), x, of(diameter) * 0.5);
    line(2, floor(axle), axle);
    // A turn is three times as long as the wheel is high, and a tyre gives a little.
    figure(k + "_turn", w + ": one whole turn on the floor", of(diameter) * std::numbers::pi, 6);
}

void SheetMaker::pair(const char* key, const char* words, const SizeSum& over, const SizeSum& each,
                      const SizeSum& x) {
    const std::string k = key, w = words;
    const auto across = [&](const std::string& name, const std::string& what, const SizeSum& width) {
        Measure m;
        m.name = name, m.words = what;
        m.axis = 1;
        m.sum = tidy(width);
        m.from.at = {x, width * -0.5, {}}, m.to.at = {x, width * 0.5, {}};
        m_all.push_back(std::move(m));
    };
    across("over_" + k, "over both " + w, over);
    across("between_" + k, "between both " + w + ", inside", over - each * 2);
    across("middles_of_" + k, w + ", middle to middle", over - each);
    figure("one_of_" + k, w + ": width of one", each);
}

void SheetMaker::casterPair(const char* key, const char* words, const char* x) {
    Measure m;
    m.name = std::string(key) + "_apart", m.words = std::string(words) + " pivots, across";
    m.axis = 1;
    m.sum = of("caster_spacing");
    m.from.at = {of(x), m.sum * -0.5, {}}, m.to.at = {of(x), m.sum * 0.5, {}};
    m_all.push_back(std::move(m));
}

void SheetMaker::seatAlong(const Spot& axle, const Spot& front) {
    const Spot back = at("back_front", "front of the seat back", of("seat_back_x"),
                         of("seat_height") + of("back_height") * 0.5);
    const Spot edge =
        at("seat_edge", "front edge of the seat", of("seat_back_x") + of("seat_depth"), of("seat_height"));
    line(0, axle, back, softSpread);
    line(0, back, backRear(), softSpread);
    line(0, back, edge, softSpread);
    line(0, axle, edge, softSpread);
    line(0, edge, front, softSpread);
}

void SheetMaker::seatUp(const Spot& held) {
    web(2, at("floor", "floor", of("seat_back_x"), {}), {seatTop(), backTop(), held}, softSpread);
}

void SheetMaker::armrestsAcross() {
    pair("armrests", "armrests", of("armrest_spacing") + of("armrest_width") * 2, of("armrest_width"),
         of("seat_back_x") + of("armrest_length") * 0.5);
}

Spot SheetMaker::at(const char* key, const char* words, SizeSum x, SizeSum z) {
    return {key, words, {{std::move(x), SizeSum{}, std::move(z)}}};
}
Spot SheetMaker::floor(const Spot& under) {
    return {"floor", "floor", {{under.mark.at[0], under.mark.at[1], SizeSum{}}}};
}
Spot SheetMaker::seatTop() const {
    return at("seat", "seat, as it is sat in", of("seat_back_x") + of("seat_depth") * 0.5, of("seat_height"));
}
Spot SheetMaker::backTop() const {
    return at("back_top", "top of the seat back", of("seat_back_x") - of("back_thickness") * 0.5,
              of("seat_height") + of("back_height"));
}
Spot SheetMaker::backRear() const {
    return at("back_rear", "back of the seat back", of("seat_back_x") - of("back_thickness"),
              of("seat_height") + of("back_height") * 0.6);
}
Spot SheetMaker::armrest() const {
    return at("armrest", "top of the armrest", of("seat_back_x") + of("armrest_length") * 0.7,
              of("seat_height") + of("armrest_height"));
}
Spot SheetMaker::footplate() const {
    return at("footplate", "front of the footplate", of("footplate_front_x"), of("footplate_height"));
}
Spot SheetMaker::steeringWheel() const {
    return at("steering_wheel", "middle of the steering wheel", of("wheel_centre_x"),
              of("wheel_centre_height"));
}

std::vector<Measure> SheetMaker::done() {
    for (const DonorSize& s : m_sizes) {
        const bool spoken = std::any_of(m_all.begin(), m_all.end(), [&](const Measure& m) {
            return std::any_of(m.sum.terms.begin(), m.sum.terms.end(),
                               [&](const auto& t) { return t.first == s.name; });
        });
        if (spoken || cannotBeTaped(s.name)) continue;
        Measure m;
        m.name = s.name, m.words = uprightWords(s);
        m.axis = -1;
        m.kind = s.kind;
        m.sum.terms = {{s.name, 1.0}};
        if (isPosition(s.name)) placeAlong(s, m);
        if (s.kind == Kind::angle) m.spread = 0.03;
        m_all.push_back(std::move(m));
    }
    // Letters follow the drawing: what lies along, what stands up, what goes across, and the rest.
    const auto rank = [](const Measure& m) { return m.axis < 0 ? 3 : m.axis == 0 ? 0 : m.axis == 2 ? 1 : 2; };
    std::stable_sort(m_all.begin(), m_all.end(),
                     [&](const Measure& a, const Measure& b) { return rank(a) < rank(b); });
    for (std::size_t i = 0; i < m_all.size(); ++i) m_all[i].letter = letterOf(i);
    return m_all;
}

} // namespace slab
