"""The scoring behind tools/evaluate, against figures worked out by hand.
    evaluation_test.py FOLDER_OF_THE_EVALUATION"""
import collections
import math
import random
import sys
import unittest

sys.path.insert(0, sys.argv.pop(1))
import ceiling
import flash_columns
import gc_few_features
import gc_labelled_runs
import gc_shifted_runs
import gc_traces
import hiding
import moved_runs
import plate_photos
import scaled_times
import scoring
import simulated_plate
import targets
import tlc_exchanged_labels
import tlc_standards_beside
import trace_generator
import trace_peaks
import windows
from forecast import UNLISTED, Forecast
from program import Outcome
from trace_generator import Noise, Peak
from trial import Measurement, Query, Trial


def query(value, *truths, system="s"):
    return Query("q", "1", {system: value}, frozenset(truths))


def trial(measurements, queries, quantity="RI"):
    return Trial(quantity, [], {}, [Measurement(*m) for m in measurements], queries)


class ForecastTest(unittest.TestCase):
    said = Forecast({"a": 0.5, "b": 0.1, "c": 0.1, "d": 0.1}, 0.1, 0.1, 4, {"a", "b", UNLISTED})

    def test_takes_the_share_of_the_rest_for_what_is_not_listed(self):
        self.assertAlmostEqual(self.said.of_truth({"z"}), 0.025)
        self.assertAlmostEqual(self.said.of_truth(set()), 0.1)
        self.assertAlmostEqual(self.said.of_truth({"a", "b"}), 0.6)

    def test_never_gives_less_than_the_floor(self):
        self.assertEqual(Forecast({}, 1.0, 0.0, 3, set()).of_truth({"z"}), 1e-6)
        self.assertEqual(Forecast({"a": 0.9}, 0.1, 0.0, 0, set()).of_truth({"z"}), 1e-6)

    def test_shares_places_among_ties(self):
        self.assertEqual(self.said.hit({"a"}, 1), 1)
        self.assertAlmostEqual(self.said.hit({"c"}, 3), 2 / 3)
        self.assertEqual(self.said.hit({"c"}, 1), 0)
        self.assertEqual(self.said.hit({"z"}, 3), 0)


class ScoringTest(unittest.TestCase):
    def test_area_under_roc_counts_ties_half(self):
        # Pairs (3,2) (3,1) (2,2) (2,1): three and a half of four.
        self.assertEqual(scoring.area_under_roc([3, 2, 2, 1], [True, True, False, False]), 0.875)
        self.assertIsNone(scoring.area_under_roc([1], [True]))

    def test_calibration_error_weighs_bins_by_count_and_drops_trivial_zeros(self):
        pairs = [(0.95, True)] * 3 + [(0.95, False), (0.25, False), (0.25, True), (0.001, False)]
        table = scoring.reliability(pairs)
        self.assertEqual([row["n"] for row in table], [0, 0, 2, 0, 0, 0, 0, 0, 0, 4])
        self.assertAlmostEqual(scoring.calibration_error(table), (4 * 0.2 + 2 * 0.25) / 6)

    def test_figures(self):
        queries = [query(1, "a"), query(1, "b"), query(1)]
        said = Forecast({"a": 0.6, "b": 0.3}, 0.1, 0.0, 0, {"a", "b"})
        third = Forecast({"a": 0.2}, 0.8, 0.0, 0, {UNLISTED})
        figures = scoring.figures(queries, [said, said, third])
        self.assertEqual((figures["known"], figures["absent"]), (2, 1))
        self.assertEqual((figures["top_1"], figures["top_3"]), (0.5, 1))
        self.assertAlmostEqual(figures["set_length"], 4 / 3)
        self.assertEqual((figures["coverage"], figures["absent_to_unlisted"]), (1, 1))
        self.assertAlmostEqual(figures["log_loss"], -math.log(0.6 * 0.3 * 0.8) / 3)


    def test_counts_what_is_stated_surely(self):
        queries = [query(1, "a"), query(1, "b"), query(1, "a"), query(1)]
        sure = Forecast({"a": 0.9}, 0.1, 0.0, 0, set())
        absent = Forecast({"a": 0.05}, 0.95, 0.0, 0, set())
        doubtful = Forecast({"a": 0.89}, 0.11, 0.0, 0, set())
        figures = scoring.sure(queries, [sure, sure, doubtful, absent], 0.9)
        self.assertEqual((figures["n"], figures["right"]), (3, 2 / 3))
        self.assertEqual((figures["right_of_all"], figures["wrong_of_all"]), (0.5, 0.25))
        # What is stated of unlisted counts too, where the library does hold the truth.
        self.assertEqual(scoring.sure([query(1, "a")], [absent], 0.95)["wrong_of_all"], 1)
        self.assertIsNone(scoring.sure(queries[:1], [doubtful], 0.9)["right"])
        self.assertIsNone(scoring.sure([], [], 0.9)["right_of_all"])


