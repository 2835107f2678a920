// Who is billed what, month by month.
#include <fmt/format.h>

#include "scenarios/report_winter_parts.h"

namespace haymow {
namespace {

class Bills {
 public:
  explicit Bills(const WinterTold& told) : in_(told) {}

  Report::Part bills() const {
    Report::Part part;
    part.headline =
        fmt::format("What to bill for each horse: {} in all", in_.with_code(in_.bills().total));
    part.sections.push_back(bills_by_month());
    if (in_.verbose) {
      for (std::size_t h = 0; h < in_.question.horses.size(); ++h)
        part.sections.push_back(bill_of(h));
    }
    part.sections.push_back(
        {"How it is shared",
         {},
         {"A kilogram put out costs the same all season and for every horse: what the feed costs "
          "in all, delivery, waste, losses and what is left of a pack included, divided by what is "
          "put out of it. The bills add up to the total to the penny: what rounding leaves over "
          "goes to those who were rounded down most.",
          in_.verbose ? "`--bills FILE.csv` writes them for a spreadsheet."
                      : "`-v` shows the kilograms and the money of each horse month by month, and "
                        "`--bills FILE.csv` writes them for a spreadsheet."}});
    return part;
  }

 private:
  Section bills_by_month() const {
    Section section{"", Table{{"horse"}, {}, 1}, {}};
    Table& table = *section.table;
    for (const std::string& m : in_.question.months) {
      table.headings.push_back(month_in_words(m).substr(0, 3));
    }
    table.headings.insert(table.headings.end(), {"in all", "a day"});
    const int days = days_of(in_.question);
    for (std::size_t h = 0; h < in_.question.horses.size(); ++h) {
      const HorseBill& bill = in_.bills().horses[h];
      std::vector<std::string> row{in_.question.horses[h].name};
      for (const MonthOfBill& month : bill.months) row.push_back(money(month.total));
      row.push_back(money(bill.total));
      row.push_back(money(bill.total / days));
      table.rows.push_back(std::move(row));
    }
    std::vector<std::string> last{"in all"};
    for (const Pennies month : in_.bills().by_month) last.push_back(money(month));
    last.push_back(money(in_.bills().total));
    last.push_back(money(in_.bills().total / days));
    table.rows.push_back(std::move(last));
    return section;
  }

  Section bill_of(std::size_t horse) const {
    const HorseBill& bill = in_.bills().horses[horse];
    Section section{
        fmt::format("{}, {}", in_.question.horses[horse].name, in_.with_code(bill.total)),
        Table{{"month", "feed", "put out", "money"}, {}, 2},
        {}};
    for (std::size_t m = 0; m < bill.months.size(); ++m) {
      bool first = true;
      for (std::size_t f = 0; f < in_.question.offers.size(); ++f) {
        const MonthOfBill& month = bill.months[m];
        if (month.put_out_kg[f] < nothing_kg && month.money[f] == 0) continue;
        section.table->rows.push_back({first ? month_in_words(in_.question.months[m]) : "",
                                       in_.question.offers[f].name,
                                       in_.words.mass(month.put_out_kg[f]), money(month.money[f])});
        first = false;
      }
    }
    return section;
  }

  const WinterTold& in_;
};

}  // namespace

Report::Part winter_bills_part(const WinterTold& told) { return Bills(told).bills(); }

}  // namespace haymow
