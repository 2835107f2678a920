#include "feeds/declared_composition.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "feeds/composition_units.h"
#include "feeds/declared_checks.h"
#include "feeds/declared_energy.h"
#include "feeds/map_reader.h"
#include "feeds/plain_text.h"

namespace haymow {
namespace {

constexpr double g_in_kg = 1000.0;
/// Usual dry matter of dry feeds; common practice, no source.
constexpr double usual_dry_matter_g = 880.0;
/// Oil holds next to no water; common practice, no source.
constexpr double oil_dry_matter_g = 1000.0;
/// The wettest feeds, roots and young grass, hold a tenth or more; common
/// practice, no source. Less is a slip, such as 8.6 % for 86 %.
constexpr double least_dry_matter_g = 50.0;
/// Pure fat burns at 39 MJ/kg (from memory), so no feed gives more.
constexpr double most_energy_mj = 40.0;

/// Richer feeds lose more of their energy in urine than the factor for
/// metabolisable energy allows (feeds of 20 % and more; our grading).
constexpr double most_protein_to_convert_g = 200.0;

/// Nothing where the group says too little: wrapped forage, grass and roots
/// range from a tenth to nine tenths.
std::optional<double> usual_dry_matter(FeedGroup group) {
  switch (group) {
    case FeedGroup::grass:
    case FeedGroup::haylage:
    case FeedGroup::sweet:
      return std::nullopt;
    case FeedGroup::oil:
      return oil_dry_matter_g;
    default:
      return usual_dry_matter_g;
  }
}

class Declaration {
 public:
  Declaration(const YamlNode& node, DeclarationKind kind, Feed& feed, Findings& findings)
      : node_(node), kind_(kind), feed_(feed), findings_(findings) {}

  void read() {
    if (node_.kind != YamlKind::map) {
      findings_.error(node_.span, {fmt::format("{} is {}; expected a group of figures",
                                               ticked(word()), describe(node_.kind)),
                                   fmt::format("write `{}: {{{}}}`", word(),
                                               analysis() ? "crude protein: 71 g/kg DM"
                                                          : "crude protein: 10 %"),
                                   ""});
      return;
    }
    for (const YamlEntry& entry : node_.entries) take(entry);
    settle_dry_matter();
    for (auto& [nutrient, declared] : figures_) settle(nutrient, declared);
    settle_carbohydrates();
    convert_energy();
    if (bases_agree()) check_sums(figures_, node_.span, findings_);
  }

 private:
  [[nodiscard]] bool analysis() const { return kind_ == DeclarationKind::analysis; }
  [[nodiscard]] std::string_view word() const { return analysis() ? "analysis" : "label"; }
  [[nodiscard]] FigureOrigin origin() const {
    return analysis() ? FigureOrigin::laboratory : FigureOrigin::label;
  }

  void take(const YamlEntry& entry) {
    const std::string key = single_spaced(entry.key.text);
    if (auto complaint = refused_energy(key, example("energy"))) {
      findings_.error(entry.key.span, std::move(*complaint));
      return;
    }
    const auto& words = composition_words();
    const auto found = std::find_if(words.begin(), words.end(), [&](const CompositionWord& w) {
      return same_text(key, w.word);
    });
    if (found == words.end()) {
      refuse_word(entry, key);
      return;
    }
    const auto text = text_of(entry.value, ticked(key), findings_);
    if (!text) return;
    Reading<Content> reading = read_content(*text);
    if (reading.complaint) {
      if (reading.complaint->help.empty()) {
        reading.complaint->help =
            fmt::format("write a figure such as `{}: {}`", key, example(key, found->nutrient));
      }
      findings_.error(entry.value.span, std::move(*reading.complaint));
      return;
    }
    place(entry, key, *found, *reading.value);
  }