class RunStatementTest(unittest.TestCase):
    said = {"r1": {"moved": True, "shift": 9.0}, "r2": {"moved": False, "shift": -1.0}}

    def test_counts_runs_without_a_statement_as_not_moved(self):
        self.assertEqual(scoring.named_moved(self.said, ["r1", "r2", "r3", "r4"]), 0.25)
        self.assertIsNone(scoring.named_moved({}, ["r1"]))

    def test_measures_shifts_where_they_are_stated(self):
        true = {"r1": 10.0, "r2": -10.0, "r3": 10.0}
        self.assertEqual(scoring.shift_error(self.said, true), 5)
        self.assertIsNone(scoring.shift_error({"r1": {"moved": True}}, true))
        self.assertIsNone(scoring.shift_error({}, true))

    def test_labels_are_doubted_by_code_and_word(self):
        words = ("label", "exchanged")
        for code, output, messages, doubted in (
                (1, "", "! wrong label?", True),
                (0, "", "! wrong label?", False),
                (2, "", "found a label", False),
                (1, "", "! too far", False),
                (1, '{"label": "x", "warnings": []}', "", False),
                (1, '{"warnings": ["c1 and c2 are exchanged"]}', "", True)):
            self.assertEqual(scoring.says(Outcome(code, output, messages), words), doubted)


class MovedRunTest(unittest.TestCase):
    asked = Trial("RI", [], {}, [], [Query(run, peak, {"s": value}, frozenset())
                                     for run, peak, value in (
                                         ("r1", "1", 100.0), ("r1", "2", 300.0),
                                         ("r2", "1", 200.0))])

    def test_knows_how_far_each_run_was_moved(self):
        longer = moved_runs.moved(self.asked, lambda _, value: 1.5 * value)
        self.assertEqual([q.values["s"] for q in longer.queries], [150, 450, 300])
        self.assertEqual(moved_runs.shifts(self.asked, longer), {"r1": 100, "r2": 100})

    def test_favours_no_direction(self):
        runs = [f"run{n:04}" for n in range(400)]
        self.assertLess(abs(sum(gc_shifted_runs.direction(run) for run in runs)), 60)
        self.assertEqual(gc_shifted_runs.by(5)("run", 100.0),
                         100 + 5 * gc_shifted_runs.direction("run"))

    def test_takes_what_is_said_of_a_run_from_any_of_its_features(self):
        said = [{}, {"run": [{"shift": 2.0, "moved": True}]}, {"run": []}]
        self.assertEqual(moved_runs.statements(self.asked, said),
                         {"r1": {"shift": 2.0, "moved": True}})

    def test_draws_few_features_and_keeps_them_as_they_become_more(self):
        features = {("r1", "1"), ("r1", "2"), ("r2", "1")}
        one, two = (gc_few_features.few(self.asked, n, features).queries for n in (1, 2))
        self.assertEqual([q.sample for q in one], ["r1", "r2"])
        self.assertEqual([q.sample for q in two], ["r1", "r1"])
        self.assertIn(one[0], two)

    def test_asks_of_systems_that_measured_compounds_twice(self):
        row = lambda system, name, smiles: {"dataset": system, "name": name, "smiles_flat": smiles}
        rows = [(row("a", "Ethanol", "CCO"), 1.0), (row("a", "ethanol", "CCO"), 1.1),
                (row("a", "an isomer", "CCO"), 5.0), (row("a", "butane", "CCCC"), 3.0),
                (row("b", "ethanol", "CCO"), 2.0)]
        self.assertEqual(scaled_times.measured_twice(rows),
                         {"a": {"CCO": [1.0, 1.1], "CCCC": [3.0]}})


