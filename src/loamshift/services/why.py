"""Opening a number: what it means, its equation, what goes in, and the source of each figure."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterable, Mapping
from functools import cache
from typing import Final

from loamshift.domain.evidence import Parameter
from loamshift.domain.explanation import ExplainedFigure, Explanation
from loamshift.domain.figure_name import figure_called
from loamshift.domain.material_comment import material_comment
from loamshift.domain.message import Given, Message, choice, message, number, rate
from loamshift.domain.names import NameFault, plain_name
from loamshift.errors import InputError, TableError
from loamshift.services.explanation_entry import equations_of, paragraphs_of, title_of
from loamshift.services.explanations import ANSWER_KEYS
from loamshift.tables.materials import find_material, load_materials
from loamshift.tables.parameters import load_parameters
from loamshift.tables.references import load_references
from loamshift.tables.rules import load_caps, load_cautions

_PLACE: Final = re.compile(r"\[\d+\]|\.\d+(?=\.|$)")
"""The place of one entry in a list, ``[0]`` or ``.0``."""


class UnknownKey(InputError):
    """No number of this name; ``nearest`` lists keys like it."""

    def __init__(self, key: str, nearest: tuple[str, ...]) -> None:
        self.key = key
        self.nearest = nearest
        near = f" Did you mean {_either(nearest)}?" if nearest else ""
        first = nearest[0] if nearest else "dose.acid_mmolc_kg"
        super().__init__(
            f"Nothing called “{key}” can be opened.{near} For example: loamshift why {first}"
        )


def _either(keys: tuple[str, ...]) -> str:
    return " or ".join((", ".join(keys[:-1]), keys[-1])) if len(keys) > 1 else keys[0]


def explain(key: str) -> Explanation:
    """What stands behind a key.

    Raises
    ------
    UnknownKey
        Where nothing bears that name; it lists the nearest.
    """
    wanted = key.strip()
    for read in (_answer_key, _parameter, _topic, _caution, _cap, _material, _source):
        found = read(wanted)
        if found is not None:
            return found
    raise UnknownKey(wanted, _nearest(wanted))


def explained_keys() -> Mapping[str, tuple[str, ...]]:
    """Every key that can be opened, by kind; of parameters and materials only the stems.

    Returns
    -------
    Mapping
        Kind, as a choice of the message ``why-kinds``, to its keys in alphabetical order.
    """
    return {
        "answer-keys": tuple(sorted(ANSWER_KEYS)),
        "parameter-topics": tuple(sorted(load_parameters())),
        "cautions": tuple(sorted(load_cautions())),
        "limits": tuple(sorted(cap.key for cap in load_caps())),
        "materials": tuple(sorted(load_materials())),
    }


def _answer_key(key: str) -> Explanation | None:
    name = _PLACE.sub("", key.casefold())
    if name == "verdict" or name == "dose":
        name = {"verdict": "verdict.decision", "dose": "dose.acid_mmolc_kg"}[name]
    parts = name.split(".")
    while parts and ".".join(parts) not in ANSWER_KEYS:
        parts.pop()
    stem = ".".join(parts)
    entry = ANSWER_KEYS.get(stem)
    if entry is None or not _is_below(name, stem):
        return None
    figures = tuple(_figure(_named(name), full=True) for name in entry.figures)
    sources = (*entry.source_keys, *(figure.source_key for figure in figures))
    return Explanation(
        key=key,
        kind="answer",
        title=title_of(stem),
        text=paragraphs_of(stem, entry),
        equations=equations_of(stem, entry),
        figures=figures,
        see_also=(*entry.see_also, *entry.topics),
        source_keys=_once(sources),
    )


def _named(name: str) -> Parameter:
    topic, _, rest = name.partition(".")
    try:
        return load_parameters()[topic][rest]
    except KeyError as error:
        raise TableError(f"an explanation names the parameter {name}, which is gone") from error


_LEAVES = (
    *("lo90", "mid", "hi90", "n_sources", "low", "high", "q05", "q25", "q50", "q75", "q95"),
    *("version", "model", "tables", "seed", "members", "years"),
    *("check", "value", "operator", "limit", "unit", "passed", "severity", "comment"),
    *("field", "why", "how", "date", "material", "rate_g_m2", "amount_g", "incorporate_cm"),
    *("only_if", "cost", "currency", "cautions", "dates", "ph", "do_nothing", "problem"),
    *("ph_expected", "steps", "never", "lime_as_caco3_g_m2", "nitrogen_needed_g_m2_year"),
    *("feed", "n_g_m2_year", "rate_g_m2_year", "acid_mmolc_m2_year"),
    *("net_with_feed_mmolc_m2_year", "sulfur_as_s_g_m2_year", "lime_as_caco3_g_m2_year"),
    *("lines", "name", "net", "acid_brought_mmolc_m2", "acid_needed_mmolc_m2", "share"),
    *("ph_change_now", "ph_change_1_year", "code", "text", "source_key", "key", "citation"),
    *("short", "handling", "weather"),
    *("ph_low", "ph_high", "ph_aim", "names", "depth_cm", "c"),
    *("sulfur_as_s_g_m2", "by", "limited_by", "share_in_range", "share_past_limit"),
    *("median_ph_by", "median_in_range_on", "because", "width", "cause"),
    *("parts", "decides", "test", "reads_from", "reads_to", "part_g_m2", "then", "part_on"),
    "ph_after",
    *("samples", "cores", "core_error_ph", "mixed_error_ph", "error_ph"),
    *("best", "most", "tests", "gain", "changes", "days", "gain_per_cost", "on", "planned"),
    *("course", "plan", "stages", "come_frac", "untreated", "treated", "limit_low_ph"),
    *("limit_high_ph", "safe_on", "safe_90_on", "safe_untreated_on", "look_to"),
    *("pots", "volume_l", "medium", "mix_ph", "water_known", "ways", "place", "works"),
    *("in_range", "lasts_years", "hours", "needs", "item", "amount"),
    *("layers", "top_cm", "bottom_cm", "ph_water", "carbonate_pct", "roots", "limit_ph"),
    *("depths", "ph_today", "ph_untreated", "ph_planned", "shows_from"),
    *("share_in_range_without_tests", "share_if_known", "share_harmed", "median_ph", "acted_on"),
    *("outcome", "probability", "decision", "used", "readings", "prior", "now", "words"),
)
"""Last parts of answer keys that their stem explains."""


def _is_below(name: str, stem: str) -> bool:
    """True where what follows the stem is a part of the answer, not a misspelling."""
    rest = name[len(stem) :].strip(".")
    return all(part in _LEAVES for part in rest.split(".")) if rest else True


def _parameter(key: str) -> Explanation | None:
    topic, dot, name = key.partition(".")
    parameter = load_parameters().get(topic, {}).get(name) if dot else None
    if parameter is None:
        return None
    return Explanation(
        key=key,
        kind="parameter",
        title=_as_written(figure_called(name, parameter.unit)),
        text=_remark(parameter.note),
        figures=(_figure(parameter, full=False),),
        see_also=(topic,),
        source_keys=(parameter.source_key,),
    )


def _topic(key: str) -> Explanation | None:
    topic = load_parameters().get(key)
    if topic is None:
        return None
    return Explanation(
        key=key,
        kind="topic",
        title=message("explained-topic", topic=Given(key.replace("_", " "))),
        text=(message("explained-topic-1", n=len(topic), topic=Given(key)),),
        figures=tuple(_figure(parameter, full=False) for parameter in topic.values()),
        source_keys=_once(parameter.source_key for parameter in topic.values()),
    )


def _caution(key: str) -> Explanation | None:
    wanted = plain_name(key)
    rule = next((r for r in load_cautions().values() if plain_name(r.code) == wanted), None)
    if rule is None:
        return None
    return Explanation(
        key=rule.code,
        kind="caution",
        title=rule.label,
        text=(rule.text,),
        see_also=("cautions",),
        source_keys=(rule.source_key,),
    )


def _cap(key: str) -> Explanation | None:
    cap = next((cap for cap in load_caps() if cap.key == key.casefold()), None)
    if cap is None:
        return None
    text = [
        message(
            "explained-limit-1",
            ground=choice(cap.situation),
            limit=rate(cap.limit_g_m2),
            of=Given(cap.applies_to),
            per=Given(cap.per),
        ),
        message("explained-limit-governs", governs="yes" if cap.used else "no"),
    ]
    if cap.wait_months is not None:
        text.append(message("explained-limit-wait", months=number(cap.wait_months)))
    figure = ExplainedFigure(
        name="limit",
        value=cap.limit_g_m2,
        low=None,
        high=None,
        unit="g/m²",
        evidence=cap.evidence,
        source_key=cap.source_key,
        where=cap.where,
        note=cap.note,
    )
    return Explanation(
        key=cap.key,
        kind="limit",
        title=_as_written(cap.key.replace("-", " ")),
        text=tuple(text),
        figures=(figure,),
        see_also=("applications", "over-cap"),
        source_keys=(cap.source_key,),
    )


def _material(key: str) -> Explanation | None:
    name, dot, figure_name = key.rpartition(".")
    try:
        material = find_material(name if dot else key)
    except NameFault:
        return None
    if not dot:
        return Explanation(
            key=material.key,
            kind="material",
            title=_as_written(material.key),
            text=(
                material_comment(material),
                message("explained-material", material=Given(material.key)),
            ),
            figures=tuple(
                ExplainedFigure(
                    name=name,
                    value=f.value,
                    low=f.low,
                    high=f.high,
                    unit=f.unit,
                    evidence=f.evidence,
                    source_key=f.source_key,
                    note=f.note,
                )
                for name, f in material.figures.items()
            ),
            source_keys=_once(f.source_key for f in material.figures.values()),
        )
    figure = material.figures.get(figure_name)
    if figure is None:
        raise UnknownKey(key, tuple(f"{material.key}.{name}" for name in material.figures))
    return Explanation(
        key=f"{material.key}.{figure_name}",
        kind="material-figure",
        title=_as_written(f"{material.key}: {figure_name.replace('_', ' ')}"),
        text=_remark(figure.note),
        figures=(
            ExplainedFigure(
                name=figure_name,
                value=figure.value,
                low=figure.low,
                high=figure.high,
                unit=figure.unit,
                evidence=figure.evidence,
                source_key=figure.source_key,
            ),
        ),
        source_keys=(figure.source_key,),
    )


def _source(key: str) -> Explanation | None:
    reference = load_references().get(key.casefold())
    if reference is None:
        return None
    used = [
        f"{topic}.{name}"
        for topic, rows in load_parameters().items()
        for name, parameter in rows.items()
        if parameter.source_key == reference.key
    ]
    text = [message("explained-source-grade", grade=Given(reference.grade))]
    if used:
        text.append(message("explained-source-used", rows=Given(", ".join(used))))
    return Explanation(
        key=reference.key,
        kind="source",
        title=_as_written(reference.key),
        text=tuple(text),
        source_keys=(reference.key,),
    )


def _figure(parameter: Parameter, *, full: bool) -> ExplainedFigure:
    return ExplainedFigure(
        name=f"{parameter.topic}.{parameter.name}" if full else parameter.name,
        value=parameter.value,
        low=parameter.low,
        high=parameter.high,
        unit=parameter.unit,
        evidence=parameter.evidence,
        source_key=parameter.source_key,
        where=parameter.where,
        note=parameter.note,
    )


def _as_written(text: str) -> Message:
    """A name or a remark as it stands in the tables."""
    return message("explained-note", text=Given(text))


def _remark(note: str) -> tuple[Message, ...]:
    return (_as_written(note),) if note else ()


def _once(keys: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(key for key in keys if key))


@cache
def _all_keys() -> tuple[str, ...]:
    parameters = load_parameters()
    stems = [key for keys in explained_keys().values() for key in keys]
    named = [f"{topic}.{name}" for topic, rows in parameters.items() for name in rows]
    figures = [
        f"{key}.{name}" for key, material in load_materials().items() for name in material.figures
    ]
    return (*stems, *named, *figures, *load_references())


def _nearest(key: str) -> tuple[str, ...]:
    plain = plain_name(key)
    by_plain: dict[str, str] = {}
    for name in _all_keys():
        by_plain.setdefault(plain_name(name), name)
    inside = [name for text, name in by_plain.items() if plain and plain in text]
    near = difflib.get_close_matches(plain, by_plain, n=5, cutoff=0.6)
    pick: Callable[[str], str] = by_plain.__getitem__
    return tuple(dict.fromkeys([*map(pick, near), *inside]))[:5]