  void place(const YamlEntry& entry, const std::string& key, const CompositionWord& known,
             const Content& content) {
    DeclaredFigure declared{content, &entry, energy_system_of(known.word), 0.0};
    if (same_text(known.word, "dry matter") || same_text(known.word, "moisture")) {
      take_dry_matter(declared, same_text(known.word, "moisture"));
      return;
    }
    if (analysis() && !content.basis) {
      findings_.error(entry.value.span,
                      {fmt::format("`{}` does not say whether it is of dry matter or as fed",
                                   single_spaced(entry.value.text)),
                       fmt::format("write `{0} DM` or `{0} as fed`, as the laboratory has it",
                                   single_spaced(entry.value.text)),
                       ""});
      return;
    }
    if (!known.nutrient) {
      (same_text(known.word, "ESC") ? esc_ : nsc_) = declared;
      return;
    }
    const bool nutrients = declared.system == EnergySystem::total_nutrients;
    if (nutrients ? content.kind != ContentKind::mass : !kind_fits(*known.nutrient, content.kind)) {
      findings_.error(
          entry.value.span,
          {fmt::format("`{}` is not an amount of {}", single_spaced(entry.value.text),
                       nutrients ? std::string_view(known.word) : traits_of(*known.nutrient).name),
           fmt::format("write a figure such as `{}: {}`", key, example(key, known.nutrient)), ""});
      return;
    }
    const auto [first, is_new] = figures_.try_emplace(*known.nutrient, declared);
    if (!is_new) {
      findings_.error(
          entry.key.span,
          {fmt::format("`{}` gives {} a second time", key, traits_of(*known.nutrient).name),
           *known.nutrient == Nutrient::energy && declared.system != first->second.system
               ? "keep the digestible energy and delete the other"
               : "delete one of the two",
           fmt::format("the first is `{}` in line {}", first->second.entry->key.text,
                       first->second.entry->key.span.position.line)});
    }
  }

  void refuse_word(const YamlEntry& entry, const std::string& key) {
    std::vector<std::string> names;
    for (const CompositionWord& w : composition_words()) {
      // Symbols of one or two letters are near to everything.
      if (w.word.size() > 2) names.push_back(w.word);
    }
    std::string help = suggestion(key, names);
    if (help.empty())
      help = "the words that are read are listed in docs/reference/scenario-file.md";
    findings_.error(entry.key.span, {fmt::format("`{}` is not a word of {}", key,
                                                 analysis() ? "an analysis" : "a label"),
                                     help, ""});
  }

  [[nodiscard]] static bool kind_fits(Nutrient nutrient, ContentKind kind) {
    const std::string_view unit = traits_of(nutrient).unit;
    if (unit == "MJ") return kind == ContentKind::energy;
    // 1 mg of all-rac-alpha-tocopheryl acetate, the form in bags, is 1 IU by definition.
    if (nutrient == Nutrient::vitamin_e && kind == ContentKind::mass) return true;
    return kind == (unit == "IU" ? ContentKind::units : ContentKind::mass);
  }

  /// A figure as it may be written, with the basis an analysis needs.
  [[nodiscard]] std::string example(std::string_view key,
                                    std::optional<Nutrient> nutrient = std::nullopt) const {
    if (same_text(key, "dry matter")) return "86 %";
    if (same_text(key, "moisture")) return "12 %";
    if (energy_system_of(key) == EnergySystem::total_nutrients)
      return analysis() ? "52 % DM" : "60 %";
    const std::string_view unit =
        same_text(key, "energy") ? "MJ" : (nutrient ? traits_of(*nutrient).unit : "g");
    std::string text = "71 g/kg";
    if (unit == "MJ") text = "8.4 MJ/kg";
    if (unit == "mg") text = "25 mg/kg";
    if (unit == "IU") text = "5000 IU/kg";
    if (unit == "g" && !analysis()) text = "10 %";
    // Lysine and the macrominerals are printed with a decimal, being so little.
    if (unit == "g" && nutrient && traits_of(*nutrient).decimals > 0) {
      text = analysis() ? "3.6 g/kg" : "0.9 %";
    }
    return analysis() ? text + " DM" : text;
  }

  void take_dry_matter(const DeclaredFigure& declared, bool moisture) {
    const YamlNode& value = declared.entry->value;
    if (declared.content.kind != ContentKind::mass ||
        declared.content.basis == ContentBasis::dry_matter) {
      findings_.error(value.span, {fmt::format("`{}` is not a share of the feed as it is fed",
                                               single_spaced(value.text)),
                                   "write a share such as `86 %`", ""});
      return;
    }
    const double g = moisture ? g_in_kg - declared.content.value : declared.content.value;
    if (dry_matter_) {
      findings_.error(declared.entry->key.span,
                      {"dry matter is given a second time", "delete one of the two", ""});
    } else if (g < least_dry_matter_g) {
      findings_.error(value.span,
                      {fmt::format("dry matter of {:.4g} % is less than any feed has", g / 10.0),
                       "write a share such as `86 %`", ""});
    }
    dry_matter_ = g;
  }

