"""A picture as an object: a notebook shows it, and it can be saved."""

from __future__ import annotations

from dataclasses import dataclass
from os import PathLike
from pathlib import Path

from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import WordedError
from loamshift.python.reader import worded_errors


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing as SVG, with the sentence that says the same.

    A notebook shows it by itself; ``save`` writes it as ``.svg`` or ``.png``.
    """

    svg: str
    sentence: str

    def png(self, *, scale: float = 2.0) -> bytes:
        """The picture in dots.

        Parameters
        ----------
        scale
            Dots per pixel, above 0 [1].

        Returns
        -------
        bytes
            The file [bytes].

        Raises
        ------
        InputError
            Where the part that makes PNG is not installed; it names the line to install it.
        """
        from loamshift.report.chart_png import png_of

        with worded_errors():
            return png_of(self.svg, scale=scale)

    def save(self, path: str | PathLike[str]) -> Path:
        """Write the picture to a file, by the ending of its name.

        Parameters
        ----------
        path
            A name ending in ``.svg`` or ``.png`` [path].

        Returns
        -------
        Path
            The file [path].

        Raises
        ------
        InputError
            For another ending, or where PNG needs a part that is not installed.
        """
        file = Path(path)
        ending = file.suffix.casefold()
        if ending == ".svg":
            file.write_text(f"{self.svg}\n", encoding="utf-8")
        elif ending == ".png":
            file.write_bytes(self.png())
        else:
            with worded_errors():
                raise WordedError(message("python-picture-ending", path=Given(str(file))))
        return file

    def _repr_svg_(self) -> str:
        return self.svg

    def __repr__(self) -> str:
        return f"<Picture: {self.sentence}>"
