from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.domain.evidence import Evidence
from loamshift.domain.ph import PhConversion, PhMethod
from loamshift.errors import InputError, OutOfRangeError
from loamshift.services.convert import convert_ph
from loamshift.tables.ph_methods import load_ph_conversions
from wording import read

TABLE = tuple(load_ph_conversions())


def row(
    method: PhMethod, to: PhMethod, *, a: float, b: float, sd: float, default: bool = False
) -> PhConversion:
    return PhConversion(
        method, to, a, b, sd, 3.0, 8.0, default, "own-judgement", Evidence.JUDGEMENT, ""
    )


OWN = (
    row(PhMethod.CACL2, PhMethod.WATER_1_2_5, a=0.6, b=1.0, sd=0.2, default=True),
    row(PhMethod.CACL2, PhMethod.WATER_1_5, a=0.7, b=1.0, sd=0.2),
    row(PhMethod.KCL, PhMethod.WATER_1_2_5, a=1.0, b=0.9, sd=0.3, default=True),
)


def test_the_default_comes_first_and_the_others_stand_beside() -> None:
    view = convert_ph(
        6.2, from_method=PhMethod.CACL2, to_method=PhMethod.WATER_1_2_5, conversions=OWN
    )
    assert [round(v.ph, 2) for v in view.views] == [6.8, 6.9]
    assert [v.default for v in view.views] == [True, False]
    assert "another ratio" in read(view.views[1].note)


def test_turned_round_the_error_is_divided_by_the_slope() -> None:
    view = convert_ph(
        6.4, from_method=PhMethod.WATER_1_2_5, to_method=PhMethod.KCL, conversions=OWN
    )
    assert view.views[0].ph == pytest.approx((6.4 - 1.0) / 0.9)
    assert view.views[0].ph_sd == pytest.approx(0.3 / 0.9)
    assert view.views[0].turned_round


def test_two_salt_methods_are_joined_through_water_and_add_their_errors() -> None:
    view = convert_ph(5.0, from_method=PhMethod.KCL, to_method=PhMethod.CACL2, conversions=OWN)
    assert len(view.views) == 1
    assert view.views[0].ph == pytest.approx(1.0 + 0.9 * 5.0 - 0.6)
    assert view.views[0].ph_sd == pytest.approx((0.3**2 + 0.2**2) ** 0.5)


def test_a_reading_outside_the_range_of_an_equation_is_marked() -> None:
    view = convert_ph(
        8.9, from_method=PhMethod.CACL2, to_method=PhMethod.WATER_1_2_5, conversions=OWN
    )
    assert not view.views[0].in_range


def test_the_shipped_table_adds_about_0_6_from_calcium_chloride_to_water() -> None:
    """0.5 to 0.8 as the New South Wales guide of 2021 prints it."""
    view = convert_ph(
        6.2, from_method=PhMethod.CACL2, to_method=PhMethod.WATER_1_2_5, conversions=TABLE
    )
    assert view.views[0].default
    assert 0.5 <= view.views[0].ph - 6.2 <= 0.8
    assert len({v.source_keys for v in view.views}) >= 3


def test_a_probe_reading_keeps_a_wide_error() -> None:
    view = convert_ph(
        6.2, from_method=PhMethod.PROBE, to_method=PhMethod.WATER_1_2_5, conversions=TABLE
    )
    assert view.views[0].ph_sd >= 0.5


@given(
    st.floats(min_value=4.0, max_value=7.5),
    st.sampled_from([m for m in PhMethod if m is not PhMethod.WATER_1_2_5]),
)
def test_there_and_back_by_the_default_is_the_same_reading(ph: float, method: PhMethod) -> None:
    there = convert_ph(ph, from_method=method, to_method=PhMethod.WATER_1_2_5, conversions=TABLE)
    first = there.views[0]
    back = convert_ph(
        first.ph, from_method=PhMethod.WATER_1_2_5, to_method=method, conversions=TABLE
    )
    assert first.default and back.views[0].default
    assert back.views[0].ph == pytest.approx(ph, abs=1e-9)


@pytest.mark.parametrize("from_method", list(PhMethod))
@pytest.mark.parametrize("to_method", list(PhMethod))
def test_every_pair_of_methods_has_one_default_and_a_positive_error(
    from_method: PhMethod, to_method: PhMethod
) -> None:
    if from_method is to_method:
        with pytest.raises(InputError, match="convert-same-method"):
            convert_ph(6.0, from_method=from_method, to_method=to_method, conversions=TABLE)
        return
    view = convert_ph(6.0, from_method=from_method, to_method=to_method, conversions=TABLE)
    assert [v.default for v in view.views].count(True) == 1
    assert view.views[0].default
    assert all(v.ph_sd > 0.0 for v in view.views)


@pytest.mark.parametrize("from_method", [m for m in PhMethod if m.is_water])
@pytest.mark.parametrize("to_method", [m for m in PhMethod if m.is_water])
def test_between_two_ratios_only_rows_of_these_two_are_shown(
    from_method: PhMethod, to_method: PhMethod
) -> None:
    if from_method is to_method:
        return
    view = convert_ph(6.5, from_method=from_method, to_method=to_method, conversions=TABLE)
    for row in view.views:
        named = {
            part.rsplit(" − ", 1)[0].rsplit(" + ", 1)[0].split(" × ")[-1].strip()
            for step in row.route.split("; ")
            for part in step.split(" = ")
        }
        assert {from_method.value, to_method.value} <= named
        assert named <= {from_method.value, to_method.value, PhMethod.WATER_1_2_5.value}
        assert "; " not in row.route or row.default


@pytest.mark.parametrize("ph", [72.0, -1.0, float("nan")])
def test_what_is_no_soil_ph_is_refused(ph: float) -> None:
    with pytest.raises(OutOfRangeError, match="convert-no-soil-ph"):
        convert_ph(ph, from_method=PhMethod.CACL2, to_method=PhMethod.KCL, conversions=TABLE)


def test_a_way_that_is_not_listed_is_said_to_be_missing() -> None:
    with pytest.raises(InputError, match="convert-no-conversion"):
        convert_ph(6.0, from_method=PhMethod.STRIP, to_method=PhMethod.KCL, conversions=OWN)
