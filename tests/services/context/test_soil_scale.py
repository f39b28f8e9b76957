"""Every figure of a laboratory as a measurement of how strongly a soil resists."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.domain.soil import KBelief, ScaleMeasurement, UnusedFact, UnusedReason
from loamshift.services.context.build_context import build_context
from loamshift.services.context.scale_words import scale_doubt, scale_unused
from loamshift.tables.laboratory import load_buffer_ph_methods
from services.beds import bed
from tries import tries
from wording import read

PATHS = (
    "soil.buffer_ph",
    "soil.buffer_ph_method",
    "soil.lab_lime_requirement",
    "soil.exchangeable_al_cmolc_kg",
    "soil.cec_cmolc_kg",
    "soil.base_saturation_pct",
    "titration",
)

NAMED = {
    "SMP": 6.4,
    "Sikora": 6.4,
    "Mehlich": 5.9,
    "modified Mehlich": 5.9,
    "Adams-Evans": 7.5,
    "Moore-Sikora": 7.5,
    "Woodruff": 6.6,
    "Penn State acidity": 4.5,
}
"""Buffers by name with a reading that a loam of pH 5.4 may have."""


def scale(more: str, *, ph: float = 5.4, soil: str = 'texture = "loam"') -> KBelief:
    context = build_context(
        bed(f'ph = {ph!r}\nph_method = "water 1:1"\n{soil}\norganic_matter_pct = 3\n{more}')
    )
    assert context.soil is not None
    return context.soil.k


def buffer(reading: float, method: str | None = None) -> str:
    named = "" if method is None else f'\nbuffer_ph_method = "{method}"'
    return f"buffer_ph = {reading!r}{named}"


def reasons(k: KBelief) -> dict[str, UnusedReason]:
    return {fact.path: fact.reason for fact in k.unused}


FELT_LOAM_SD = 0.202
"""Of a loam felt by hand with 3 % of organic matter."""


def test_without_a_measurement_texture_and_humus_speak_alone() -> None:
    k = scale("")
    assert (k.log10_k_mean, k.log10_k_sd) == (k.prior_mean, k.prior_sd)
    assert k.log10_k_mean == 0.0
    assert k.log10_k_sd == pytest.approx(FELT_LOAM_SD, abs=0.002)
    assert k.measured == k.unused == k.contributions == ()


@pytest.mark.parametrize(("method", "reading"), NAMED.items())
def test_a_buffer_ph_by_every_named_method_narrows_the_scale(method: str, reading: float) -> None:
    k = scale(buffer(reading, method))
    assert k.log10_k_sd < 0.85 * FELT_LOAM_SD
    assert [one.path for one in k.measured] == ["soil.buffer_ph"]
    assert k.unused == ()
    assert not k.measured[0].doubted
    assert k.contributions


@pytest.mark.parametrize("method", [name for name in NAMED if name != "Penn State acidity"])
def test_a_lower_buffer_ph_is_a_soil_that_resists_more(method: str) -> None:
    reading = NAMED[method]
    assert scale(buffer(reading - 0.2, method)).log10_k_mean > (
        scale(buffer(reading, method)).log10_k_mean + 0.01
    )


def test_more_exchangeable_acidity_is_a_soil_that_resists_more() -> None:
    low, high = (scale(buffer(value, "Penn State acidity")).log10_k_mean for value in (3.5, 5.0))
    assert high > low + 0.01


def test_a_buffer_ph_has_the_error_of_its_own_method() -> None:
    methods = load_buffer_ph_methods()
    for name, key in (("SMP", "smp"), ("Mehlich", "mehlich"), ("Woodruff", "woodruff")):
        one = scale(buffer(NAMED[name], name)).measured[0]
        assert methods[key].log10_sd < one.log10_k_sd < 2.0 * methods[key].log10_sd
        assert one.method == methods[key].synonyms[0]


def test_an_unnamed_buffer_ph_hardly_moves_the_scale() -> None:
    named = scale(buffer(6.1, "Mehlich"))
    unnamed = scale(buffer(6.1))
    assert abs(unnamed.log10_k_mean) < 0.5 * abs(named.log10_k_mean)
    assert unnamed.log10_k_sd > named.log10_k_sd
    assert unnamed.measured[0].several


def test_an_acidity_that_may_be_a_buffer_ph_says_so() -> None:
    assert scale(buffer(6.3, "Penn State acidity")).measured[0].several
    assert not scale(buffer(4.5, "Penn State acidity")).measured[0].several


@pytest.mark.parametrize(
    ("ph", "reading", "method", "reason"),
    [
        (5.4, 5.3, "SMP", UnusedReason.LIKE_SOIL_PH),
        (5.4, 5.4, "Mehlich", UnusedReason.LIKE_SOIL_PH),
        (4.1, 4.5, "SMP", UnusedReason.BELOW_SENSE),
        (5.4, 6.3, "Adams-Evans", UnusedReason.BELOW_SENSE),
        (5.4, 7.6, "SMP", UnusedReason.ABOVE_SENSE),
        (5.4, 6.7, "Mehlich", UnusedReason.ABOVE_SENSE),
        (5.4, 7.1, "SMP", UnusedReason.NO_ACIDITY),
        (6.6, 6.9, "Sikora", UnusedReason.NOT_ACID),
        (5.4, 8.2, None, UnusedReason.ABOVE_SENSE),
    ],
)
def test_a_reading_that_makes_no_sense_is_named_with_its_reason(
    ph: float, reading: float, method: str | None, reason: UnusedReason
) -> None:
    k = scale(buffer(reading, method), ph=ph)
    assert k.measured == ()
    assert (k.log10_k_mean, k.log10_k_sd) == (k.prior_mean, k.prior_sd)
    assert len(k.unused) == 1
    assert k.unused[0].path == "soil.buffer_ph"
    if method is not None:
        assert k.unused[0].reason is reason
        assert k.unused[0].method


def test_a_buffer_named_without_a_reading_is_named() -> None:
    k = scale('buffer_ph_method = "SMP"')
    assert reasons(k) == {"soil.buffer_ph_method": UnusedReason.NO_READING}


def test_a_lime_figure_measures_the_scale_on_the_way_up_only() -> None:
    little, much = (scale(f'lab_lime_requirement = "{g} g/m2"') for g in (250, 900))
    assert little.log10_k_mean < much.log10_k_mean
    assert 0.7 * FELT_LOAM_SD < much.log10_k_sd < FELT_LOAM_SD
    limy = scale('lab_lime_requirement = "400 g/m2"', ph=7.6)
    assert reasons(limy) == {"soil.lab_lime_requirement": UnusedReason.NOT_ACID}
    assert limy.log10_k_mean == 0.0


def test_figures_of_one_report_count_once() -> None:
    lime = 'lab_lime_requirement = "400 g/m2"'
    named = scale(f"{lime}\n{buffer(6.4, 'SMP')}")
    assert named.log10_k_mean == scale(buffer(6.4, "SMP")).log10_k_mean
    assert reasons(named) == {"soil.lab_lime_requirement": UnusedReason.SAME_REPORT}
    unnamed = scale(f"{lime}\n{buffer(6.4)}")
    assert unnamed.log10_k_mean == scale(lime).log10_k_mean
    assert reasons(unnamed) == {"soil.buffer_ph": UnusedReason.SAME_REPORT}
    odd = scale(f"{lime}\n{buffer(7.6, 'SMP')}")
    assert odd.log10_k_mean == scale(lime).log10_k_mean
    assert reasons(odd) == {"soil.buffer_ph": UnusedReason.ABOVE_SENSE}


def test_a_figure_that_is_hard_to_believe_is_doubted_and_counts_for_less() -> None:
    k = scale('lab_lime_requirement = "3000 g/m2"')
    assert k.measured[0].doubted
    assert k.log10_k_mean < 0.4 * k.measured[0].log10_k_mean
    assert "hard to believe" in read(scale_doubt(k.measured[0]))
    assert not scale('lab_lime_requirement = "500 g/m2"').measured[0].doubted


def test_aluminium_measures_an_acid_soil() -> None:
    low, high = (scale(f"exchangeable_al_cmolc_kg = {al}", ph=4.6) for al in (1.0, 4.0))
    assert low.log10_k_mean < high.log10_k_mean
    assert high.log10_k_sd < FELT_LOAM_SD
    none = scale("exchangeable_al_cmolc_kg = 1", ph=5.8)
    assert reasons(none) == {"soil.exchangeable_al_cmolc_kg": UnusedReason.NOT_ACID}
    nothing = scale("exchangeable_al_cmolc_kg = 0", ph=4.6)
    assert reasons(nothing) == {"soil.exchangeable_al_cmolc_kg": UnusedReason.NOTHING_FOUND}


def test_exchange_capacity_moves_nothing_and_is_said_to() -> None:
    plain = scale("", soil="clay_pct = 18")
    given = scale("cec_cmolc_kg = 12\nbase_saturation_pct = 80", soil="clay_pct = 18")
    assert reasons(given) == {
        "soil.cec_cmolc_kg": UnusedReason.NOTHING_MORE,
        "soil.base_saturation_pct": UnusedReason.NOTHING_MORE,
    }
    assert (given.log10_k_mean, given.log10_k_sd) == (plain.log10_k_mean, plain.log10_k_sd)


def test_what_is_known_of_texture_and_humus_narrows_the_scale() -> None:
    measured = scale("", soil="clay_pct = 20").log10_k_sd
    felt = scale("").log10_k_sd
    carbon_unknown = build_context(bed('ph = 5.4\nph_method = "water 1:1"\ntexture = "loam"')).soil
    assert carbon_unknown is not None
    assert measured < felt < carbon_unknown.k.log10_k_sd < 0.30


def test_a_poor_sand_is_less_sure_than_a_strong_soil() -> None:
    sand = scale("", soil='texture = "sand"')
    assert scale("", soil='texture = "clay"').log10_k_sd < FELT_LOAM_SD < sand.log10_k_sd


TITRATION = "".join(
    f"[[titration]]\nacid_mmolc_kg = {acid}\nph = {ph}\n"
    for acid, ph in ((-60.0, 7.0), (0.0, 5.4), (60.0, 4.0))
)


def test_a_mix_is_measured_by_its_own_jars_only() -> None:
    case = bed(
        'ph = 5.4\nph_method = "water 1:1"\nmedium = "peat mix"\n'
        f'{buffer(6.4, "SMP")}\nlab_lime_requirement = "400 g/m2"',
        more=TITRATION,
    )
    soil = build_context(case).soil
    assert soil is not None
    assert [one.path for one in soil.k.measured] == ["titration"]
    assert set(reasons(soil.k).values()) == {UnusedReason.ORGANIC_MEDIUM}
    assert soil.k.prior_sd is not None and soil.k.log10_k_sd < soil.k.prior_sd


def test_a_titration_is_weighed_beside_a_buffer_ph() -> None:
    soils = [
        build_context(
            bed(
                'ph = 5.4\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
                + extra,
                more=TITRATION,
            )
        ).soil
        for extra in ("", buffer(6.4, "SMP"))
    ]
    one, both = (soil.k for soil in soils if soil is not None)
    assert [m.path for m in both.measured] == ["titration", "soil.buffer_ph"]
    assert both.log10_k_sd < one.log10_k_sd


def test_depth_and_density_of_the_bed_do_not_change_what_a_rate_measures() -> None:
    ks = [
        build_context(
            bed(
                'ph = 5.4\nph_method = "water 1:1"\ntexture = "loam"\n' + buffer(6.4, "SMP"),
                bed=f'area = "20 m2"\nplanted = false\ndepth = "{depth} cm"',
            )
        ).soil
        for depth in (10, 30)
    ]
    assert ks[0] is not None and ks[1] is not None
    assert ks[0].k == ks[1].k


@tries(50)
@given(
    reading=st.floats(3.0, 9.0),
    ph=st.floats(3.5, 8.5),
    method=st.sampled_from([*NAMED, None]),
    lime=st.none() | st.floats(1.0, 5000.0),
)
def test_every_figure_is_used_or_named(
    reading: float, ph: float, method: str | None, lime: float | None
) -> None:
    more = buffer(reading, method)
    if lime is not None:
        more += f'\nlab_lime_requirement = "{lime!r} g/m2"'
    k = scale(more, ph=ph)
    paths = {one.path for one in k.measured} | {fact.path for fact in k.unused}
    assert {"soil.buffer_ph"} | ({"soil.lab_lime_requirement"} if lime else set()) == paths
    assert abs(k.log10_k_mean) < 1.0
    assert 0.05 < k.log10_k_sd < 0.5
    for fact in k.unused:
        assert read(scale_unused(fact)).endswith(".")


@tries(40)
@given(
    ph=st.floats(4.2, 6.4),
    share=st.floats(0.05, 0.95),
    method=st.sampled_from(["SMP", "Mehlich", "Adams-Evans", "Woodruff"]),
)
def test_the_scale_never_jumps_with_ph_or_reading(ph: float, share: float, method: str) -> None:
    low, high = {
        "SMP": (6.5, 6.94),
        "Mehlich": (6.45, 6.6),
        "Adams-Evans": (6.9, 8.0),
        "Woodruff": (6.5, 7.0),
    }[method]
    reading = low + share * (high - low)
    here, other_ph, other_reading = (
        scale(buffer(value, method), ph=at).log10_k_mean
        for value, at in ((reading, ph), (reading, ph + 1e-3), (reading + 1e-3, ph))
    )
    assert other_ph == pytest.approx(here, abs=0.01)
    assert other_reading == pytest.approx(here, abs=0.02)


def test_near_the_end_of_a_method_its_word_fades() -> None:
    for more, ph in (
        (buffer(6.9433, "SMP"), 5.4),
        (buffer(6.4, "SMP"), 6.4999),
        ('lab_lime_requirement = "300 g/m2"', 7.3569),
        ("exchangeable_al_cmolc_kg = 1", 5.4999),
    ):
        assert abs(scale(more, ph=ph).log10_k_mean) < 0.01


@pytest.mark.parametrize("reason", list(UnusedReason))
def test_every_reason_has_a_sentence_with_its_figures(reason: UnusedReason) -> None:
    for path in PATHS:
        fact = UnusedFact(path=path, reason=reason, value=6.25, limit=6.5, method="SMP buffer")
        words = read(scale_unused(fact))
        assert words.startswith("The ") and words.endswith(".")
        assert "SMP buffer" in words
    measured = ScaleMeasurement(path="soil.buffer_ph", log10_k_mean=-0.7, log10_k_sd=0.2)
    assert "only 20% of" in read(scale_doubt(measured))
    assert "5.0 times as much" in read(scale_doubt(replace(measured, log10_k_mean=0.7)))