class SimulatedPlateTest(unittest.TestCase):
    values = {f"c{n}": n / 20 for n in range(2, 19)}

    def test_moves_on_the_scale_of_rm(self):
        # R_M of 0.2 is lg 4, of 0.5 it is 0.
        self.assertAlmostEqual(simulated_plate.moved(0.5, math.log10(4)), 0.2)
        self.assertAlmostEqual(simulated_plate.moved(0.2, -math.log10(4)), 0.5)

    def test_keeps_standards_apart(self):
        for seed in range(20):
            chosen = simulated_plate.standards(self.values, 4, random.Random(seed), ["c7"])
            self.assertEqual((len(set(chosen)), chosen[0]), (4, "c7"))
            rf = sorted(self.values[c] for c in chosen)
            self.assertGreaterEqual(min(b - a for a, b in zip(rf, rf[1:])), 0.1 - 1e-9)

    def test_spots_the_truth_beside_the_sample_only_where_asked(self):
        asked = Query("q", "1", {"s": 0.5}, frozenset(["c4"]))
        for beside, expected in zip(tlc_standards_beside.BESIDE, (0.5, 0.2, None)):
            read, spots = tlc_standards_beside.plate(asked, {"s": self.values}, beside)
            (own,) = [s.rf for s in spots if s.label == "c4"] or [None]
            self.assertEqual(own is None, expected is None)
            if expected is not None:
                self.assertLess(abs(own - expected), 0.1)
            self.assertEqual(read.values["s"], spots[0].rf)

    def test_exchanges_two_labels(self):
        correct, exchanged = (tlc_exchanged_labels.plate(self.values, yes, random.Random(1))
                              for yes in (False, True))
        self.assertEqual({s.label for s in correct}, {s.label for s in exchanged})
        changed = [(a.label, b.label) for a, b in zip(correct, exchanged) if a.label != b.label]
        self.assertEqual(len(changed), 2)
        self.assertEqual(changed[0], changed[1][::-1])


class WindowTest(unittest.TestCase):
    def test_expects_a_line_from_another_system_where_nothing_was_measured(self):
        held = [(f"c{n}", "a", 100.0 * n) for n in range(12)]
        held += [(f"c{n}", "b", 200.0 * n + 7) for n in range(11)]
        expectation = windows.Expectation(trial(held, []))
        self.assertAlmostEqual(expectation.of("c11", "b"), 2207)
        self.assertEqual(expectation.of("c3", "b"), 607)
        self.assertIsNone(expectation.of("c3", "elsewhere"))

    def test_keeps_expected_rf_between_start_and_front(self):
        held = [(f"c{n}", "a", n / 20) for n in range(14)]
        held += [(f"c{n}", "b", n / 11) for n in range(11)]
        self.assertEqual(windows.Expectation(trial(held, [], "Rf")).of("c13", "b"), 1)

    def test_is_just_wide_enough(self):
        asked = trial([("a", "s", 100.0), ("b", "s", 110.0)],
                      [query(101.0, "a"), query(104.0, "a"), query(109.5, "b"), query(300.0)])
        needed = windows.half_widths(asked)
        self.assertEqual(windows.width_for(2 / 3, asked.queries, needed), 1)
        self.assertEqual(windows.width_for(1, asked.queries, needed), 4)
        said = windows.forecast(needed[0], 9)
        self.assertEqual(said.listed, {"a": 0.4, "b": 0.4})
        self.assertEqual(windows.forecast(needed[3], 9).unlisted, 1)


class CeilingTest(unittest.TestCase):
    def answer(self, expected):
        seen = {"system": "s", "expected": expected}
        return {"candidates": [{"compound": "a", "systems": [seen]}]}

    def test_is_one_where_noise_is_small_and_half_where_two_are_the_same(self):
        asked = trial([], [query(10.1, "a")], "k")
        for other, least, most in ((1000.0, 1, 1), (10.0, 0.5, 0.5)):
            complete = [Measurement("a", "s", 10.0), Measurement("b", "s", other)]
            share = ceiling.top_1([asked], [[self.answer(10.0)]], complete)
            self.assertTrue(least <= share <= most)

    def test_is_unknown_without_residuals(self):
        self.assertIsNone(ceiling.top_1([trial([], [query(1.0, "a")])], [[{"candidates": []}]], []))


class HidingTest(unittest.TestCase):
    measured = [Measurement(f"c{n}", system, 0.5) for n in range(9) for system in "abcd"]

    def test_hides_what_it_asks(self):
        cells = hiding.by_cell(self.measured)
        panels = hiding.panels(cells, 2, 4, random.Random(1))
        left = hiding.without(self.measured, panels)
        self.assertEqual(len(left), 18)
        held = {(m.compound, m.system) for m in left}
        for asked in hiding.queries(cells, panels):
            (truth,) = asked.truths
            self.assertEqual(len(asked.values), 2)
            self.assertFalse(held & {(truth, system) for system in asked.values})

    def test_leaves_a_third_on_new_systems(self):
        cells = hiding.by_cell(self.measured)
        hidden, queried = hiding.on_new_systems(cells, ["a"], 3, random.Random(1))
        left = hiding.without(self.measured, hidden)
        self.assertEqual(sum(m.system == "a" for m in left), 3)
        self.assertEqual(len(queried), 6)


