import pytest

from solver.deadline import Deadline


def test_what_is_left_shrinks_and_is_never_negative() -> None:
    deadline = Deadline.after(60.0)
    first, second = deadline.remaining_s(), deadline.remaining_s()
    assert 59.0 < second <= first <= 60.0
    assert Deadline.after(-1.0).remaining_s() == 0


@pytest.mark.parametrize("part", [0.25, 1.0])
def test_a_share_ends_earlier_and_never_later(part: float) -> None:
    deadline = Deadline.after(60.0)
    assert deadline.share(part).remaining_s() == pytest.approx(60.0 * part, abs=1.0)
    assert deadline.share(part).at_s <= deadline.at_s


def test_a_share_of_no_time_is_none() -> None:
    assert Deadline.after(60.0).share(0.0).remaining_s() == 0
    assert Deadline.after(0.0).share(0.5).remaining_s() == 0
