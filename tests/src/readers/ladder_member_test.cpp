#include "readers/ladder_member.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace cospot {
namespace {

TEST(LadderMember, IsTheNumberBehindTheCOrTheHomologueThatIsNamed) {
    const std::vector<std::pair<std::string, int>> members{
        {"C7", 7},     {"n-C9", 9},     {"c12", 12},        {"C5 Pentan", 5}, {"C9 n-Nonan", 9},
        {"Pentan", 5}, {"n-Decan", 10}, {"hexadecane", 16}, {"C10", 10},      {"C8 blend", 8},
        {" C11 ", 11}, {"C8 FAME", 8},  {"acetophenone", 8}};
    for (const auto &[text, carbon] : members) {
        const auto member = ladder_member(text);
        ASSERT_TRUE(member) << text;
        EXPECT_EQ(member->carbon, carbon) << text;
    }
}

TEST(LadderMember, OnlyANameTellsTheScale) {
    EXPECT_FALSE(ladder_member("C8")->scale);
    EXPECT_EQ(ladder_member("C8 octane")->scale, quantities::IndexScale::n_alkane);
    EXPECT_EQ(ladder_member("C8 FAME")->scale, quantities::IndexScale::fatty_acid_methyl_ester);
}

TEST(LadderMember, WhatContradictsItselfOrIsNoneIsRefused) {
    for (const char *text : {"C9 Octan", "C18:1", "C", "C1234", "Toluol", "", "9", "nC9x"}) {
        EXPECT_FALSE(ladder_member(text)) << text;
    }
}

} // namespace
} // namespace cospot