class FlashColumnTest(unittest.TestCase):
    def run_of(self, silica_g, start, end, compound="a", eluent="5/1"):
        return flash_columns.Run(compound, eluent, silica_g, 0.5, start, end, 100.0, 0.3)

    def test_a_run_that_a_larger_column_has_too_is_misfiled(self):
        small, large = self.run_of(4, 30.5, 70.2), self.run_of(25, 30.5, 70.2)
        other = self.run_of(4, 30.5, 70.2, compound="b")
        self.assertEqual(flash_columns.misfiled([small, large, other]), {small})

    def test_trade_expects_the_hold_up_over_rf(self):
        (_, answer), = flash_columns.trade([self.run_of(4, 20, 40)])
        self.assertAlmostEqual(answer["middle_mL"], (1.7 * 4 + 8) / 0.5)
        self.assertAlmostEqual(answer["whole_high_mL"], 29.6 * (1 + 2 / math.sqrt(150)))

    def test_counts_middles_and_whole_bands(self):
        answer = {"middle_mL": 30.0, "start_mL": 25.0, "end_mL": 35.0, "middle_low_mL": 20.0,
                  "middle_high_mL": 45.0, "whole_low_mL": 15.0, "whole_high_mL": 60.0}
        runs = [self.run_of(4, 25, 35), self.run_of(4, 10, 35), self.run_of(4, 40, 80)]
        figures = flash_columns.figures([(run, answer) for run in runs])
        self.assertAlmostEqual(figures["middle_within"], 2 / 3)  # 30 and 22.5, not 60
        self.assertAlmostEqual(figures["whole_within"], 1 / 3)
        self.assertAlmostEqual(figures["median_ratio"], 1.0)
        self.assertAlmostEqual(figures["mean_factor"], 1.5)


class GeneratedTraceTest(unittest.TestCase):
    def peaks(self, *apexes):
        return [Peak(str(n), apex, 1.0, 0.1) for n, apex in enumerate(apexes)]

    def test_peak_has_the_moments_of_its_model(self):
        # Mean and variance of an exponentially modified Gaussian are mu + tau and
        # sigma^2 + tau^2: Grushka 1972, Anal. Chem. 44, 1733, from memory.
        step, tau = 0.01, trace_generator.TAILING
        points = [(n * step, trace_generator.unit_height(n * step)) for n in range(-800, 2000)]
        mean = step * math.fsum(t * y for t, y in points)
        self.assertAlmostEqual(step * math.fsum(y for _, y in points), 1, 6)
        self.assertAlmostEqual(mean, tau, 6)
        self.assertAlmostEqual(step * math.fsum((t - mean) ** 2 * y for t, y in points),
                               1 + tau ** 2, 6)
        self.assertAlmostEqual(max(points, key=lambda p: p[1])[0], trace_generator.APEX, 2)

    def test_draws_peaks_of_their_place_height_and_width(self):
        (peak,) = self.peaks(1.0)
        times = trace_generator.axis([peak], 0.001)
        values = trace_generator.total([peak], times)
        self.assertAlmostEqual(times[values.index(max(values))], 1.0, 3)
        self.assertAlmostEqual(max(values), peak.height, 3)
        self.assertAlmostEqual(0.001 * sum(y >= peak.height / 2 for y in values), 0.1, 2)

    def test_noise_has_its_deviation_and_depends_on_the_seed_only(self):
        times = [n / 100 for n in range(5000)]
        for kind in trace_generator.KINDS:
            one, same, other = (trace_generator.recorded([], times, Noise(kind, 3.0), 0.0, seed)
                                for seed in (1, 1, 2))
            self.assertEqual(one, same)
            self.assertNotEqual(one, other)
            self.assertLess(abs(math.sqrt(sum(y * y for y in one) / 5000) - 3), 0.3)

    def test_tops_rise_from_the_higher_valley(self):
        self.assertEqual(trace_peaks.tops([0, 3, 1, 2, 0, 5, 4]), [(1, 3), (3, 1), (5, 1)])

    def test_peaks_that_are_too_close_or_too_low_are_not_told_apart(self):
        # Two equal Gaussians have two maxima from 2 sigma on, 0.85 half widths: Sparrow 1916,
        # Astrophys. J. 44, 76, from memory.
        for apart, count in ((0.06, 1), (0.12, 2)):
            kinds = trace_peaks.separable(self.peaks(1.0, 1.0 + apart), 0)
            self.assertEqual(list(kinds.values()).count("maximum"), count)
        far = self.peaks(1.0, 2.0)
        for ratio, kind in ((3.1, "maximum"), (2.9, "drowned")):
            self.assertEqual(gc_traces.kinds_of(far, far[0].height / ratio), {"0": kind, "1": kind})
        rider = [Peak("a", 1.0, 1.0, 0.1), Peak("b", 1.02, 0.1, 0.1)]
        self.assertEqual(gc_traces.kinds_of(rider, 0), {"a": "maximum", "b": "too_close"})

    def test_small_rider_is_a_shoulder_in_little_noise(self):
        peaks = [Peak("a", 1.0, 1.0, 0.1), Peak("b", 1.12, 0.12, 0.1)]
        kind = lambda ratio: trace_peaks.separable(peaks, peaks[1].height / ratio).get("b")
        self.assertEqual((kind(21), kind(19)), ("shoulder", None))

    def test_matches_each_once_and_nearest_first(self):
        peaks = self.peaks(1.0, 1.06)
        self.assertEqual(trace_peaks.matched(peaks, [1.04, 9.0]), {"1": 0})
        self.assertEqual(trace_peaks.matched(peaks, [1.04, 1.045]), {"1": 1, "0": 0})
        self.assertEqual(trace_peaks.matched(peaks, [0.94]), {})
        self.assertEqual(trace_peaks.matched(peaks, [0.94], 1.0), {"0": 0})

    def test_compares_what_is_said_of_table_and_trace(self):
        said = lambda compound, probability: {
            "unlisted": 0.5, "candidates": [{"compound": compound, "probability": probability}]}
        seen = collections.defaultdict(list)
        for of_table, of_trace in ((said("a", 0.6), said("a", 0.4)),
                                   (said("a", 0.001), said("b", 0.001)), (said("b", 0.3), None)):
            gc_traces.compare(of_table, of_trace, seen)
        self.assertEqual(seen, {"same_of_all": [True, False, False], "same": [True, False],
                                "same_winner": [False, True], "same_standing": [True]})


