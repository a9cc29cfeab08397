"""Probabilities that a method states for one query, the program and the baseline alike."""
import dataclasses

UNLISTED = "unlisted"
FLOOR = 1e-6  # least probability that the log loss sees


@dataclasses.dataclass
class Forecast:
    listed: dict  # compound: probability
    unlisted: float
    other: float  # of all compounds that are not listed
    others: int  # how many these are
    members: set  # the candidate set: compounds, and perhaps UNLISTED

    def of_truth(self, truths):
        """Probability given to what is true; no truths: none of the library's compounds."""
        if not truths:
            return max(FLOOR, self.unlisted)
        share = self.other / self.others if self.others > 0 else 0.0
        return max(FLOOR, sum(self.listed.get(t, share) for t in truths))

    def hit(self, truths, first):
        """Whether a truth is among the `first` best compounds; ties are in random order, so it is
        the share of orders in which it is."""
        best = max(self.listed.get(t, 0.0) for t in truths)
        if best == 0:
            return 0.0
        before = sum(p > best for p in self.listed.values())
        tied = sum(p == best for p in self.listed.values())
        return min(1.0, max(0.0, (first - before) / tied))

    def covers(self, truths):
        return bool(self.members & truths) if truths else UNLISTED in self.members

    def set_length(self):
        return len(self.members - {UNLISTED})

    def says_unlisted(self):
        return all(self.unlisted >= p for p in self.listed.values())


def from_answers(trial, answers):
    """What the program says on each query."""
    held = len(trial.compounds())
    forecasts = []
    for answer in answers:
        listed = {c["compound"]: c["probability"] for c in answer["candidates"]}
        forecasts.append(Forecast(listed, answer["unlisted"], answer["other"], held - len(listed),
                                  set(answer["set"])))
    return forecasts
