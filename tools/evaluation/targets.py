"""Figures of generated traces and photos beside what is wanted of them, as lines of a note."""
import dataclasses
import textwrap

from report import Note
from trial import mean

LINE = 84  # letters


@dataclasses.dataclass(frozen=True)
class Target:
    key: str  # of the trial's JSON
    text: str
    least: float | None  # both in the units of the JSON
    most: float | None
    decimals: int = 1
    factor: int = 100  # from there to `unit`
    unit: str = " %"

    def said(self, value):
        return f"{self.factor * value:.{self.decimals}f}"

    def is_met(self, value):
        return ((self.least is None or value >= self.least)
                and (self.most is None or value <= self.most))

    def wanted(self):
        if self.least is None and self.most is None:
            return ""
        if self.least is None:
            return f"at most {self.factor * self.most:g}{self.unit}"
        if self.most is None:
            return f"at least {self.factor * self.least:g}{self.unit}"
        return f"{self.factor * self.least:g} to {self.factor * self.most:g}{self.unit}"


def coverage(key, text):
    """Of what is to hold 95 %."""
    return Target(key, text, 0.93, 0.97)


def line(target, values):
    """A figure of each seed beside what is wanted."""
    span = f"{target.said(mean(values))}{target.unit}"
    if len(values) > 1:
        span += f" ({target.said(min(values))} to {target.said(max(values))})"
    return f"{target.text:<35} {span:<26} {verdict(target, values)}".rstrip()


def verdict(target, values):
    if not target.wanted():
        return ""
    missed = sum(not target.is_met(value) for value in values)
    outcome = "met" if missed == 0 else "MISSED"
    if 0 < missed < len(values):
        outcome += f" by {missed} of {len(values)} seeds"
    return f"{target.wanted()}: {outcome}"


def definitions(said):
    """What the words of a trial mean, as it says itself."""
    lines = [text for name, meaning in said.items()
             for text in textwrap.wrap(f"{name}: {meaning}", LINE, subsequent_indent="  ")]
    return Note("  what the words mean", lines, said)
