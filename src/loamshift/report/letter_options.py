"""Other materials that would bring the same, side by side."""

from __future__ import annotations

from collections.abc import Callable

from loamshift.domain.answer import Answer, Decision, Direction, Option
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, Section, Table
from loamshift.report.letter_words import material_called, sentences, whole
from loamshift.report.words import Quantity, Words

MOST_OPTIONS = 6
_SALT_WORTH_SAYING_DS_M = 0.05

_Cell = Callable[[Option], str]


def ways(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """The options as a table; columns that nobody could fill are left out.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section or None
        Nothing where there are no options [object].
    """
    options = answer.options[:MOST_OPTIONS]
    if not options:
        return None
    columns = [(Column("material"), _named(words))]
    for column, cell in _columns(case, words):
        if any(cell(option) for option in options):
            columns.append((column, cell))
    rows = tuple(tuple(cell(option) for _, cell in columns) for option in options)
    caption = _caption(answer, options)
    table = Table(tuple(column for column, _ in columns), rows, words.text(caption))
    lime = answer.dose.direction is Direction.LIME
    heading = "What brings the lime" if lime else "What brings the acid"
    if answer.verdict.decision is Decision.ELSEWHERE:
        heading = "What it would cost" if _priced(options) else "What it would take"
    return Section(heading, (table,))


def _named(words: Words) -> _Cell:
    return lambda option: material_called(option.material, words)


def _columns(case: Case, words: Words) -> list[tuple[Column, _Cell]]:
    right = Align.RIGHT
    return [
        (Column("rate", right), lambda o: words.rate(o.rate_g_m2)),
        (
            Column(f"for {whole(case)}", right),
            lambda o: "" if o.amount_g is None else words.amount(o.amount_g),
        ),
        (Column("cost", right), lambda o: "" if o.cost is None else _money(o.cost, o, words)),
        (
            Column("per mole of acid", right),
            lambda o: (
                "" if o.cost_per_mol_acid is None else _small_money(o.cost_per_mol_acid, o, words)
            ),
        ),
        (
            Column("per kg of lime value", right),
            lambda o: (
                ""
                if o.cost_per_kg_caco3_eq is None
                else _small_money(o.cost_per_kg_caco3_eq, o, words)
            ),
        ),
        (
            Column("half has worked after", right),
            lambda o: (
                ""
                if o.weeks_to_half is None
                else f"about {words.say(max(o.weeks_to_half, 1.0), Quantity.WEEKS)}"
            ),
        ),
        (
            Column("salt", right),
            lambda o: (
                ""
                if o.ec_rise_ds_m is None or o.ec_rise_ds_m < _SALT_WORTH_SAYING_DS_M
                else f"+{words.say(o.ec_rise_ds_m, Quantity.EC)}"
            ),
        ),
    ]


def _money(value: float, option: Option, words: Words) -> str:
    return words.money(value, option.currency)


def _small_money(value: float, option: Option, words: Words) -> str:
    if value >= 0.095:
        return words.money(value, option.currency)
    return f"{value:.3f}" + (f" {option.currency}" if option.currency else "")


def _priced(options: tuple[Option, ...]) -> bool:
    return any(option.cost is not None for option in options)


def _caption(answer: Answer, options: tuple[Option, ...]) -> str:
    lime = answer.dose.direction is Direction.LIME
    lead = f"Each would bring the same {'lime' if lime else 'acid'}."
    price = ""
    if any(option.cost_per_mol_acid is not None for option in options):
        price = "A mole of acid is what 16 g of sulfur makes: compare by that, not by the bag."
    elif any(option.cost_per_kg_caco3_eq is not None for option in options):
        price = "Lime value counts as pure calcium carbonate: compare by that, not by the bag."
    salt = ""
    if any((option.ec_rise_ds_m or 0.0) >= _SALT_WORTH_SAYING_DS_M for option in options):
        salt = "Salt is the rise in conductivity; sensitive roots suffer from a total of about 1."
    return sentences(lead, price, salt)
