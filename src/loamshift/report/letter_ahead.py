"""The amount by the forecast beside the one by the curve alone, with its reason and its chances."""

from __future__ import annotations

from loamshift.domain.answer import Answer, DoseByForecast, DoseLimit
from loamshift.report.letter_words import sentence, sentences
from loamshift.report.words import Words

_SAME_SHARE = 0.05
"""Two amounts this near are said to agree; neither is known so well."""
_HARDLY = 0.01


def by_forecast(answer: Answer, words: Words) -> str:
    """The amount by the forecast in a few sentences.

    Parameters
    ----------
    answer
        The answer [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    str
        Nothing where no forecast was made [text].
    """
    told = answer.dose.by_forecast
    band = answer.dose.sulfur_as_s_g_m2 or answer.dose.lime_as_caco3_g_m2
    if told is None or band is None:
        return ""
    because = [sentence(text, words) for text in told.because]
    if not answer.applications and _amount(told) > 0.0:
        lead = f"By the forecast the most that could go on is {words.rate(_amount(told))}."
        return sentences(lead, *because, _hardly_any(told))
    return sentences(_side_by_side(told, band.mid, words), *because, _chances(told, answer, words))


def _amount(told: DoseByForecast) -> float:
    return (told.sulfur_as_s_g_m2 or 0.0) + (told.lime_as_caco3_g_m2 or 0.0)


def _side_by_side(told: DoseByForecast, curve_g_m2: float, words: Words) -> str:
    amount, day = _amount(told), words.date(told.by)
    if amount <= 0.0:
        does = "need" if told.limited_by is DoseLimit.NONE else "should"
        return f"By the forecast nothing {does} go on."
    if told.limited_by is not DoseLimit.NONE:
        return (
            f"By the curve alone the middle is {words.rate(curve_g_m2)}; by the forecast the plan "
            f"stops at **{words.rate(amount)}**."
        )
    if abs(amount - curve_g_m2) <= _SAME_SHARE * curve_g_m2:
        return f"The forecast agrees: {words.rate(amount)} by {day}."
    return (
        f"By the curve alone the middle is {words.rate(curve_g_m2)}; by the forecast, which counts "
        f"what has reacted and what pulls the bed until {day}, it is **{words.rate(amount)}**, and "
        "the plan goes by that."
    )


def _chances(told: DoseByForecast, answer: Answer, words: Words) -> str:
    wanted = answer.wanted
    span = (
        "in the range"
        if wanted is None
        else (f"between pH {words.ph(wanted.ph_low)} and {words.ph(wanted.ph_high)}")
    )
    inside, middle = words.percent(told.share_in_range), words.ph(told.median_ph_by)
    text = (
        f"On {words.date(told.by)}, {inside} of all beds that fit what is known of this one should "
        f"lie {span}, the middle one at {middle}"
    )
    side = "below" if told.lime_as_caco3_g_m2 is None else "above"
    past = told.share_past_limit
    if past < _HARDLY:
        return f"{text}; hardly any would at some time go {side} it."
    return f"{text}; {words.percent(past)} would at some time go {side} it."


def _hardly_any(told: DoseByForecast) -> str:
    if told.share_in_range < _HARDLY:
        return "Hardly one possible bed in a hundred would come into the range."
    return f"{round(100.0 * told.share_in_range)} % of the possible beds would come into the range."
