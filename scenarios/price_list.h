// A merchant's price list: a file with `money` and `market`, whose entries are
// those of a scenario's market. One way to write a feed and its price, one set
// of messages.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "scenarios/scenario.h"

namespace haymow {

struct PriceList {
  std::vector<Offer> offers;
  std::vector<Diagnostic> remarks;  // what was assumed where the list is silent
};

/// Reads price list `text` for the yard of `scenario`; `file` is used in messages.
/// Throws InputError with every mistake found, another currency than the scenario's
/// and a name that its own forage has among them.
[[nodiscard]] PriceList read_price_list(std::string_view text, const std::string& file,
                                        const Scenario& scenario);

}  // namespace haymow
