// mzML 1.1, built here: what is read, and what is refused by name. Accessions are those of psims,
// the elements those of mzml11. All values invented.
#include "traces/mzml.h"

#include "shared/error.h"
#include "traces/trace_file.h"

#include <gtest/gtest.h>
#include <sodium.h>
#include <zlib.h>

#include <cstring>
#include <sstream>
#include <string>
#include <vector>

namespace cospot {
namespace {

const std::string kMinutes = R"( unitAccession="UO:0000031" unitName="minute")";
const std::string kSeconds = R"( unitAccession="UO:0000010" unitName="second")";
const std::string kTime = "MS:1000595";
const std::string kIntensity = "MS:1000515";
const std::string kTotal = "MS:1000235";

std::string term(const std::string &accession, const std::string &more = "") {
    return "<cvParam cvRef=\"MS\" accession=\"" + accession + "\"" + more + "/>";
}

std::string base64_of(const std::string &bytes) {
    std::string text(sodium_base64_encoded_len(bytes.size(), sodium_base64_VARIANT_ORIGINAL), '\0');
    sodium_bin2base64(text.data(), text.size(),
                      reinterpret_cast<const unsigned char *>(bytes.data()), bytes.size(),
                      sodium_base64_VARIANT_ORIGINAL);
    text.resize(std::strlen(text.c_str()));
    return text;
}

/// The bytes as they lie in memory: this test runs on little-endian machines only.
template <typename Number> std::string bytes_of(const std::vector<double> &values) {
    std::string bytes;
    for (const double value : values) {
        const auto number = static_cast<Number>(value);
        bytes.append(reinterpret_cast<const char *>(&number), sizeof number);
    }
    return bytes;
}

std::string compressed(const std::string &bytes) {
    uLongf size = compressBound(bytes.size());
    std::string result(size, '\0');
    compress(reinterpret_cast<Bytef *>(result.data()), &size,
             reinterpret_cast<const Bytef *>(bytes.data()), bytes.size());
    result.resize(size);
    return result;
}

std::string array_of(const std::string &terms, const std::string &bytes,
                     const std::string &attributes = "") {
    return "<binaryDataArray" + attributes + ">" + terms + "<binary>" + base64_of(bytes) +
           "</binary></binaryDataArray>";
}

/// 64-bit numbers, not compressed.
std::string doubles(const std::string &kind, const std::vector<double> &values,
                    const std::string &unit = "") {
    return array_of(term("MS:1000523") + term("MS:1000576") + term(kind, unit),
                    bytes_of<double>(values));
}

std::string chromatogram(const std::string &id, const std::string &kind, std::size_t length,
                         const std::string &arrays) {
    return "<chromatogram id=\"" + id + "\" defaultArrayLength=\"" + std::to_string(length) +
           "\">" + (kind.empty() ? "" : term(kind)) + "<binaryDataArrayList>" + arrays +
           "</binaryDataArrayList></chromatogram>";
}

std::string mzml(const std::string &content, const std::string &version = "1.1.0") {
    return "<?xml version=\"1.0\"?>\n<mzML version=\"" + version + "\">" + content + "</mzML>";
}

const std::string kThreePoints =
    doubles(kTime, {1, 2, 3}, kMinutes) + doubles(kIntensity, {5, 9, 6}, R"( unitName="counts")");

TraceFile mzml_file(const std::string &text, const TraceOptions &options = {}) {
    std::istringstream in(text);
    return read_trace(in, "run.mzML", options);
}

std::string mzml_refusal(const std::string &text, const TraceOptions &options = {}) {
    try {
        (void)mzml_file(text, options);
    } catch (const InputError &error) {
        return error.what();
    }
    return "no error";
}

void expect_mzml_refused(const std::string &text, const std::string &part) {
    const std::string refusal = mzml_refusal(text);
    EXPECT_NE(refusal.find(part), std::string::npos) << refusal;
}

TEST(Mzml, ReadsAChromatogram) {
    const TraceFile file = mzml_file(mzml("<sampleList><sample name=\"sample 1\"/></sampleList>"
                                          "<run startTimeStamp=\"2026-01-31T09:30:00Z\">" +
                                          chromatogram("TIC", kTotal, 3, kThreePoints) + "</run>"));
    EXPECT_EQ(file.format, "mzML 1.1");
    EXPECT_EQ(file.sample, "sample 1");
    EXPECT_EQ(file.injected_at, "2026-01-31T09:30:00Z");
    ASSERT_EQ(file.traces.size(), 1U);
    const Trace &trace = file.traces[0];
    EXPECT_EQ(trace.name, "TIC");
    EXPECT_EQ(trace.kind, "total ion current");
    EXPECT_EQ(trace.signal_unit, "counts");
    EXPECT_EQ(trace.time_min, (std::vector<double>{1, 2, 3}));
    EXPECT_EQ(trace.signal, (std::vector<double>{5, 9, 6}));
}

TEST(Mzml, ReadsAllNumbersPlainAndCompressed) {
    const std::vector<double> values{1, -2, 300};
    const std::vector<std::pair<std::string, std::string>> kinds{
        {"MS:1000521", bytes_of<float>(values)},
        {"MS:1000523", bytes_of<double>(values)},
        {"MS:1000519", bytes_of<std::int32_t>(values)},
        {"MS:1000522", bytes_of<std::int64_t>(values)}};
    for (const auto &[kind, bytes] : kinds) {
        for (const bool is_compressed : {false, true}) {
            const std::string signal = array_of(
                term(kind) + term(is_compressed ? "MS:1000574" : "MS:1000576") + term(kIntensity),
                is_compressed ? compressed(bytes) : bytes);
            const TraceFile file = mzml_file(mzml(
                chromatogram("a", kTotal, 3, doubles(kTime, {60, 90, 120}, kSeconds) + signal)));
            EXPECT_EQ(file.traces[0].signal, values) << kind;
            EXPECT_EQ(file.traces[0].time_min, (std::vector<double>{1, 1.5, 2})) << kind;
        }
    }
}

TEST(Mzml, FindsTermsInGroupsBehindAnIndexAndAPrefix) {
    const TraceFile file = mzml_file(
        "<?xml version=\"1.0\"?><x:indexedmzML><x:mzML "
        "version=\"1.1.1\"><x:referenceableParamGroup id=\"g\">"
        "<x:cvParam accession=\"MS:1000523\"/><x:cvParam accession=\"MS:1000576\"/>"
        "</x:referenceableParamGroup>"
        "<x:chromatogram id=\"a\" defaultArrayLength=\"9\">"
        "<x:binaryDataArray arrayLength=\"2\"><x:referenceableParamGroupRef ref=\"g\"/>"
        "<x:cvParam accession=\"MS:1000595\" unitAccession=\"UO:0000031\"/><x:binary>\n " +
        base64_of(bytes_of<double>({1, 2})) +
        " \n</x:binary></x:binaryDataArray>"
        "<x:binaryDataArray arrayLength=\"2\"><x:referenceableParamGroupRef ref=\"g\"/>"
        "<x:cvParam accession=\"MS:1000515\"/><x:binary>" +
        base64_of(bytes_of<double>({7, 8})) +
        "</x:binary></x:binaryDataArray></x:chromatogram></x:mzML>"
        "<x:indexList/></x:indexedmzML>");
    EXPECT_EQ(file.traces[0].signal, (std::vector<double>{7, 8})); // arrayLength overrides 9
}

TEST(Mzml, SurvivesAGroupThatRefersToItself) {
    const std::string ref = "<referenceableParamGroupRef ref=\"g\"/>";
    const std::string group = "<referenceableParamGroup id=\"g\">" + term(kTotal) + ref + ref +
                              "</referenceableParamGroup>";
    EXPECT_EQ(mzml_file(mzml(group + chromatogram("TIC", "", 3, ref + kThreePoints))).traces.size(),
              1U);
}

TEST(Mzml, KnowsWhatHoldsNoPeaks) {
    const TraceFile file = mzml_file(
        mzml(chromatogram("TIC", kTotal, 3, kThreePoints) +
             chromatogram("pressure", "MS:1003019", 3, kThreePoints) +
             chromatogram("flow", "MS:1003020", 3, kThreePoints) +
             chromatogram("by its array", "", 3,
                          doubles(kTime, {1, 2, 3}, kMinutes) + doubles("MS:1000821", {5, 5, 5}))));
    ASSERT_EQ(file.traces.size(), 4U);
    EXPECT_TRUE(file.traces[0].holds_peaks);
    EXPECT_EQ(file.traces[1].kind, "pressure");
    for (const std::size_t pump : {1U, 2U, 3U}) {
        EXPECT_FALSE(file.traces[pump].holds_peaks) << pump;
    }
    EXPECT_EQ(chosen(file, "").name, "TIC");
}

TEST(Mzml, LeavesOutAPumpThatCannotBeReadButNoDetector) {
    const std::string falling =
        doubles(kTime, {1, 1, 3}, kMinutes) + doubles(kIntensity, {5, 9, 6});
    const TraceFile file = mzml_file(mzml(chromatogram("TIC", kTotal, 3, kThreePoints) +
                                          chromatogram("flow", "MS:1003020", 3, falling)));
    EXPECT_EQ(file.traces.size(), 1U);
    ASSERT_EQ(file.notes.size(), 1U);
    EXPECT_EQ(file.notes[0].rfind("! the trace \"flow\" of the pump is left out: run.mzML:2", 0),
              0U)
        << file.notes[0];
    expect_mzml_refused(mzml(chromatogram("TIC", kTotal, 3, falling)),
                        "found 1 min at point 2 after 1 min");
}

std::string spectrum(const std::string &level, const std::string &terms, double time,
                     const std::string &arrays = "", const std::string &unit = kMinutes) {
    return "<spectrum defaultArrayLength=\"2\">" +
           (level.empty() ? "" : term("MS:1000511", " value=\"" + level + "\"")) + terms +
           "<scanList><scan>" +
           term("MS:1000016", " value=\"" + std::to_string(time) + "\"" + unit) +
           "</scan></scanList>" + arrays + "</spectrum>";
}

TEST(Mzml, SumsTheSpectraOfLevel1WhereNoChromatogramIs) {
    const auto stated = [](int total) {
        return term("MS:1000285", " value=\"" + std::to_string(total) + "\"");
    };
    const TraceFile from_file =
        mzml_file(mzml(spectrum("1", stated(10), 1) + spectrum("2", stated(999), 1.5) +
                       spectrum("1", stated(30), 2)));
    ASSERT_EQ(from_file.traces.size(), 1U);
    EXPECT_EQ(from_file.traces[0].kind, "total ion current");
    EXPECT_EQ(from_file.traces[0].time_min, (std::vector<double>{1, 2}));
    EXPECT_EQ(from_file.traces[0].signal, (std::vector<double>{10, 30}));
    EXPECT_EQ(from_file.notes[0],
              "no chromatogram in the file: the total ion current is read from 2 scans");

    const auto arrays = [](double a, double b) {
        return doubles("MS:1000514", {100, 200}) + doubles(kIntensity, {a, b});
    };
    const TraceFile summed =
        mzml_file(mzml(spectrum("1", "", 1, arrays(1, 2)) + spectrum("1", "", 2, arrays(3, 4))));
    EXPECT_EQ(summed.traces[0].signal, (std::vector<double>{3, 7}));
    EXPECT_EQ(summed.notes[0], "no chromatogram in the file: the signals are summed from 2 scans");
}

TEST(Mzml, SumsLightOverItsWavelengths) {
    const auto light = [](double a, double b) {
        return doubles("MS:1000617", {254, 280}) + doubles(kIntensity, {a, b});
    };
    const TraceFile file = mzml_file(mzml(spectrum("", term("MS:1000806"), 1, light(1, 2)) +
                                          spectrum("", term("MS:1000806"), 2, light(3, 4))));
    ASSERT_EQ(file.traces.size(), 1U);
    EXPECT_EQ(file.traces[0].kind, "absorption");
    EXPECT_EQ(file.traces[0].signal, (std::vector<double>{3, 7}));
}

TEST(Mzml, ReadsChromatogramsBesideSpectraThatItCannotRead) {
    const std::string unread =
        spectrum("1", "", 1, array_of(term("MS:1002312") + term(kIntensity), "any bytes"));
    EXPECT_EQ(mzml_file(mzml(unread + chromatogram("TIC", kTotal, 3, kThreePoints))).traces.size(),
              1U);
    expect_mzml_refused(mzml(unread), "compressed with Numpress");
}

TEST(Mzml, RefusesOtherCompressionsByName) {
    const std::vector<std::pair<std::string, std::string>> unread{
        {"MS:1002312", "Numpress"}, {"MS:1002313", "Numpress"}, {"MS:1002314", "Numpress"},
        {"MS:1002746", "Numpress"}, {"MS:1002747", "Numpress"}, {"MS:1002748", "Numpress"},
        {"MS:1003780", "zstd"}};
    for (const auto &[accession, name] : unread) {
        const std::string signal =
            array_of(term("MS:1000523") + term(accession) + term(kIntensity), "any bytes");
        expect_mzml_refused(
            mzml(chromatogram("a", kTotal, 3, doubles(kTime, {1, 2, 3}, kMinutes) + signal)),
            "found an array compressed with " + name);
    }
    expect_mzml_refused(
        mzml(chromatogram("a", kTotal, 3,
                          doubles(kTime, {1, 2, 3}, kMinutes) +
                              array_of(term("MS:1000523") + term(kIntensity), "any"))),
        "found an array that does not say how it is compressed");
}

TEST(Mzml, BoundsWhatADeclaredLengthMayUnpackTo) {
    const auto with_signal = [](const std::string &bytes) {
        return mzml(chromatogram(
            "a", kTotal, 3,
            doubles(kTime, {1, 2, 3}, kMinutes) +
                array_of(term("MS:1000523") + term("MS:1000574") + term(kIntensity), bytes)));
    };
    const std::string right = compressed(bytes_of<double>({1, 2, 3}));
    EXPECT_EQ(mzml_refusal(with_signal(right)), "no error");
    expect_mzml_refused(with_signal(compressed(std::string(100'000, '\0'))),
                        "found more than 24 bytes when decompressed");
    expect_mzml_refused(with_signal(compressed(bytes_of<double>({1, 2}))),
                        "found 16 bytes when decompressed; expected the 24 bytes");
    expect_mzml_refused(with_signal(right.substr(0, right.size() - 6)), "compressed");
    expect_mzml_refused(with_signal("no zlib at all"), "found damaged compressed data");
    expect_mzml_refused(mzml(chromatogram("a", kTotal, 3,
                                          doubles(kTime, {1, 2, 3}, kMinutes) +
                                              doubles(kIntensity, std::vector<double>(2000, 1.0)))),
                        "found more data than the declared length needs");
    expect_mzml_refused(mzml(chromatogram("a", kTotal, 5'000'001, kThreePoints)),
                        "found a trace of 5000001 points; expected at most 5000000 points");
}

TEST(Mzml, RefusesDamagedArrays) {
    expect_mzml_refused(
        mzml(chromatogram("a", kTotal, 3,
                          doubles(kTime, {1, 2}, kMinutes) + doubles(kIntensity, {1, 2, 3}))),
        "found 16 bytes; expected 24 bytes for 3 values");
    std::string no_base64 = mzml(chromatogram("a", kTotal, 3, kThreePoints));
    no_base64.replace(no_base64.find("<binary>") + 8, 1, "*");
    expect_mzml_refused(no_base64, "found text that is no base64");
    expect_mzml_refused(mzml(chromatogram("a", kTotal, 3, doubles(kIntensity, {1, 2, 3}))),
                        "found a chromatogram without a time array");
    expect_mzml_refused(mzml("<chromatogram id=\"a\" defaultArrayLength=\"-1\"/>"),
                        "found the array length \"-1\"");
}

TEST(Mzml, GuessesNoUnitOfTime) {
    const auto with_unit = [](const std::string &unit) {
        return mzml(chromatogram("a", kTotal, 2,
                                 doubles(kTime, {60, 120}, unit) + doubles(kIntensity, {1, 2})));
    };
    expect_mzml_refused(with_unit(""), "found times without a unit; expected --time-unit s");
    expect_mzml_refused(with_unit(R"( unitAccession="UO:0000028" unitName="millisecond")"),
                        "found times in the unit \"millisecond\"; expected seconds or minutes");
    EXPECT_EQ(mzml_file(with_unit(""), {.time_unit = "s"}).traces[0].time_min,
              (std::vector<double>{1, 2}));
    expect_mzml_refused(mzml(spectrum("1", term("MS:1000285", " value=\"1\""), 1, "", "")),
                        "found times without a unit");
}

TEST(Mzml, RefusesOtherVersionsAndOtherXml) {
    const std::string content = chromatogram("TIC", kTotal, 3, kThreePoints);
    expect_mzml_refused(mzml(content, "0.99.1"), "run.mzML:2: found mzML of version \"0.99.1\"");
    expect_mzml_refused(mzml(content, "1.10"), "found mzML of version \"1.10\"");
    expect_mzml_refused("<mzML>" + content + "</mzML>", "found mzML without its version");
    expect_mzml_refused("<?xml version=\"1.0\"?><report/>",
                        "found XML of another kind: \"report\"");
    expect_mzml_refused("<indexedmzML>" + content + "</indexedmzML>",
                        "found neither a chromatogram");
}

TEST(Mzml, RefusesDoctypeEntitiesAndWhatIsCutOff) {
    expect_mzml_refused("<?xml version=\"1.0\"?><!DOCTYPE mzML [<!ENTITY a \"aaaa\">]>"
                        "<mzML version=\"1.1.0\">&a;</mzML>",
                        "found a DOCTYPE");
    expect_mzml_refused(mzml("&a;"), "found an entity of the file's own");
    const std::string whole = mzml(chromatogram("TIC", kTotal, 3, kThreePoints));
    for (std::size_t size = 30; size < whole.size(); size += 7) {
        expect_mzml_refused(whole.substr(0, size), "cut off");
    }
    expect_mzml_refused(mzml("<a></b>"), "found malformed XML (mismatched tag)");
    std::string deep;
    for (int i = 0; i < 100; ++i) {
        deep += "<a>";
    }
    expect_mzml_refused(mzml(deep), "found elements more than 64 deep");
    expect_mzml_refused(mzml("<a b=\"" + std::string(10U << 20U, 'x') + "\"/>"),
                        "found a tag of more than 8 MiB");
}

TEST(Mzml, LeavesOutChromatogramsWithoutPoints) {
    const TraceFile file = mzml_file(mzml(chromatogram("TIC", kTotal, 3, kThreePoints) +
                                          chromatogram("none", "MS:1001473", 0, "")));
    EXPECT_EQ(file.traces.size(), 1U);
    EXPECT_EQ(file.notes, std::vector<std::string>{"1 chromatogram without points left out"});
}

} // namespace
} // namespace cospot