class TargetsTest(unittest.TestCase):
    def test_says_how_many_seeds_miss_what_is_wanted(self):
        target = targets.Target("", "found", 0.95, 0.97)
        for values, said in (((0.95, 0.97), "met"), ((0.94, 0.98), "MISSED"),
                             ((0.96, 0.94), "MISSED by 1 of 2 seeds")):
            self.assertEqual(targets.verdict(target, values), f"95 to 97 %: {said}")
        self.assertEqual(targets.verdict(targets.Target("", "", None, None), [0.1]), "")
        self.assertIn("96.0 % (95.0 to 97.0)", targets.line(target, [0.95, 0.97]))


class PlatePhotosTest(unittest.TestCase):
    def test_leaves_out_what_no_seed_can_say(self):
        target = plate_photos.SPOTS[2]
        self.assertEqual(plate_photos.figure_line(target, [{"found": None}]), [])
        said, = plate_photos.figure_line(target, [{"found": None}, {"found": 0.9}])
        self.assertIn("90.0 %", said)
        self.assertIn("at least 95 %: MISSED", said)

    def test_adds_up_kinds_of_spots_over_seeds(self):
        def seed(asked, found):
            by_kind = {"at_start": {"asked_for": asked, "found": found}}
            return {"figures": {"all": {"through_true_corners": {
                "spots": {"found_by_kind": by_kind}}}}}
        note = plate_photos.kinds([seed(4, 0.5), seed(6, 1.0)])
        self.assertEqual(note.lines, ["at start     8 of 10"])


class FoldTest(unittest.TestCase):
    def test_keeps_batches_that_share_a_run_together(self):
        pairs = ("x1", "y1", "y2", "z3", "v4", "w5", "u6")
        runs = [{"dataset": batch, "sample": run} for batch, run in pairs]
        labels = [gc_labelled_runs.Label(s, "1", "c", True, 1.0, 2.0) for s in "1234567"]
        fold = gc_labelled_runs.fold_of_runs(runs, labels)
        self.assertEqual(fold["1"], fold["2"])
        self.assertEqual(len({fold[s] for s in "23456"}), 5)
        self.assertIn(fold["7"], range(5))


if __name__ == "__main__":
    unittest.main()
