// Physical and money amounts as types: a kilogram as fed is not a kilogram of
// dry matter, and only a feed's dry matter content turns one into the other.
// A bare number comes out only by naming its unit.
#pragma once

#include <compare>

namespace haymow {

/// What every amount can do: add, subtract, scale, compare; nothing across kinds.
template <class Self>
class Amount {
 public:
  friend constexpr Self operator+(Self a, Self b) { return Self{a.value_ + b.value_}; }
  friend constexpr Self operator-(Self a, Self b) { return Self{a.value_ - b.value_}; }
  friend constexpr Self operator*(double k, Self a) { return Self{k * a.value_}; }
  friend constexpr Self operator*(Self a, double k) { return Self{k * a.value_}; }
  friend constexpr Self operator/(Self a, double k) { return Self{a.value_ / k}; }
  friend constexpr double operator/(Self a, Self b) { return a.value_ / b.value_; }
  friend constexpr auto operator<=>(Self a, Self b) { return a.value_ <=> b.value_; }
  friend constexpr bool operator==(Self a, Self b) { return a.value_ == b.value_; }
  constexpr Self& operator+=(Self other) {
    value_ += other.value_;
    return static_cast<Self&>(*this);
  }

 protected:
  constexpr Amount() = default;
  constexpr explicit Amount(double value) : value_(value) {}
  double value_ = 0.0;
};

/// Mass of feed as it comes out of the bag or bale.
class KgAsFed : public Amount<KgAsFed> {
 public:
  constexpr KgAsFed() = default;
  constexpr explicit KgAsFed(double kg) : Amount(kg) {}
  [[nodiscard]] constexpr double in_kg() const { return value_; }
};

/// Mass of feed without its water.
class KgDryMatter : public Amount<KgDryMatter> {
 public:
  constexpr KgDryMatter() = default;
  constexpr explicit KgDryMatter(double kg) : Amount(kg) {}
  [[nodiscard]] constexpr double in_kg() const { return value_; }
};

/// What a horse weighs.
class Bodyweight : public Amount<Bodyweight> {
 public:
  constexpr Bodyweight() = default;
  constexpr explicit Bodyweight(double kg) : Amount(kg) {}
  [[nodiscard]] constexpr double in_kg() const { return value_; }
};

class Megajoules : public Amount<Megajoules> {
 public:
  constexpr Megajoules() = default;
  constexpr explicit Megajoules(double mj) : Amount(mj) {}
  [[nodiscard]] constexpr double in_mj() const { return value_; }
};

/// The thermochemical calorie: 1 Mcal = 4.184 MJ, by definition.
inline constexpr double mj_per_mcal = 4.184;
/// International pound and ounce, by definition.
inline constexpr double kg_per_lb = 0.45359237;
inline constexpr double kg_per_oz = kg_per_lb / 16.0;
inline constexpr double cm_per_inch = 2.54;

/// Money in the scenario's one currency; its name travels beside it.
class Money : public Amount<Money> {
 public:
  constexpr Money() = default;
  constexpr explicit Money(double units) : Amount(units) {}
  [[nodiscard]] constexpr double in_units() const { return value_; }
};

class Days : public Amount<Days> {
 public:
  constexpr Days() = default;
  constexpr explicit Days(double days) : Amount(days) {}
  [[nodiscard]] constexpr double in_days() const { return value_; }
};

class Centimetres : public Amount<Centimetres> {
 public:
  constexpr Centimetres() = default;
  constexpr explicit Centimetres(double cm) : Amount(cm) {}
  [[nodiscard]] constexpr double in_cm() const { return value_; }
};

}  // namespace haymow
