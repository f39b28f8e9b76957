"""``loamshift claim``: what would it really do?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli import case_options as co
from loamshift.cli import completion
from loamshift.cli.card_forms import (
    CardHtmlOption,
    CardMarkdownOption,
    CardOpenOption,
    CardPaperOption,
    CardPdfOption,
    check_open,
    write_card,
)
from loamshift.cli.help_text import told
from loamshift.cli.letter_forms import write_all
from loamshift.cli.options import (
    JsonOption,
    Shape,
    ShapeOption,
    TodayOption,
    UnitsOption,
    WordsOption,
)

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from loamshift.case.amounts import Amount, Spread
    from loamshift.domain.answer import ClaimResult
    from loamshift.domain.card import Card
    from loamshift.domain.case import Case
    from loamshift.domain.claims_sheet import SheetLine
    from loamshift.domain.letter import Figure, Letter
    from loamshift.domain.material import Material
    from loamshift.report.words import Words

SEED = 1
"""The seed ``advise`` takes when it is given none, so that both say the same."""


def command(
    material: Annotated[
        str | None,
        typer.Argument(
            metavar="MATERIAL",
            help=told("cli-help-claim-the-material"),
            show_default=False,
            autocompletion=completion.materials,
        ),
    ] = None,
    amount: Annotated[
        str | None,
        typer.Argument(
            metavar="AMOUNT",
            help=told("cli-help-claim-the-amount"),
            show_default=False,
        ),
    ] = None,
    sheet: Annotated[
        bool,
        typer.Option("--sheet", help=told("cli-help-claim-sheet")),
    ] = False,
    label: Annotated[
        str | None,
        typer.Option(
            "--label",
            metavar="FIGURES",
            help=told("cli-help-claim-label"),
            show_default=False,
        ),
    ] = None,
    case_file: Annotated[
        Path | None,
        typer.Option(
            "--case", metavar="CASE.toml", help=told("cli-help-claim-case"), show_default=False
        ),
    ] = None,
    plant: co.PlantOption = None,
    target_ph: co.TargetOption = None,
    ph: co.PhOption = None,
    ph_method: co.MethodOption = None,
    fizz: co.FizzOption = None,
    fizz_acid: co.FizzAcidOption = None,
    texture: co.TextureOption = None,
    om: co.OmOption = None,
    kind: co.KindOption = None,
    area: co.AreaOption = None,
    depth: co.DepthOption = None,
    plants: co.PlantsOption = None,
    treated_diameter: co.DiameterOption = None,
    years: Annotated[
        int,
        typer.Option("--years", min=0, max=1, help=told("cli-help-claim-years")),
    ] = 1,
    markdown: CardMarkdownOption = None,
    html: CardHtmlOption = None,
    pdf: CardPdfOption = None,
    paper: CardPaperOption = None,
    figure: Annotated[
        Path | None,
        typer.Option(
            "--figure",
            metavar="FILE",
            help=told("cli-help-claim-figure"),
            show_default=False,
        ),
    ] = None,
    shape: ShapeOption = Shape.SLIDE,
    open_it: CardOpenOption = False,
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Check a claim: how much acid a material really adds, and what the pH does in a year.

    Give the bed as a case file, or in a few options. As a card it goes on one sheet to pin up.

    \b
    Examples:
      loamshift claim "coffee grounds" "2 kg/m2" --ph 7.2 --texture loam --target-ph 5.5
      loamshift claim "pine needles" "2 kg/m2" --case bed.toml --pdf card.pdf
      loamshift claim "Heath Feed" "50 g/m2" --label "n_ammonium = 8, so3 = 22" --case bed.toml
      loamshift claim --sheet --case bed.toml --html remedies.html
      loamshift claim --sheet --case bed.toml --figure remedies.png --shape square
    """
    from loamshift.cli.show import clock_today, misuse, read_date, say, show, words_for
    from loamshift.domain.message import message

    check_open(open_it, html=html, pdf=pdf)
    if figure is not None and figure.suffix not in (".png", ".svg"):
        raise misuse(message("cli-figure-ending"), "--figure")
    day = read_date(today, option="--today") if today is not None else clock_today()
    answers = co.given(
        aim__plant=plant,
        aim__target_ph=target_ph,
        soil__ph=ph,
        soil__ph_method=ph_method,
        soil__fizz=fizz,
        soil__fizz_acid=fizz_acid,
        soil__texture=texture,
        soil__organic_matter_pct=om,
        bed__kind=kind,
        bed__area=area,
        bed__depth=depth,
        bed__plants=plants,
        bed__treated_diameter=treated_diameter,
    )
    if case_file is not None and answers:
        raise misuse(message("cli-case-or-options"), "--case")
    if case_file is None and "soil.ph" not in answers:
        raise misuse(message("cli-which-bed"), "--case")
    if sheet == (material is not None) or (amount is None) == (material is not None):
        raise misuse(message("cli-material-or-sheet"), "MATERIAL")
    from loamshift.case.read import read_case

    case = (
        read_case(case_file, today=day)
        if case_file is not None
        else co.case_from(answers, today=day)
    )
    reader = words_for(units, words, fallback=case.units.value)
    checked = (
        _sheet(case, years=years, day=day, reader=reader)
        if material is None or amount is None
        else _claim(case, _material(material, label), amount, years=years, day=day, reader=reader)
    )
    never = (case_file,) if case_file is not None else ()
    if figure is not None:
        write_all({figure: checked.picture(figure.suffix[1:], shape)}, never=never, what="picture")
    written = write_card(
        checked.card,
        words=reader,
        markdown=markdown,
        html=html,
        pdf=pdf,
        paper=paper,
        open_it=open_it,
        never=never,
    )
    if as_json:
        say(checked.json())
    elif not written and figure is None:
        show(checked.letter())


