"""The buffer curve of a soil from Python: acid for a step of pH, and the pH after acid."""

from __future__ import annotations

import warnings
from typing import Any, Final

import numpy as np
from numpy.typing import ArrayLike

from loamshift.core.buffer import acid_between_mmolc_kg, ph_after_acid
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import Given, Measure, Quantity, message, ph
from loamshift.domain.worded_error import WordedError
from loamshift.errors import ExtrapolationWarning
from loamshift.python.case_input import CaseLike, as_case, new_case
from loamshift.python.frames import Library, frame_of
from loamshift.python.picture import Picture
from loamshift.python.reader import worded_errors, words_of
from loamshift.report.chart_buffer import CurveDrawing, buffer_svg
from loamshift.report.chart_tones import Tone
from loamshift.report.messages import say
from loamshift.services.context.build_context import build_context, curve_of, require_soil

MEASURED_PH: Final = (3.0, 8.5)
"""Where titrations stand behind the curve [pH in water]."""
_DRAWN_PH: Final = (3.5, 8.5)
_POINTS: Final = 51
_ACID_ENDS: Final = 1.645
"""Standard deviations to either end of nine in ten [-]."""


class BufferCurve:
    """How strongly one soil resists a change of pH, its free carbonate left out.

    Attributes
    ----------
    clay_pct, organic_carbon_pct
        Of the soil, as given or filled in [%].
    log10_k_mean, log10_k_sd
        What is believed of the scale of the curve [log10].
    ph_water
        Where the soil stands [pH in water].
    """

    def __init__(self, context: BedContext) -> None:
        soil = require_soil(context)
        self._context = context
        self._curve = curve_of(context)
        self.clay_pct = soil.clay_pct
        self.organic_carbon_pct = soil.organic_carbon_pct
        self.log10_k_mean = soil.k.log10_k_mean
        self.log10_k_sd = soil.k.log10_k_sd
        self.ph_water = soil.ph.ph_water

    def acid_between(self, ph_from: ArrayLike, ph_to: ArrayLike) -> Any:
        """Acid that takes the soil from one pH to another, at the middle of what is believed.

        Parameters
        ----------
        ph_from, ph_to
            One number or an array of each, shapes that fit each other [pH in water].

        Returns
        -------
        float or ndarray
            Acid; negative for base [mmolc/kg].

        Raises
        ------
        OutOfRangeError
            For a pH outside 1 to 12.

        Warns
        -----
        ExtrapolationWarning
            Outside pH 3 to 8.5, where nobody measured.
        """
        _warn_outside(ph_from, ph_to)
        start, end = np.broadcast_arrays(np.asarray(ph_from, float), np.asarray(ph_to, float))
        acid = acid_between_mmolc_kg(start, end, k=10.0**self.log10_k_mean, **self._curve)
        return float(acid) if np.ndim(acid) == 0 else acid

    def ph_after(self, acid_mmolc_kg: ArrayLike, *, ph_from: float | None = None) -> Any:
        """The pH once acid has reacted.

        Parameters
        ----------
        acid_mmolc_kg
            One number or an array; negative for base [mmolc/kg].
        ph_from
            Where it starts; None for the soil's own reading [pH in water].

        Returns
        -------
        float or ndarray
            pH [pH in water].

        Raises
        ------
        OutOfRangeError
            Where the pH would leave 2 to 11.
        """
        start = self.ph_water if ph_from is None else ph_from
        acid = np.asarray(acid_mmolc_kg, dtype=np.float64)
        after = ph_after_acid(start, acid, k=10.0**self.log10_k_mean, **self._curve)
        return float(after) if np.ndim(after) == 0 else after

    def to_frame(self, *, library: Library | None = None) -> Any:
        """The curve as a table.

        Parameters
        ----------
        library
            ``pandas`` or ``polars``; None for the one that is installed [text].

        Returns
        -------
        DataFrame
            ``ph_water``, and acid from the reading to it: ``acid_lo90_mmolc_kg``,
            ``acid_mid_mmolc_kg``, ``acid_hi90_mmolc_kg`` [mmolc/kg].
        """
        path, acid, half = self._course()
        with worded_errors():
            return frame_of(
                {
                    "ph_water": path.tolist(),
                    "acid_lo90_mmolc_kg": np.minimum(acid / half, acid * half).tolist(),
                    "acid_mid_mmolc_kg": acid.tolist(),
                    "acid_hi90_mmolc_kg": np.maximum(acid / half, acid * half).tolist(),
                },
                library,
            )

    def plot(self, *, width: int = 620, dark: bool = False) -> Picture:
        """The curve as a titration is drawn: pH against acid, with nine soils in ten like it.

        Parameters
        ----------
        width
            Width, 280 or more [px].
        dark
            Whether it will be looked at on a dark page [truth].

        Returns
        -------
        Picture
            SVG that a notebook shows [object].
        """
        path, acid, half = self._course()
        words = words_of(self._context.case, units=None, spelling=None)
        down = self.ph_water - 1.0
        one = float(self.acid_between(self.ph_water, down))
        sentence = message(
            "python-curve-sentence",
            start=ph(self.ph_water),
            end=ph(down),
            acid=Measure(Quantity.ACID, one),
            low=Measure(Quantity.ACID, one / half),
            high=Measure(Quantity.ACID, one * half),
        )
        drawing = CurveDrawing(
            ph=path.tolist(),
            acid_mmolc_kg=acid.tolist(),
            spread=half,
            ph_axis=say(message("python-curve-ph"), words),
            acid_axis=say(message("python-curve-acid"), words),
        )
        said = say(sentence, words)
        tone = Tone.DARK if dark else Tone.LIGHT
        return Picture(buffer_svg(drawing, sentence=said, width=float(width), tone=tone), said)

    def _course(self) -> tuple[Any, Any, float]:
        path = np.linspace(*_DRAWN_PH, _POINTS)
        acid = self.acid_between(np.full(path.shape, self.ph_water), path)
        return path, acid, 10.0 ** (_ACID_ENDS * self.log10_k_sd)

    def _repr_html_(self) -> str:
        from loamshift.python.page import image

        picture = self.plot()
        return f'<div class="loamshift">{image(picture.svg, picture.sentence)}</div>'

    def __repr__(self) -> str:
        return (
            f"<BufferCurve: clay {self.clay_pct:g}%, organic carbon "
            f"{self.organic_carbon_pct:.2g}%, pH {self.ph_water:.1f}>"
        )


