// The questions of a scenario file: "as this file, but with hay at 6 a bale". A
// question is a change to the file in the file's own keys; what comes out is read by
// the file's own readers, as if somebody had typed the change in.
#pragma once

#include <functional>

#include "feeds/findings.h"
#include "feeds/located_yaml.h"
#include "scenarios/scenario.h"

namespace haymow {

/// Reads a whole file, and reports to the findings it is given.
using ScenarioReader = std::function<Scenario(const YamlNode& root, Findings& findings)>;

/// What a change is of, for people: "our hay: price", "Juniper: condition aim".
[[nodiscard]] std::string subject_of(const AskedChange& change);

/// The entries of `ask`, in the order of the file; none without the key. `base` is the
/// file as it stands; `complete`: false when it has mistakes, so that a name which is
/// not known may be one of them and is not reported. `findings` gets the mistakes of
/// the questions.
[[nodiscard]] std::vector<AskedQuestion> read_asked(const YamlNode& root, const Scenario& base,
                                                    bool complete, const ScenarioReader& read,
                                                    Findings& findings);

}  // namespace haymow
