#pragma once

#include "quantities/ladder.h"
#include "quantities/retention_index.h"
#include "readers/further_evidence_columns.h"
#include "shared/error.h"
#include "shared/quantity.h"
#include "shared/recorded_trace.h"

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// One measured quantity of a feature on one system, as it goes to the matcher.
struct FeatureObservation {
    std::string system;
    Quantity quantity = Quantity::Rf;
    double value = 0.0;              ///< in the unit of the quantity
    double uncertainty = 0.0;        ///< standard uncertainty, in the unit of the quantity
    bool extrapolated = false;       ///< index from outside the ladder
    bool is_outside_library = false; ///< on a system of the run alone: only its standards tell
    Where where;                     ///< in the input
};

/// A spot of a known compound on the same plate.
struct PlateStandard {
    std::string lane;
    std::string label; ///< name of the compound, as the plate gives it
    std::string spot;
    double distance_mm = 0.0;
    double front_mm = 0.0;
};

/// Where a spot lies on its plate, in mm from the start.
struct PlatePlace {
    std::string lane;
    double distance_mm = 0.0;
    double front_mm = 0.0;
    std::shared_ptr<const std::vector<PlateStandard>> standards; ///< of the plate; never null
    bool is_noted_rf = false; ///< of all spots: R_F was noted, nobody measured distances or a front
};

/// What a data system says of a peak beside its time and area; times in min.
struct PeakShape {
    std::optional<double> start_min;
    std::optional<double> end_min;
    std::optional<double> height; ///< any unit
    std::optional<double> width_half_min;
    std::optional<double> symmetry; ///< symmetry factor A_s
};

/// The peak on a second column that a peak is taken for the same compound as.
struct PairedPeak {
    std::string name;
    std::string system; ///< of the second column
    double retention_time_min = 0.0;
    double area = 0.0;                            ///< on the second column, in its unit
    double percent = 0.0;                         ///< of the whole area there
    double first_percent = 0.0;                   ///< of the area on the first
    double probability = 0.0;                     ///< of the pair
    std::shared_ptr<const RecordedTrace> trace{}; ///< of the second column, where it is one
};

/// One spot or peak of unknown identity.
struct Feature {
    std::string sample;
    std::string name;
    std::string lane; ///< of a plate; with `sample` it says which features compete for compounds
    std::string run;  ///< plate, injection or series: what was run together lies alike against the
                      ///< library
    std::string date{}; ///< of the run, if stated
    std::vector<FeatureObservation> observations;
    std::optional<double> retention_time_min;
    std::optional<double> area;  ///< any unit, of a spot by densitometry
    bool is_area_below = false;  ///< the area is stated as too little to be measured
    std::optional<double> ppm{}; ///< of a peak: mg in a kg of the sample, as the user states it
    bool is_ppm_below = false;   ///< the ppm are stated as too little to be measured
    std::optional<double> ppm_below{}; ///< that they are stated to be below, if a number is
    bool is_ppm_undetected = false;    ///< stated as below the detection limit, without a number
    std::string named{};               ///< what the user's table calls a peak of the sample
    std::string unretained{}; ///< why a peak counts as that of the hold-up time; empty: it does not
    PeakShape shape{};
    std::shared_ptr<const RecordedTrace> trace{}; ///< that the peak was found in
    std::optional<PlatePlace> plate{};            ///< of a spot that was read with a ruler
    std::optional<PairedPeak> pair{};             ///< of a run on two columns
    FurtherEvidence further{};                    ///< beside retention
    std::vector<std::string> warnings;
};

/// A spot or peak that is known to be a compound, on the plate or in the run of some features.
struct RunStandard {
    std::string compound; ///< its name
    std::string name;     ///< of the spot or peak
    std::string lane;     ///< of a plate
    std::string run;      ///< as of features; empty: beside all of them
    FeatureObservation observation;
    std::optional<double> retention_time_min{};
    std::optional<double> area{}; ///< of a peak, any unit
    std::optional<double> ppm{};  ///< of a peak: mg added to a kg of the sample
    std::string name_column{};    ///< in which the input names the compound
};

/// What a lane with sample and standard shows.
enum class CoSpotFinding {
    one_spot,
    two_spots,
    sample_missing,  ///< its own spot is not there, so nothing can be judged
    standard_missing ///< one spot, but the standard ran elsewhere on its own lane
};

/// Sample and standard on one lane of a plate: do they run as one spot or as two?
struct CoSpot {
    std::string lane;
    std::string sample;       ///< its label
    std::string standard;     ///< name of the compound
    double distance_mm = 0.0; ///< of the spot that may be both
    double apart_mm = 0.0;    ///< of two spots, or of the one and the missing standard; else 0
    CoSpotFinding finding = CoSpotFinding::one_spot;
    bool is_noted_rf = false; ///< R_F was noted: distances are on a front of `front_mm`
    double front_mm = 0.0;
};

/// What a run tells about its own scale of time, so that another run can be laid over it.
struct RunScale {
    std::optional<quantities::Ladder> ladder;
    quantities::IndexLaw law = quantities::IndexLaw::linear; ///< of the ladder
    std::optional<double> hold_up_min;                       ///< given or estimated
    std::optional<double>
        reference_min;             ///< t_R of the reference compound, else of the declared one
    std::string assumed_reference; ///< name of the peak that nobody said to be the reference
};

/// The features of one input, with what holds for all of them.
struct FeatureSet {
    std::vector<Feature> features;
    std::vector<RunStandard> standards{};
    std::vector<CoSpot> cospots{};
    std::vector<std::string> notes{};         ///< e.g. where the hold-up time is from
    std::vector<std::string> lead{};          ///< what must be known before the answer is read
    std::map<std::string, RunScale> scales{}; ///< of chromatograms, by the names of the runs
    bool needs_attention = false;             ///< a note tells of something that should not be
};

} // namespace cospot
