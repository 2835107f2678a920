#include "model/pennies.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace haymow {
namespace {

constexpr double pennies_a_unit = 100.0;

}  // namespace

Pennies nearest_penny(Money money) {
  return static_cast<Pennies>(std::llround(money.in_units() * pennies_a_unit));
}

std::vector<Pennies> divide(Pennies total, const std::vector<double>& parts) {
  if (parts.empty() && total != 0) throw std::invalid_argument("money to divide among nobody");
  double sum = 0.0;
  for (const double part : parts) {
    if (!std::isfinite(part) || part < 0.0) throw std::invalid_argument("a share below zero");
    sum += part;
  }
  std::vector<double> shares = parts;
  if (sum <= 0.0) std::fill(shares.begin(), shares.end(), 1.0);
  if (sum <= 0.0) sum = static_cast<double>(shares.size());
  std::vector<Pennies> whole(shares.size());
  std::vector<double> left(shares.size());
  Pennies given = 0;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const double exact = static_cast<double>(total) * (shares[i] / sum);
    whole[i] = static_cast<Pennies>(std::floor(exact));
    left[i] = exact - static_cast<double>(whole[i]);
    given += whole[i];
  }
  std::vector<std::size_t> order(shares.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return left[a] > left[b]; });
  for (std::size_t i = 0; given < total && i < order.size(); ++i, ++given) ++whole[order[i]];
  // Where rounding errors made whole shares of almost whole ones, the last gives back.
  for (std::size_t i = order.size(); given > total && i-- > 0; --given) --whole[order[i]];
  return whole;
}

}  // namespace haymow