@dataclass(frozen=True, slots=True)
class _Checked:
    """What was found, as a card, as a page for the terminal, as JSON and as a picture."""

    card: Card
    letter: Callable[[], Letter]
    json: Callable[[], str]
    figure: Callable[[], Figure | None]
    case: Case
    words: Words
    usual: bool = False
    """True for amounts that people commonly use."""

    def picture(self, ending: str, shape: Shape) -> bytes:
        """A picture for a talk, as the bytes of a file with this ending."""
        from loamshift.domain.message import message
        from loamshift.domain.worded_error import WordedError
        from loamshift.report.chart_files import chart_file
        from loamshift.report.chart_talk import ChartSize
        from loamshift.report.figures.talk import talk_source
        from loamshift.report.letter_claims import claim_place

        found = self.figure()
        if found is None:
            raise WordedError(message("claim-talk-nothing", place=claim_place(self.case)))
        source = talk_source(self.case, words=self.words, usual=self.usual)
        return chart_file(found, ending=ending, size=ChartSize(shape.value), source=source)


def _material(name: str, label: str | None) -> Material:
    if label is None:
        from loamshift.tables.materials import find_material

        return find_material(name)
    from loamshift.case.build_label import product_from_label

    return product_from_label(name, label)


def _claim(
    case: Case, found: Material, amount: str, *, years: int, day: date, reader: Words
) -> _Checked:
    from loamshift.case.amounts import read_amount, spread_amount
    from loamshift.cli.quantities import mended
    from loamshift.domain.case import ClaimEntry
    from loamshift.report.card.claim import claim_card
    from loamshift.report.claim import claim_letter
    from loamshift.report.figures.talk import claims_for_talk
    from loamshift.services.claim.settle import settle_claim

    def read(text: object) -> tuple[Amount, Spread]:
        read_in = read_amount(text)
        return read_in, spread_amount(read_in, material=found, bed=case.bed)

    much, spread = mended(read, amount, option="AMOUNT")
    rate_g_m2, notes = spread.rate_g_m2, spread.notes
    entry = ClaimEntry(
        material=found, rate_g_m2=rate_g_m2, as_given=amount, in_household_measures=much.rough
    )
    result = settle_claim(case, entry, seed=_seed(years))
    case = replace(case, claims=(entry,))
    return _Checked(
        claim_card(result, case, rate_g_m2=rate_g_m2, notes=notes, day=day, words=reader),
        lambda: claim_letter(result, case, rate_g_m2=rate_g_m2, notes=notes, words=reader),
        lambda: _json(result, reader),
        lambda: claims_for_talk((result,), case, words=reader),
        case,
        reader,
    )


def _sheet(case: Case, *, years: int, day: date, reader: Words) -> _Checked:
    from loamshift.report.card.claims_sheet import claims_sheet_card
    from loamshift.report.card.plain import card_letter
    from loamshift.report.figures.talk import sheet_for_talk
    from loamshift.services.claims_sheet import claims_sheet

    sheet = claims_sheet(case, seed=_seed(years))
    card = claims_sheet_card(sheet, day=day, words=reader)
    return _Checked(
        card,
        lambda: card_letter(card),
        lambda: _json_of_all(sheet.lines, reader),
        lambda: sheet_for_talk(sheet, words=reader),
        sheet.case,
        reader,
        usual=True,
    )


def _json(result: ClaimResult, reader: Words) -> str:
    """A result in plain data, with the messages its texts were worded from beside them."""
    import dataclasses
    import json

    from loamshift.case.said import SAID, in_words

    said: dict[str, object] = {}
    worded = in_words(result, reader, said)
    return json.dumps({**dataclasses.asdict(worded), SAID: said}, indent=2, ensure_ascii=False)


def _json_of_all(lines: tuple[SheetLine, ...], reader: Words) -> str:
    import dataclasses
    import json

    from loamshift.case.said import SAID, in_words

    said: dict[str, object] = {}
    worded = in_words(lines, reader, said)
    plain = {"remedies": [dataclasses.asdict(line) for line in worded], SAID: said}
    return json.dumps(plain, indent=2, ensure_ascii=False)


def _seed(years: int) -> int | None:
    """The seed of a forecast; none where the curve alone is asked."""
    if years == 0:
        return None
    from loamshift.cli.kernel_ready import ready_kernels

    ready_kernels()
    return SEED