def buffer_curve(case: CaseLike | None = None, /, **soil: Any) -> BufferCurve:
    """The buffer curve of a soil.

    Parameters
    ----------
    case
        A case, the path of a case file, or a dictionary with its keys; titrations, buffer pH and
        laboratory figures in it move the curve [object].
    **soil
        Instead of a case, keys of its soil: ``ph=6.5, texture="loam", organic_matter_pct=3``
        [unit of the key].

    Returns
    -------
    BufferCurve
        Acid and pH both ways, as numbers, table and picture [object].

    Raises
    ------
    InputError
        Where the soil cannot be used, or has no pH.

    References
    ----------
    aitken-1990, curtin-rostad-1997, milne-2001, glendining-2023; ``docs/why/buffer-curve.md``.

    Examples
    --------
    >>> curve = buffer_curve(ph=7.0, texture="loam", organic_matter_pct=2.6)
    >>> round(curve.acid_between(7.0, 5.5))
    35
    """
    with worded_errors():
        if case is not None and soil:
            raise WordedError(message("python-case-or-keys"))
        read = as_case(case) if case is not None else new_case(soil=soil)
        context = build_context(read)
        if context.soil is None:
            raise WordedError(message("python-no-soil-ph", example=Given('{"ph": 6.5}')))
        return BufferCurve(context)


def _warn_outside(*values: ArrayLike) -> None:
    low, high = MEASURED_PH
    if any(bool((np.less(one, low) | np.greater(one, high)).any()) for one in values):
        said = message("python-curve-range", low=ph(low), high=ph(high))
        from loamshift.report.words import Words

        warnings.warn(say(said, Words()), ExtrapolationWarning, stacklevel=3)
