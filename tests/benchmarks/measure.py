"""Measuring side by side: the rivals take turns on the same brief, and only their ratios are reported.

Seconds are those of the processor, of this process and of the solvers it has started and waited for: each rival has
one thread, and a machine that others use stretches long work more than short.
"""

import gc
import resource
import statistics
import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from math import exp, log

Work = Callable[[], object]

#: Seconds added before the logarithm, so that what is over at once does not decide a mean.
SHIFT_S = 0.01


def processor_s() -> float:
    """Processor seconds so far."""
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + children.ru_utime + children.ru_stime


def seconds(work: Work) -> float:
    """Seconds of one run."""
    began = processor_s()
    work()
    return processor_s() - began


def interleaved(works: Mapping[str, Work], repetitions: int) -> dict[str, float]:
    """The median seconds of each, taken in turns after one run that does not count."""
    for work in works.values():
        work()
    runs: dict[str, list[float]] = {name: [] for name in works}
    gc.collect()
    for _ in range(repetitions):
        for name, work in works.items():
            runs[name].append(seconds(work))
    return {name: statistics.median(taken) for name, taken in runs.items()}


def mean_ratio(over: Iterable[float], under: Iterable[float]) -> float:
    """The geometric mean of ratios, brief by brief."""
    logs = [log(above / below) for above, below in zip(over, under, strict=True)]
    return exp(statistics.fmean(logs))


def shifted_mean(taken: Sequence[float], shift: float = SHIFT_S) -> float:
    """The shifted geometric mean of seconds."""
    return exp(statistics.fmean(log(each + shift) for each in taken)) - shift


def slope(sizes: Sequence[float], taken: Sequence[float]) -> float:
    """The slope of log seconds over log size, by least squares."""
    found = statistics.linear_regression([log(size) for size in sizes], [log(each) for each in taken])
    return found.slope