  void settle_dry_matter() {
    if (dry_matter_) {
      feed_.dry_matter = {std::max(*dry_matter_, least_dry_matter_g), origin(), ""};
      return;
    }
    const bool of_table = feed_.dry_matter.value > 0.0;
    if (of_table && analysis()) return;
    if (!of_table) {
      const auto usual = usual_dry_matter(feed_.group);
      if (!usual) {
        findings_.error(
            node_.span,
            {fmt::format("`dry matter` is missing, and {} differs too much to assume it",
                         name_of(feed_.group)),
             fmt::format("write `dry matter: ...` in the {}", word()), ""});
      }
      feed_.dry_matter = {usual.value_or(usual_dry_matter_g), FigureOrigin::estimated,
                          "common-practice", "usual of such feed"};
      if (!usual) return;
    }
    findings_.remark(node_.span,
                     {fmt::format("the {} gives no dry matter; {:.4g} % is assumed, as {}", word(),
                                  feed_.dry_matter.value / 10.0,
                                  of_table ? "the feed table has it" : "usual for such feed"),
                      "write `dry matter: ...` if you know it", ""});
  }

  /// The content per kg of dry matter, in the kind's unit.
  [[nodiscard]] double on_dry_matter(const Content& content) const {
    return basis_of(content) == ContentBasis::dry_matter ? content.value
                                                         : content.value / feed_.dry_matter_share();
  }

  /// True, or reported: a part of dry matter is not more than all of it.
  bool plausible(std::string_view name, const DeclaredFigure& declared, ContentKind kind) {
    const YamlNode& value = declared.entry->value;
    if (kind == ContentKind::mass && declared.per_kg_dm > g_in_kg) {
      findings_.error(value.span,
                      {fmt::format("`{}` is more than the dry matter itself", value.text),
                       "check the figure and the dry matter", ""});
      return false;
    }
    if (kind == ContentKind::energy && declared.per_kg_dm > most_energy_mj) {
      findings_.error(value.span,
                      {fmt::format("{} of {:.4g} MJ/kg DM is more than pure oil gives", name,
                                   declared.per_kg_dm),
                       fmt::format("write a figure such as `energy: {}`", example("energy")), ""});
      return false;
    }
    return true;
  }

  void settle(Nutrient nutrient, DeclaredFigure& declared) {
    const Content content = as_digestible(declared);
    declared.per_kg_dm = on_dry_matter(content);
    if (!plausible(traits_of(nutrient).name, declared, content.kind)) return;
    const bool in_mg = content.kind == ContentKind::mass && traits_of(nutrient).unit != "g";
    feed_.composition[nutrient] =
        Figure{in_mg ? declared.per_kg_dm * 1000.0 : declared.per_kg_dm, origin(), ""};
  }

  [[nodiscard]] std::optional<double> grams(Nutrient nutrient) const {
    const auto found = figures_.find(nutrient);
    if (found == figures_.end()) return std::nullopt;
    return found->second.per_kg_dm;
  }

  /// NSC is starch and WSC together; fructan is WSC without ESC, as laboratories
  /// reckon it.
  void settle_carbohydrates() {
    const auto starch = grams(Nutrient::starch);
    const auto wsc = grams(Nutrient::sugar);
    if (nsc_) {
      const double nsc = on_dry_matter(nsc_->content);
      if (starch && !wsc) {
        put_difference(*nsc_, Nutrient::sugar, nsc, *starch);
      } else if (wsc && !starch) {
        put_difference(*nsc_, Nutrient::starch, nsc, *wsc);
      } else if (!wsc) {
        findings_.error(nsc_->entry->key.span,
                        {"`NSC` is starch and WSC together, and each has its own limits",
                         "give `starch` and `WSC`, or one of them beside `NSC`", ""});
      }
    }
    if (esc_ && wsc) {
      put_difference(*esc_, Nutrient::fructan, *wsc, on_dry_matter(esc_->content));
    } else if (esc_) {
      findings_.error(esc_->entry->key.span,
                      {"`ESC` leaves out the fructan, so it is not all of the sugar",
                       "give `WSC` as well", ""});
    }
  }

