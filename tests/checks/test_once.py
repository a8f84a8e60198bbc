"""What is made once, by however many threads."""

from concurrent.futures import ThreadPoolExecutor

from checks.once import made_once


class Sum:
    def __init__(self) -> None:
        self.made: list[str] = []

    @made_once
    def left(self) -> int:
        """The left half."""
        self.made.append("left")
        return 20

    @made_once
    def whole(self) -> int:
        self.made.append("whole")
        return self.left + 22


def test_however_many_threads_ask_it_is_made_once() -> None:
    one = Sum()
    with ThreadPoolExecutor(8) as pool:
        assert list(pool.map(lambda _: one.whole, range(40))) == [42] * 40
    assert one.made == ["whole", "left"]
    assert Sum.left.__doc__ == "The left half."


class Crossed:
    """Two things that are begun by two threads and each need what the other one is made of."""

    @made_once
    def first(self) -> str:
        return "first " + self.base

    @made_once
    def second(self) -> str:
        return "second " + self.first

    @made_once
    def base(self) -> str:
        return "base"


def test_two_threads_that_come_from_two_sides_do_not_wait_for_each_other() -> None:
    with ThreadPoolExecutor(2) as pool:
        for _ in range(50):
            one = Crossed()
            found = [pool.submit(getattr, one, name) for name in ("second", "first")]
            assert [each.result(5) for each in found] == ["second first base", "first base"]
