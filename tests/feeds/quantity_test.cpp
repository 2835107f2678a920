#include "feeds/quantity.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

namespace haymow::quantity_test {
namespace {

using ::testing::HasSubstr;

struct Accepted {
  const char* text;
  const Dimension* dimension;
  double value;
};
void PrintTo(const Accepted& accepted, std::ostream* out) { *out << accepted.text; }

class QuantityAccepts : public ::testing::TestWithParam<Accepted> {};

TEST_P(QuantityAccepts, InBaseUnit) {
  const Reading<double> reading =
      read_amount(GetParam().text, *GetParam().dimension, Sign::not_negative);
  ASSERT_TRUE(reading.value) << reading.complaint->message;
  EXPECT_DOUBLE_EQ(*reading.value, GetParam().value);
}

INSTANTIATE_TEST_SUITE_P(
    Amounts, QuantityAccepts,
    ::testing::Values(Accepted{"540 kg", &weight(), 540.0}, Accepted{"540kg", &weight(), 540.0},
                      Accepted{"250 g", &weight(), 0.25},
                      Accepted{"1200 lb", &weight(), 1200 * 0.45359237},
                      Accepted{"16 oz", &weight(), 0.45359237}, Accepted{"2.5 t", &weight(), 2500},
                      Accepted{"1 tonne", &weight(), 1000},
                      Accepted{"1 short ton", &weight(), 907.18474},
                      Accepted{"540\xc2\xa0kg", &weight(), 540.0}, Accepted{"0 kg", &weight(), 0.0},
                      Accepted{"0.5 KG", &weight(), 0.5}, Accepted{"188 cm", &body_length(), 188},
                      Accepted{"1.88 m", &body_length(), 188},
                      Accepted{"74 in", &body_length(), 187.96}, Accepted{"2 h", &duration(), 120},
                      Accepted{"45 min", &duration(), 45}, Accepted{"8 %", &percentage(), 8},
                      Accepted{"12 months", &age(), 12}, Accepted{"4 parts", &water_ratio(), 4}));

struct Refused {
  const char* text;
  const char* message;
  const char* help;
};
void PrintTo(const Refused& refused, std::ostream* out) { *out << refused.text; }

class WeightRefuses : public ::testing::TestWithParam<Refused> {};

TEST_P(WeightRefuses, AndSaysWhatToWrite) {
  const Reading<double> reading = read_amount(GetParam().text, weight(), Sign::positive);
  ASSERT_FALSE(reading.value);
  ASSERT_TRUE(reading.complaint);
  EXPECT_EQ(reading.complaint->message, GetParam().message);
  EXPECT_EQ(reading.complaint->help, GetParam().help);
}

constexpr auto weight_help = "write a weight such as `540 kg`";
constexpr auto plain_help = "write it in decimal digits, such as `1000` or `0.5`";
INSTANTIATE_TEST_SUITE_P(
    Numbers, WeightRefuses,
    ::testing::Values(
        Refused{".nan kg", "`.nan kg` does not start with a number", weight_help},
        Refused{"nan", "`nan` does not start with a number", weight_help},
        Refused{".inf kg", "`.inf kg` does not start with a number", weight_help},
        Refused{"-.inf", "`-.inf` does not start with a number", weight_help},
        Refused{"heavy", "`heavy` does not start with a number", weight_help},
        Refused{"", "`` does not start with a number", weight_help},
        Refused{"010 kg", "`010` starts with a zero", "write `10 kg`"},
        Refused{"00 kg", "`00` starts with a zero", "write `0 kg`"},
        Refused{"1_000 kg", "`1_000` has a sign between its digits",
                "write the digits together: `1000 kg`"},
        Refused{"1 000 kg", "`1 000` has a sign between its digits",
                "write the digits together: `1000 kg`"},
        Refused{"1,000 kg", "`1,000` has a sign between its digits",
                "write the digits together: `1000 kg`, or a decimal point: `1.000 kg`"},
        Refused{"4,5 kg", "`4,5` has a decimal comma", "write a decimal point: `4.5 kg`"},
        Refused{"0x10 kg", "`0x10 kg` is not a plain number", plain_help},
        Refused{"1e400 kg", "`1e400 kg` is not a plain number", plain_help},
        Refused{"1e3 kg", "`1e3 kg` is not a plain number", plain_help},
        Refused{"1.2.3 kg", "`1.2.3 kg` is not a plain number", plain_help},
        Refused{"1. kg", "`1.` ends with a point", "write `1 kg`"},
        Refused{".5 kg", "`.5 kg` starts with a point", "write `0.5 kg`"},
        Refused{"99999999999999999999999 kg", "`99999999999999999999` is too large a number",
                weight_help}));

INSTANTIATE_TEST_SUITE_P(
    Units, WeightRefuses,
    ::testing::Values(
        Refused{"540", "`540` has no unit; a weight is in kg, g, lb, oz, t or short ton",
                "write the unit behind the number, such as `540 kg`"},
        Refused{"540 cm", "`cm` is not a unit of weight; it is in kg, g, lb, oz, t or short ton",
                weight_help},
        Refused{"2 tons", "`tons` can mean 1000 kg or 2000 lb",
                "write `2 tonnes` or `2 short tons`"},
        Refused{"-540 kg", "`-540 kg` is below zero", "write a weight such as `540 kg`"},
        Refused{"\xe2\x88\x92"
                "5 kg",
                "`\xe2\x88\x92"
                "5 kg` is below zero",
                "write a weight such as `540 kg`"},
        Refused{"0 kg", "`0 kg` is zero; expected more", "write a weight such as `540 kg`"}));

TEST(Quantity, BareNumberHasNothingBehindIt) {
  EXPECT_DOUBLE_EQ(read_bare_number("4.5").value.value(), 4.5);
  EXPECT_THAT(read_bare_number("4.5 points").complaint->message,
              HasSubstr("something behind the number"));
}

TEST(Quantity, TemperatureMayBeBelowZero) {
  EXPECT_DOUBLE_EQ(read_temperature("-5 C").value.value(), -5.0);
  EXPECT_DOUBLE_EQ(read_temperature("-5 \xc2\xb0"
                                    "C")
                       .value.value(),
                   -5.0);
  EXPECT_DOUBLE_EQ(read_temperature("\xe2\x88\x92"
                                    "5 C")
                       .value.value(),
                   -5.0);
  EXPECT_DOUBLE_EQ(read_temperature("5 F").value.value(), -15.0);
  EXPECT_TRUE(read_temperature("-5").complaint);
}

}  // namespace
}  // namespace haymow::quantity_test
