#include "desk/verb_call.h"

#include "shared/error.h"

#include <gtest/gtest.h>

using namespace cospot;
using desk::verb_call;

namespace {

Json identify(Json options) {
    return {{"verb", "identify"}, {"arguments", {"plate.csv"}}, {"options", std::move(options)}};
}

} // namespace

TEST(VerbCall, MakesTheArgumentsOfTheProgram) {
    const auto call = verb_call(
        {{"verb", "identify"},
         {"arguments", {"plate.csv"}},
         {"options",
          {{"system", "silica"}, {"explain", true}, {"partial", false}, {"map", {"a=b", "c=d"}}}},
         {"form", "html"}});
    EXPECT_EQ(call.arguments,
              (std::vector<std::string>{"identify", "--system=silica", "--explain", "--map=a=b",
                                        "--map=c=d", "--", "plate.csv"}));
    EXPECT_EQ(call.form, desk::AnswerForm::html);
}

TEST(VerbCall, AValueThatLooksLikeAnOptionStaysAValue) {
    const auto call = verb_call({{"verb", "show"}, {"arguments", {"--all"}}});
    EXPECT_EQ(call.arguments, (std::vector<std::string>{"show", "--", "--all"}));
}

TEST(VerbCall, ReachesNoOtherPlaceOfTheComputer) {
    for (const char *file :
         {"/etc/passwd", "../x.csv", "a/b.csv", "-", ".hidden", "sheet.json", ""}) {
        EXPECT_THROW((void)verb_call({{"verb", "identify"}, {"arguments", {file}}}), InputError)
            << file;
        EXPECT_THROW((void)verb_call(identify({{"ladder", file}})), InputError) << file;
    }
    for (const char *text : {"/etc/passwd", "../x.smi", "x/../../y", "-"}) {
        EXPECT_THROW((void)verb_call({{"verb", "predict"}, {"arguments", {text}}}), InputError)
            << text;
        EXPECT_THROW((void)verb_call({{"verb", "purity"}, {"options", {{"expected", text}}}}),
                     InputError)
            << text;
    }
    EXPECT_NO_THROW((void)verb_call({{"verb", "predict"}, {"arguments", {"C/C=C/C"}}}));
}

TEST(VerbCall, WhatTheProgramSetsIsBarred) {
    for (const char *option :
         {"library", "report", "refused", "replace", "help", "", "-x", "a b", "A"}) {
        EXPECT_THROW((void)verb_call(identify({{option, "x"}})), InputError) << option;
    }
    for (const char *verb : {"merge", "backup", "desk", "--library", "nothing", ""}) {
        EXPECT_THROW((void)verb_call({{"verb", verb}}), InputError) << verb;
    }
}

TEST(VerbCall, OtherShapesAreRefused) {
    EXPECT_THROW((void)verb_call(Json::array()), InputError);
    EXPECT_THROW((void)verb_call({{"verb", 7}}), InputError);
    EXPECT_THROW((void)verb_call({{"verb", "show"}, {"arguments", "x"}}), InputError);
    EXPECT_THROW((void)verb_call({{"verb", "show"}, {"options", {{"top", 7}}}}), InputError);
    EXPECT_THROW((void)verb_call({{"verb", "show"}, {"form", "pdf"}}), InputError);
    EXPECT_THROW((void)verb_call({{"verb", "show"}, {"arguments", {std::string("a\0b", 3)}}}),
                 InputError);
    EXPECT_THROW(
        (void)verb_call({{"verb", "show"}, {"arguments", std::vector<std::string>(600, "x")}}),
        InputError);
}
