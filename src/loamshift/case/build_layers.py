"""The layers below the sample: what must agree between them, the sample and each other."""

from __future__ import annotations

from itertools import pairwise

from loamshift.case.collect import Collected
from loamshift.case.fill import filled
from loamshift.case.mend import for_example
from loamshift.case.schema_soil import SoilLayer, SoilTable
from loamshift.domain.case import Bed, BedKind, LayerEntry
from loamshift.domain.message import depth, message
from loamshift.domain.message import ph as ph_of
from loamshift.domain.ph import PhReading
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values


def build_layers(
    table: SoilTable, *, sample: PhReading | None, bed: Bed, collected: Collected
) -> tuple[LayerEntry, ...]:
    """The layers below the sample, the uppermost first; faults are collected.

    Parameters
    ----------
    sample
        The reading of the sample; None where nobody read one.
    bed
        Its depth stands in where nobody said how deep the sample went.
    """
    given = [
        (number, LayerEntry(**filled(entry, LayerEntry)))
        for number, entry in enumerate(table.layer, start=1)
        if _is_whole(entry)
    ]
    for number, layer in given:
        path = f"soil.layer[{number}]"
        if layer.bottom_cm - layer.top_cm < _same_cm():
            collected.fault(
                f"{path}.bottom",
                f"{layer.bottom_cm:g} cm",
                message(
                    "case-layer-upside-down",
                    top=depth(layer.top_cm),
                    bottom=depth(layer.bottom_cm),
                    least=depth(_same_cm()),
                ),
                for_example('"60 cm"'),
            )
        elif sample is not None:
            _against_the_sample(sample, layer, path=path, bed=bed, collected=collected)
    ordered = sorted(given, key=lambda one: one[1].top_cm)
    for (above, upper), (number, lower) in pairwise(ordered):
        if lower.top_cm < upper.bottom_cm - _same_cm():
            collected.fault(
                f"soil.layer[{number}].top",
                f"{lower.top_cm:g} cm",
                message(
                    "case-layers-overlap",
                    top=depth(lower.top_cm),
                    bottom=depth(lower.bottom_cm),
                    above=above,
                    start=depth(upper.top_cm),
                    end=depth(upper.bottom_cm),
                ),
                message("case-layers-apart"),
            )
    return tuple(layer for _, layer in ordered)


def _is_whole(entry: SoilLayer) -> bool:
    return None not in (entry.top, entry.bottom, entry.ph)


def _against_the_sample(
    sample: PhReading, layer: LayerEntry, *, path: str, bed: Bed, collected: Collected
) -> None:
    """A fault where a layer tells another pH of soil that the sample holds."""
    deep_cm = sample.depth_cm or bed.depth_cm or _usual_depth_cm(bed.kind)
    same = (sample.ph, sample.method) == (layer.ph, layer.method)
    if same or layer.top_cm >= deep_cm - _same_cm():
        return
    collected.fault(
        f"{path}.top",
        f"{layer.top_cm:g} cm",
        message(
            "case-layer-in-sample",
            top=depth(layer.top_cm),
            deep=depth(deep_cm),
            layer=ph_of(layer.ph),
            sample=ph_of(sample.ph),
        ),
        message("case-layer-below-sample", deep=depth(deep_cm)),
    )


def _usual_depth_cm(kind: BedKind) -> float:
    return verdict_values()["depth_lawn_cm" if kind is BedKind.LAWN else "depth_bed_cm"]


def _same_cm() -> float:
    """Depths nearer than this are one to the column: 6 in and 15 cm [cm]."""
    return parameter_values("column")["nearest_edge_cm"]
