// Chromatograms by ASTM E1947 and totals by E2077, with what real files do beside the standard. All
// values invented; the names of variables and attributes are those of astme1947 and astme2077.
#include "made_netcdf.h"
#include "shared/error.h"
#include "traces/trace_file.h"

#include <gtest/gtest.h>

#include <string>

namespace cospot {
namespace {

const std::string kPoints = " point_number = 5 ; ";
const std::string kUniform =
    "float actual_delay_time ; float actual_sampling_interval ; float actual_run_time_length ; "
    "float ordinate_values(point_number) ; ordinate_values:uniform_sampling_flag = \"Y\" ; ";
const std::string kUniformData =
    "actual_delay_time = 0.5 ; actual_sampling_interval = 0.4 ; actual_run_time_length = 2.1 ; "
    "ordinate_values = 0, 1, 5, 2, 1 ; ";

std::string netcdf_text(const std::string &dimensions, const std::string &variables,
                        const std::string &data) {
    return "netcdf made { dimensions: " + dimensions + "variables: " + variables + "data: " + data +
           "}";
}

std::string uniform(const std::string &attributes) {
    return netcdf_text(kPoints, kUniform + attributes, kUniformData);
}

TraceFile netcdf_traces(const std::string &text, const TraceOptions &options = {}) {
    const MadeNetcdf made(text, "classic");
    EXPECT_TRUE(made.is_made()) << text;
    std::istringstream in(made.bytes());
    return read_trace(in, "run.cdf", options);
}

std::string netcdf_refusal(const std::string &text, const TraceOptions &options = {}) {
    try {
        (void)netcdf_traces(text, options);
    } catch (const InputError &error) {
        return error.what();
    }
    return "no error";
}

TEST(AstmE1947, CountsEvenTimesFromTheDelay) {
    const TraceFile file = netcdf_traces(
        uniform(":retention_unit = \"seconds\" ; :detector_unit = \"mAU\" ; :detector_name = "
                "\"invented detector\" ; :sample_name = \"sample 1\" ; "
                ":injection_date_time_stamp = \"20260131093000+0100\" ; "));
    EXPECT_EQ(file.format, "ASTM E1947");
    EXPECT_EQ(file.sample, "sample 1");
    EXPECT_EQ(file.injected_at, "2026-01-31T09:30:00+01:00");
    EXPECT_TRUE(file.notes.empty());
    ASSERT_EQ(file.traces.size(), 1U);
    const Trace &trace = file.traces[0];
    EXPECT_EQ(trace.name, "invented detector");
    EXPECT_EQ(trace.signal_unit, "mAU");
    EXPECT_TRUE(trace.holds_peaks);
    EXPECT_EQ(trace.signal, (std::vector<double>{0, 1, 5, 2, 1}));
    ASSERT_EQ(trace.time_min.size(), 5U);
    EXPECT_NEAR(trace.time_min[0], 0.5 / 60.0, 1e-9);
    EXPECT_NEAR(trace.time_min[4], 2.1 / 60.0, 1e-9); // 0.5 + 4 * 0.4
    EXPECT_TRUE(file.stored_peaks.empty());
}

TEST(AstmE1947, ReadsUnitsInAnyCaseAndUnderAPluralName) {
    const TraceFile file = netcdf_traces(uniform(":retention_units = \"Minutes\\000\\000\" ; "
                                                 ":detector_units = \"mV\" ; "));
    EXPECT_NEAR(file.traces[0].time_min[4], 2.1, 1e-6);
    EXPECT_EQ(file.traces[0].signal_unit, "mV");
}

TEST(AstmE1947, GuessesNoUnit) {
    EXPECT_EQ(netcdf_refusal(uniform("")), "run.cdf, column retention_unit: found times without a "
                                           "unit; expected --time-unit s or --time-unit min");
    EXPECT_EQ(netcdf_refusal(uniform(":retention_unit = \"hours\" ; ")),
              "run.cdf, column retention_unit: found times in the unit \"hours\"; expected seconds "
              "or minutes");
    EXPECT_NEAR(netcdf_traces(uniform(""), {.time_unit = "min"}).traces[0].time_min[4], 2.1, 1e-6);
    EXPECT_NE(netcdf_refusal(uniform(":retention_unit = \"seconds\" ; "), {.time_unit = "min"})
                  .find("found times in seconds; expected the same unit as --time-unit min"),
              std::string::npos);
    EXPECT_NE(netcdf_refusal(uniform(""), {.time_unit = "days"}).find("--time-unit \"days\""),
              std::string::npos);
}

TEST(AstmE1947, TakesListedTimesWhereTheSamplingIsUneven) {
    const std::string variables =
        "double raw_data_retention(point_number) ; int ordinate_values(point_number) ; "
        "ordinate_values:uniform_sampling_flag = \"N\" ; :retention_unit = \"seconds\" ; ";
    const TraceFile file = netcdf_traces(netcdf_text(kPoints, variables,
                                                     "raw_data_retention = 6, 12, 15, 30, 60 ; "
                                                     "ordinate_values = 10, 20, 30, 20, 10 ; "));
    EXPECT_EQ(file.traces[0].time_min, (std::vector<double>{0.1, 0.2, 0.25, 0.5, 1.0}));
    EXPECT_EQ(netcdf_refusal(netcdf_text(kPoints, variables,
                                         "raw_data_retention = 6, 12, 12, 30, 60 ; "
                                         "ordinate_values = 10, 20, 30, 20, 10 ; ")),
              "run.cdf, column ordinate_values: found 0.2 min at point 3 after 0.2 min; expected "
              "times that rise from point to point");
    EXPECT_NE(netcdf_refusal(netcdf_text(kPoints, variables,
                                         "raw_data_retention = 6, 12, 13, 30, _ ; "
                                         "ordinate_values = 10, 20, 30, 20, 10 ; "))
                  .find("found no number at point 5 of 5"),
              std::string::npos);
}

TEST(AstmE1947, RefusesAFileWithoutTimes) {
    const std::string variables = "float ordinate_values(point_number) ; "
                                  "ordinate_values:uniform_sampling_flag = \"N\" ; "
                                  ":retention_unit = \"seconds\" ; ";
    EXPECT_NE(netcdf_refusal(netcdf_text(kPoints, variables, "ordinate_values = 1, 2, 3, 4, 5 ; "))
                  .find("found no times, though the sampling is not uniform"),
              std::string::npos);
}

TEST(AstmE1947, ReadsNumbersThatAreStoredAsText) {
    const TraceFile file = netcdf_traces(netcdf_text(
        kPoints + "_8_byte_string = 8 ; ",
        "char actual_delay_time(_8_byte_string) ; float ordinate_values(point_number) ; "
        ":actual_sampling_interval = \"0.4\" ; :retention_unit = \"seconds\" ; ",
        "actual_delay_time = \"0.5\" ; ordinate_values = 0, 1, 5, 2, 1 ; "));
    EXPECT_NEAR(file.traces[0].time_min[4], 2.1 / 60.0, 1e-12);
}

TEST(AstmE1947, LeavesOutWhatIsNullInTheTableOfPeaks) {
    const TraceFile file = netcdf_traces(netcdf_text(
        kPoints + "peak_number = 3 ; _8_byte_string = 8 ; ",
        kUniform + "float peak_retention_time(peak_number) ; float peak_start_time(peak_number) ; "
                   "float peak_end_time(peak_number) ; float peak_area(peak_number) ; "
                   "float peak_height(peak_number) ; char peak_name(peak_number, _8_byte_string) ; "
                   ":retention_unit = \"seconds\" ; ",
        kUniformData +
            "peak_retention_time = 1.5, -9999, 1.75 ; peak_start_time = 0.75, -9999, -9999 ; "
            "peak_end_time = 2.25, -9999, _ ; peak_area = 12.5, -9999, -3 ; peak_height = 5, 1, 2 ;"
            " peak_name = \"first\", \"\", \"third\" ; "));
    ASSERT_EQ(file.stored_peaks.size(), 2U);
    const StoredPeak &first = file.stored_peaks[0];
    EXPECT_EQ(first.name, "first");
    EXPECT_DOUBLE_EQ(first.apex_min, 0.025);
    EXPECT_DOUBLE_EQ(first.start_min.value(), 0.0125);
    EXPECT_DOUBLE_EQ(first.end_min.value(), 0.0375);
    EXPECT_EQ(first.area, 12.5);
    EXPECT_EQ(first.height, 5.0);
    EXPECT_EQ(file.stored_peaks[1].name, "third");
    EXPECT_FALSE(file.stored_peaks[1].start_min);
    EXPECT_FALSE(file.stored_peaks[1].end_min);
    EXPECT_EQ(file.stored_peaks[1].area, -3.0);
    EXPECT_EQ(file.notes,
              std::vector<std::string>{
                  "1 row of the file's table of peaks without a retention time left out"});
}

TEST(AstmE1947, TellsOfARunLengthThatDoesNotFit) {
    const std::string text = netcdf_text(
        kPoints, kUniform + ":retention_unit = \"seconds\" ; ",
        "actual_delay_time = 0.5 ; actual_sampling_interval = 0.4 ; actual_run_time_length = 31 ; "
        "ordinate_values = 0, 1, 5, 2, 1 ; ");
    const TraceFile file = netcdf_traces(text);
    ASSERT_EQ(file.notes.size(), 1U);
    EXPECT_EQ(file.notes[0], "! the file says that the run takes 31, but its points end at 2.1 "
                             "(both in its own unit of time)");
}

TEST(AstmE1947, ReadsLatin1) {
    const TraceFile file =
        netcdf_traces(uniform(":retention_unit = \"seconds\" ; :detector_unit = \"\xB5V\" ; "));
    EXPECT_EQ(file.traces[0].signal_unit, "\xC2\xB5V"); // micro sign
}

TEST(AstmE2077, ReadsTheTotalOverTheScans) {
    const std::string dimensions = "scan_number = 3 ; ";
    const std::string variables = "double scan_acquisition_time(scan_number) ; "
                                  "double total_intensity(scan_number) ; "
                                  "total_intensity:units = \"counts\" ; "
                                  ":experiment_date_time_stamp = \"20260131093000\" ; ";
    const std::string data = "scan_acquisition_time = 3, 6, 9.5 ; total_intensity = 10, 20, 15 ; ";
    const TraceFile file = netcdf_traces(netcdf_text(dimensions, variables, data));
    EXPECT_EQ(file.format, "ASTM E2077");
    EXPECT_EQ(file.injected_at, "2026-01-31T09:30:00");
    ASSERT_EQ(file.traces.size(), 1U);
    EXPECT_EQ(file.traces[0].kind, "total ion current");
    EXPECT_EQ(file.traces[0].signal_unit, "counts");
    EXPECT_DOUBLE_EQ(file.traces[0].time_min[1], 0.1);
    EXPECT_EQ(file.notes.size(), 1U); // the unit is the standard's
    const TraceFile stated = netcdf_traces(
        netcdf_text(dimensions, variables + "scan_acquisition_time:units = \"minutes\" ; ", data));
    EXPECT_DOUBLE_EQ(stated.traces[0].time_min[1], 6.0);
    EXPECT_TRUE(stated.notes.empty());
}

TEST(Netcdf, IsRefusedWhereItHoldsNoChromatogram) {
    EXPECT_EQ(netcdf_refusal("netcdf weather { dimensions: n = 1 ; variables: float wind(n) ; "
                             "data: wind = 3 ; }"),
              "run.cdf, column ordinate_values: found a netCDF file that holds no chromatogram; "
              "expected the variables of ASTM E1947 (ordinate_values) or E2077 (total_intensity)");
}

TEST(Netcdf, IsRefusedByNameInHdf5) {
    const MadeNetcdf made(uniform(":retention_unit = \"seconds\" ; "), "netCDF-4");
    ASSERT_TRUE(made.is_made());
    EXPECT_TRUE(is_trace(made.bytes()));
    try {
        (void)read_trace_file(made.path());
        FAIL();
    } catch (const InputError &error) {
        EXPECT_EQ(error.found(), "an HDF5 file (netCDF-4 is one)");
    }
}

} // namespace
} // namespace cospot
