from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from loamshift.core.carbonate import calcite_solution, rain_ph
from loamshift.core.equilibrium import CarbonateParameters
from loamshift.core.irrigation import water_acid_mmolc_l
from loamshift.tables.parameters import parameter_values
from tries import tries

P = CarbonateParameters(**parameter_values("carbonate"))
temps = st.floats(0.0, 40.0)
log_pressures = st.floats(-5.0, -0.5229)
few = tries(40)


@few
@given(temp=temps, log_p=log_pressures, step=st.floats(0.01, 1.0), gypsum=st.booleans())
def test_more_carbon_dioxide_never_raises_the_ph(
    temp: float, log_p: float, step: float, gypsum: bool
) -> None:
    less, more = 10.0 ** max(-5.0, log_p - step), 10.0**log_p
    assert rain_ph(p_co2_atm=more, temp_c=temp, params=P) <= rain_ph(
        p_co2_atm=less, temp_c=temp, params=P
    )
    low = calcite_solution(p_co2_atm=less, temp_c=temp, params=P, gypsum=gypsum)
    high = calcite_solution(p_co2_atm=more, temp_c=temp, params=P, gypsum=gypsum)
    assert high.ph <= low.ph
    assert high.alkalinity_mmolc_l >= low.alkalinity_mmolc_l


@few
@given(temp=temps, log_p=log_pressures, salt=st.floats(0.0, 100.0), gypsum=st.booleans())
def test_the_whole_range_has_a_sensible_answer(
    temp: float, log_p: float, salt: float, gypsum: bool
) -> None:
    solution = calcite_solution(
        p_co2_atm=10.0**log_p, temp_c=temp, params=P, gypsum=gypsum, cacl2_mmol_l=salt
    )
    assert 5.5 < solution.ph < 9.6
    assert solution.ca_mmol_l > salt
    assert 0.0 < solution.ionic_strength < 0.5


@few
@given(temp=temps, log_p=log_pressures, salt=st.floats(0.0, 90.0), more=st.floats(0.1, 10.0))
def test_calcium_salt_lowers_the_plateau(
    temp: float, log_p: float, salt: float, more: float
) -> None:
    fresh = calcite_solution(p_co2_atm=10.0**log_p, temp_c=temp, params=P, cacl2_mmol_l=salt)
    salty = calcite_solution(p_co2_atm=10.0**log_p, temp_c=temp, params=P, cacl2_mmol_l=salt + more)
    assert salty.ph < fresh.ph


@few
@given(
    alkalinity=st.floats(0.5, 10.0),
    start=st.floats(6.8, 8.3),
    first=st.floats(5.0, 6.5),
    second=st.floats(5.0, 6.5),
    temp=temps,
)
def test_lower_targets_take_more_acid_and_never_more_than_there_is(
    alkalinity: float, start: float, first: float, second: float, temp: float
) -> None:
    def acid(target: float) -> float:
        return water_acid_mmolc_l(
            alkalinity_mmolc_l=alkalinity,
            ph_start=start,
            ph_target=target,
            temp_c=temp,
            ionic_strength=0.005,
            params=P,
        )

    low, high = sorted((first, second))
    assert 0.0 <= acid(high) <= acid(low) <= alkalinity + 0.02
