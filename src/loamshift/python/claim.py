"""A claim settled from Python: what a material would do to a bed."""

from __future__ import annotations

from dataclasses import replace

from loamshift.case.amounts import read_amount, spread_amount
from loamshift.case.build_label import product_from_label
from loamshift.case.mend import Mend
from loamshift.domain.answer import ClaimResult
from loamshift.domain.case import Case, ClaimEntry
from loamshift.domain.letter import Letter
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError
from loamshift.errors import InputError
from loamshift.python.case_input import CaseLike, as_case
from loamshift.python.kernels import ready_for_forecast
from loamshift.python.page import sections_piece
from loamshift.python.picture import Picture
from loamshift.python.reader import Spelling, Units, worded_errors, words_of
from loamshift.report.chart import chart_svg
from loamshift.report.chart_tones import Tone
from loamshift.report.claim import claim_letter
from loamshift.report.figures.talk import claims_for_talk
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.claim.settle import settle_claim
from loamshift.tables.materials import find_material

_SEED = 1


class SettledClaim:
    """What a material would do to a bed.

    Attributes
    ----------
    result
        Acid brought and needed [mmolc/m2], their share [0-1], change of pH now and in a year.
    rate_g_m2
        The amount, spread over the bed [g/m2].
    comment
        The same in sentences [text].
    """

    def __init__(self, case: Case, result: ClaimResult, letter: Letter, words: Words) -> None:
        self.case = case
        self.result = result
        self.letter = letter
        self.words = words
        self.rate_g_m2 = case.claims[0].rate_g_m2
        self.comment = say(result.comment, words)

    def plot(self, *, width: int = 620) -> Picture:
        """Acid brought beside acid needed, in a picture of 280 or more [px]."""
        figure = claims_for_talk((self.result,), self.case, words=self.words)
        with worded_errors():
            if figure is None:
                raise WordedError(message("python-no-picture"))
        return Picture(chart_svg(figure, tone=Tone.LIGHT, width=width), figure.sentence)

    def _repr_html_(self) -> str:
        return sections_piece(self.letter.title, self.letter.subtitle, self.letter.sections)

    def __repr__(self) -> str:
        return f"<SettledClaim: {self.comment}>"


def claim(
    material: str,
    amount: str | float,
    *,
    case: CaseLike,
    label: str | None = None,
    years: int = 1,
    units: Units | None = None,
    spelling: Spelling | None = None,
) -> SettledClaim:
    """What a material really does to the pH of a bed.

    Parameters
    ----------
    material
        Its name, such as ``coffee grounds`` [text].
    amount
        A text with a unit, such as ``2 kg/m2`` or ``3 cups``; a bare number is a rate [g/m2].
    case
        The bed: a case, the path of a case file, or a dictionary with its keys [object].
    label
        Figures of a product's label, such as ``n_ammonium = 8, so3 = 22`` [text].
    years
        0 for the curve alone, without a forecast [years].
    units
        ``metric`` or ``us`` for what is written; None as the case asks [text].
    spelling
        ``uk`` or ``us``; None follows the units [text].

    Returns
    -------
    SettledClaim
        Acid brought against acid needed [mmolc/m2], and the change of pH.

    Raises
    ------
    InputError
        Where the material or amount is not understood, or the case has no soil pH.

    References
    ----------
    ``docs/how-to/settle-a-claim.md``; every material's figures carry their source.

    Examples
    --------
    >>> bed = {"soil": {"ph": 7.2, "texture": "loam"}, "aim": {"target_ph": 5.5}}
    >>> settled = claim("gypsum", "200 g/m2", case=bed, years=0)
    >>> settled.result.acid_brought_mmolc_m2
    0.0
    """
    bed = as_case(case)
    words = words_of(bed, units=units, spelling=spelling)
    with worded_errors():
        found = find_material(material) if label is None else product_from_label(material, label)
        given = f"{amount:g} g/m2" if isinstance(amount, (int, float)) else amount
        try:
            much = read_amount(given)
            spread = spread_amount(much, material=found, bed=bed.bed)
        except Mend as fault:
            raise InputError(f"amount {given!r}: {fault}") from fault
        entry = ClaimEntry(
            material=found,
            rate_g_m2=spread.rate_g_m2,
            as_given=given,
            in_household_measures=much.rough,
        )
        if years > 0:
            ready_for_forecast()
        result = settle_claim(bed, entry, seed=_SEED if years > 0 else None)
        told = replace(bed, claims=(entry,))
        letter = claim_letter(
            result, told, rate_g_m2=spread.rate_g_m2, notes=spread.notes, words=words
        )
    return SettledClaim(told, result, letter, words)