  void put_difference(const DeclaredFigure& at, Nutrient nutrient, double whole, double part) {
    if (whole < part) {
      findings_.error(
          at.entry->value.span,
          {fmt::format("`{}` does not go with the other figures: {} would be below zero",
                       at.entry->value.text, traits_of(nutrient).name),
           "check the figures", ""});
      return;
    }
    if (figures_.contains(nutrient)) return;
    feed_.composition[nutrient] =
        Figure{whole - part, FigureOrigin::calculated, "",
               fmt::format("{:.4g} less {:.4g} g, both of the {}", whole, part, word())};
  }

  /// All figures of one basis; dry matter has none.
  bool bases_agree() {
    std::vector<const DeclaredFigure*> all;
    for (const auto& [nutrient, declared] : figures_) all.push_back(&declared);
    if (esc_) all.push_back(&*esc_);
    if (nsc_) all.push_back(&*nsc_);
    return check_bases(all, feed_.dry_matter_share(), findings_);
  }

  [[nodiscard]] static Content as_digestible(const DeclaredFigure& declared) {
    if (declared.system == EnergySystem::digestible) return declared.content;
    return haymow::as_digestible(declared.content, declared.system);
  }

  /// Says how an energy in another system became digestible energy.
  void convert_energy() {
    const auto found = figures_.find(Nutrient::energy);
    auto& energy = feed_.composition[Nutrient::energy];
    if (found == figures_.end() || !energy) return;
    const DeclaredFigure& declared = found->second;
    if (declared.system == EnergySystem::metabolisable) convert_metabolisable(declared, *energy);
    if (declared.system == EnergySystem::total_nutrients) {
      energy->origin = FigureOrigin::calculated;
      energy->source = "tdn";
      energy->how = fmt::format("{} of total digestible nutrients x 0.044 Mcal a kg for each %",
                                single_spaced(declared.entry->value.text));
      findings_.remark(
          declared.entry->key.span,
          {fmt::format("the TDN of the {} is taken as a horse's, at 0.044 Mcal a kg for each %: "
                       "{:.1f} MJ digestible energy a kg of dry matter",
                       word(), energy->value),
           "if the laboratory reckons it for cattle, delete it: hay is worth less to a horse", ""});
    }
  }

  void convert_metabolisable(const DeclaredFigure& declared, Figure& energy) {
    const auto protein = feed_.composition[Nutrient::crude_protein];
    const auto fibre = feed_.composition[Nutrient::crude_fibre];
    const bool rich = protein && protein->value > most_protein_to_convert_g;
    if (feed_.group == FeedGroup::protein || rich) {
      findings_.error(
          declared.entry->key.span,
          {fmt::format("`{}` cannot be turned into digestible energy for a feed so rich in protein",
                       single_spaced(declared.entry->key.text)),
           fmt::format("ask for digestible energy for horses: `energy: {}`, or leave it out",
                       example("energy")),
           "what is lost in urine grows with the protein, so the usual factor is far too low"});
      return;
    }
    const double stated = energy.value * metabolisable_share;
    energy.origin = FigureOrigin::calculated;
    energy.source = "metabolisable-share";
    energy.how = fmt::format("metabolisable energy of {:.4g} MJ / {}", stated, metabolisable_share);
    std::string note = "two published pairs of the two energies give 0.86 and 0.88";
    if (protein && fibre) {
      note += fmt::format("; reckoned by what protein and fibre lose it would be {:.1f} MJ",
                          digestible_by_losses(stated, protein->value, fibre->value));
    }
    findings_.remark(
        declared.entry->key.span,
        {fmt::format("the metabolisable energy of the {} is taken as a horse's and divided by {} "
                     "(0.86 to 0.88 in print): {:.1f} MJ digestible energy a kg of dry matter",
                     word(), metabolisable_share, energy.value),
         "if the laboratory reckons it for cattle or sheep, delete it: protein, fat, fibre and ash "
         "are enough to estimate a horse's",
         std::move(note)});
  }

  const YamlNode& node_;
  DeclarationKind kind_;
  Feed& feed_;
  Findings& findings_;
  DeclaredFigures figures_;
  std::optional<double> dry_matter_;
  std::optional<DeclaredFigure> esc_;
  std::optional<DeclaredFigure> nsc_;
};

}  // namespace

void declare_composition(const YamlNode& node, DeclarationKind kind, Feed& feed,
                         Findings& findings) {
  Declaration(node, kind, feed, findings).read();
}

}  // namespace haymow
