from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from loamshift.domain.answer import ForecastPh
from loamshift.domain.letter import Figure, Letter, Paragraph
from loamshift.domain.message import message
from loamshift.domain.ph import PhMethod
from loamshift.domain.score import IssuedAs, IssuedForecast, ScoredPair, ScoredReading
from loamshift.report.chart import chart_svg
from loamshift.report.chart_tones import Tone
from loamshift.report.score_pairs import COLUMNS, pair_columns, pair_rows
from loamshift.report.scores import miss, scores_letter, signed
from loamshift.report.words import Words
from loamshift.services.score.summary import score_summary

DAY = date(2025, 4, 1)


def pair(share_below: float, *, as_: IssuedAs = IssuedAs.LETTER, bed: str = "Bed") -> ScoredPair:
    flat = (5.0, 5.0)
    issued = IssuedForecast(
        key=f"{share_below}",
        title=bed,
        issued_as=as_,
        on=DAY,
        dates=(DAY, DAY + timedelta(days=700)),
        ph=ForecastPh(q05=flat, q25=flat, q50=flat, q75=flat, q95=flat),
        measured_ph=5.5,
        measured_sd=0.18,
    )
    read = ScoredReading(
        on=DAY + timedelta(days=300),
        ph=5.2,
        method=PhMethod.WATER_1_1,
        ph_water=5.2,
        ph_water_sd=0.18,
    )
    return ScoredPair(
        bed=bed,
        bed_key=bed,
        issued=issued,
        read=read,
        quantiles=(4.5, 4.8, 5.0, 5.2, 5.5),
        low=4.5,
        low50=4.8,
        middle=5.0,
        high50=5.2,
        high=5.5,
        error=0.2,
        share_below=share_below,
        crps=0.1,
        crps_stays=0.2,
    )


def letter(*pairs: ScoredPair) -> Letter:
    under = message("score-under-office")
    return scores_letter(score_summary(pairs), pairs, under=under, words=Words())


def opening(made: Letter) -> str:
    return " ".join(b.text for b in made.sections[0].blocks if isinstance(b, Paragraph))


def figures(made: Letter) -> list[Figure]:
    return [b for s in made.sections for b in s.blocks if isinstance(b, Figure)]


def test_one_pair_proves_nothing_and_draws_nothing() -> None:
    made = letter(pair(0.5))
    assert "one test proves nothing" in opening(made)
    assert "On average" not in opening(made)
    assert not figures(made)


def test_many_pairs_are_drawn_with_a_table_and_a_sentence() -> None:
    made = letter(*(pair((n + 0.5) / 30.0) for n in range(30)))
    assert "agrees with 90" in opening(made)
    (figure,) = figures(made)
    assert figure.sentence and len(figure.table.rows) == 9
    for width in (280, 320, 620):
        assert "<svg" in chart_svg(figure, tone=Tone.PRINT, width=width)


def test_hindcasts_are_always_called_so() -> None:
    assert "This is a hindcast" in opening(letter(pair(0.5, as_=IssuedAs.HINDCAST)))
    mixed = letter(pair(0.5), pair(0.4, as_=IssuedAs.HINDCAST), pair(0.3))
    assert "One of them is a hindcast" in opening(mixed)


@pytest.mark.parametrize(
    ("error_ph", "said"), [(0.3, "+0.30"), (-0.034, "−0.03"), (0.004, "0"), (-0.004, "0")]
)
def test_an_error_has_its_sign_and_two_places(error_ph: float, said: str) -> None:
    assert signed(error_ph) == said
    assert miss(0.0) == "0"


def test_rows_number_beds_and_name_nobody() -> None:
    rows = pair_rows([pair(0.2, bed="Rose"), pair(0.3, bed="Oak"), pair(0.4, bed="Rose")])
    assert sorted(row["bed"] for row in rows) == [1, 1, 2]
    assert not {"Rose", "Oak"} & {str(value) for row in rows for value in row.values()}
    assert list(pair_columns(Words())) == ["bed", *COLUMNS]


def test_the_order_of_rows_tells_nothing_of_the_office() -> None:
    pairs = [pair(0.2, bed="Rose"), pair(0.3, bed="Oak")]
    assert pair_rows(pairs) == pair_rows([replace(one) for one in reversed(pairs)])
