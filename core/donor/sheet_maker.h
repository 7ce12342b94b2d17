#pragma once
// Lists of measures, written with spots on the donor.
#include "core/donor/measuring.h"
#include <initializer_list>

namespace slab {

[[nodiscard]] SizeSum operator+(SizeSum a, const SizeSum& b);
[[nodiscard]] SizeSum operator-(const SizeSum& a, const SizeSum& b);
[[nodiscard]] SizeSum operator*(SizeSum a, double factor);

/// Something on the donor that a tape is held to.
struct Spot {
    std::string key;   ///< in the names of measures: "footplate"
    std::string words; ///< "front of the footplate"
    Mark mark;
};

class SheetMaker {
public:
    explicit SheetMaker(const std::string& kind);
    /// A named size, or 0 where the kind has none of that name.
    [[nodiscard]] SizeSum of(const char* name) const;
    [[nodiscard]] bool has(const char* name) const;

    /// From one spot to another along an axis.
    void line(int axis, const Spot& from, const Spot& to, double spread = 2);
    /// From the hub to each spot, and from each spot to the next, round: every place is read three times.
    void web(int axis, const Spot& hub, std::initializer_list<Spot> rim, double spread = 2);
    /// Something that no line on the drawing shows.
    void figure(std::string name, std::string words, SizeSum sum, double spread = 2);

    /// Diameter, axle height and one turn on the floor. @param x  where the wheel stands
    void wheel(const char* key, const char* words, const char* diameter, const SizeSum& x);
    /// A pair of like things on both sides: over both, between them, from middle to middle, one of them.
    /// @param over  what they measure over both;  @param height  where the lines are drawn
    void pair(const char* key, const char* words, const SizeSum& over, const SizeSum& each, const SizeSum& x);
    void casterPair(const char* key, const char* words, const char* x);
    /// Places of seat and back along, between an axle and something ahead.
    void seatAlong(const Spot& axle, const Spot& front);
    /// Heights of seat, back and what is held, each against the others.
    void seatUp(const Spot& held);
    void armrestsAcross();

    [[nodiscard]] Spot seatTop() const;
    [[nodiscard]] Spot backTop() const;
    [[nodiscard]] Spot backRear() const;
    [[nodiscard]] Spot armrest() const;
    [[nodiscard]] Spot footplate() const;
    [[nodiscard]] Spot steeringWheel() const;
    /// On the floor below.
    [[nodiscard]] static Spot floor(const Spot& under);
    /// A spot in the middle of the donor's width.
    [[nodiscard]] static Spot at(const char* key, const char* words, SizeSum x, SizeSum z);

    /// The list: sizes that no measure speaks of yet get one of their own, and each measure its letter.
    [[nodiscard]] std::vector<Measure> done();

private:
    std::vector<DonorSize> m_sizes;
    std::vector<Measure> m_all;
};

} // namespace slab
