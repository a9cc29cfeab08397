"""The scoring behind tools/evaluate, against figures worked out by hand.
    evaluation_test.py FOLDER_OF_THE_EVALUATION"""
import math
import random
import sys
import unittest

sys.path.insert(0, sys.argv.pop(1))
import ceiling
import gc_labelled_runs
import hiding
import scoring
import windows
from forecast import UNLISTED, Forecast
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
