#include "model/worked.h"

#include <gtest/gtest.h>

namespace haymow::worked_test {
namespace {

TEST(Worked, ProductOfASumIsBracketed) {
  const Worked sum = figure(2.0, "g/kg") + figure(3.0, "g/kg");
  const Worked product = sum * amount(500.0, "kg");
  EXPECT_DOUBLE_EQ(product.value, 2500.0);
  EXPECT_EQ(product.text, "(2 g/kg + 3 g/kg) x 500 kg");
}

TEST(Worked, DivisorAndSubtrahendAreBracketedWhereTheyMustBe) {
  EXPECT_EQ((figure(1.0) / (figure(2.0) * figure(4.0))).text, "1 / (2 x 4)");
  EXPECT_EQ((figure(9.0) - (figure(2.0) + figure(4.0))).text, "9 - (2 + 4)");
  EXPECT_DOUBLE_EQ((figure(9.0) - (figure(2.0) + figure(4.0))).value, 3.0);
}

TEST(Worked, CoefficientKeepsItsDigitsAndAmountIsShownToFive) {
  EXPECT_EQ(figure(6.97121).text, "6.97121");
  EXPECT_EQ(figure(0.00009).text, "0.00009");
  EXPECT_EQ(figure(1e-9).text, "1e-9");
  EXPECT_EQ(amount(498.951607, "kg").text, "498.95 kg");
  EXPECT_EQ(amount(0.0123456, "kg").text, "0.012346 kg");
  EXPECT_EQ(amount(123456.7, "IU").text, "123457 IU");
  EXPECT_EQ(five_figures(-3.88889), "-3.8889");
  EXPECT_EQ(five_figures(0.0), "0");
}

TEST(Worked, StepIsShownByItsResultAndKeepsFullPrecision) {
  const Worked third = step("a third", figure(1.0) / figure(3.0), "kg");
  EXPECT_EQ(third.text, "0.33333 kg");
  EXPECT_DOUBLE_EQ((third * figure(3.0)).value, 1.0);
  EXPECT_EQ(written(third * figure(3.0), "kg", 2),
            "a third: 1 / 3 = 0.33333 kg; 0.33333 kg x 3 = 1.00 kg");
}

TEST(Worked, SharedStepIsWrittenOnce) {
  const Worked milk = step("milk a day", figure(2.0) * figure(8.0), "kg");
  EXPECT_EQ(written(milk + milk, "kg", 0), "milk a day: 2 x 8 = 16 kg; 16 kg + 16 kg = 32 kg");
}

TEST(Worked, RemarkStandsInBracketsBehindTheSum) {
  EXPECT_EQ(written(with_remark(figure(2.0) * figure(3.0), "why"), "g", 1), "2 x 3 [why] = 6.0 g");
}

}  // namespace
}  // namespace haymow::worked_test
