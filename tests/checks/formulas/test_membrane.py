"""Balances along a membrane: made-up streams that add up must be found to add up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

recoveries = st.floats(0.01, 0.95)
passages = st.floats(0, 0.5)
means = st.sampled_from(["log", "arithmetic", "log_difference"])


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def reason(name, **inputs):
    return FORMULAS[name].evaluate(inputs).reason


def conductivities(feed, recovery, passage):
    """A feed, its permeate and the concentrate that closes the balance of salt."""
    permeate = feed * passage
    concentrate = (feed - recovery * permeate) / (1 - recovery)
    return {
        "feed_conductivity": feed,
        "permeate_conductivity": permeate,
        "concentrate_conductivity": concentrate,
    }


@given(st.floats(10, 5000), recoveries, passages)
def test_streams_that_add_up_leave_no_error(feed, recovery, passage):
    flows = {"feed_flow": 120, "permeate_flow": 120 * recovery, "concentrate_flow": 120 * (1 - recovery)}
    assert value("flow_balance_error", **flows) == pytest.approx(0, abs=1e-12)
    assert value("salt_balance_error", **flows, **conductivities(feed, recovery, passage)) == pytest.approx(
        0, abs=1e-12
    )


@given(st.floats(10, 5000), recoveries, passages)
def test_conductivities_alone_give_the_recovery_back(feed, recovery, passage):
    streams = conductivities(feed, recovery, passage)
    assert value("recovery_from_conductivity", **streams) == pytest.approx(recovery)
    concentrate = streams.pop("concentrate_conductivity")
    assert value("concentrate_conductivity", recovery=recovery, **streams) == pytest.approx(concentrate)
    assert value("concentration_factor", recovery=recovery, salt_passage=passage) == pytest.approx(
        concentrate / feed
    )


@given(recoveries, st.floats(0.1, 1e4))
def test_recovery_is_the_permeate_s_share_in_any_unit(recovery, feed):
    assert value(
        "recovery", permeate_flow=feed * recovery, concentrate_flow=feed * (1 - recovery)
    ) == pytest.approx(recovery)


@given(recoveries)
def test_the_means_lie_between_feed_and_concentrate_in_one_order(recovery):
    log, difference, arithmetic = (
        value("mean_feed_concentration_factor", recovery=recovery, mean=mean)
        for mean in ("log", "log_difference", "arithmetic")
    )
    assert 1 < log < difference < arithmetic < 1 / (1 - recovery)


@given(means, st.floats(0, 2e-4))
def test_the_means_are_smooth_where_nothing_is_recovered(mean, recovery):
    factor = value("mean_feed_concentration_factor", recovery=recovery, mean=mean)
    assert factor == pytest.approx(1 + recovery / 2, abs=1e-7)


@given(st.floats(10, 5000), recoveries, passages, means)
def test_passage_and_rejection_are_one_whole_and_less_passes_than_nominally(feed, recovery, passage, mean):
    given_ = {"feed_conductivity": feed, "permeate_conductivity": feed * passage}
    nominal = value("salt_passage", **given_)
    real = value("salt_passage", recovery=recovery, mean=mean, **given_)
    assert nominal == pytest.approx(passage)
    assert real <= nominal
    assert value("salt_rejection", recovery=recovery, mean=mean, **given_) == pytest.approx(1 - real)


def test_a_concentrate_below_its_feed_is_a_mix_up_and_so_is_a_permeate_above():
    given_ = {"feed_conductivity": 600, "permeate_conductivity": 14, "concentrate_conductivity": 600}
    assert reason("recovery_from_conductivity", **given_) == {"code": "concentrate_not_above_feed"}
    given_ |= {"permeate_conductivity": 600, "concentrate_conductivity": 900}
    assert reason("recovery_from_conductivity", **given_) == {"code": "permeate_not_below_feed"}


def test_without_flow_there_is_no_recovery():
    assert reason("recovery", permeate_flow=0, concentrate_flow=0) == {"code": "no_flow"}
    assert value("recovery", permeate_flow=0, concentrate_flow=3) == 0
