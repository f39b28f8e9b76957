"""Names that fields suggest while somebody types: plants, places, materials, textures."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from django.http import HttpRequest, HttpResponse
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_safe


@require_safe
@cache_control(max_age=86_400, private=True)
def lists(request: HttpRequest) -> HttpResponse:
    """Every list at once, or ``?only=`` one, to be put into a page after it has been shown."""
    only = request.GET.get("only", "")
    wanted = (only,) if only in suggestions() else tuple(suggestions())
    return HttpResponse("".join(suggestions()[name] for name in wanted))


@cache
def suggestions() -> dict[str, SafeString]:
    """The lists as HTML, each under the id that fields name: ``plants``, ``places`` and so on."""
    from loamshift.tables.materials import load_materials
    from loamshift.tables.places import load_places
    from loamshift.tables.plants import load_plants
    from loamshift.tables.soils import load_textures

    named = {
        "plants": (plant.name for plant in load_plants().values()),
        "places": (place.name for place in load_places().values()),
        "materials": load_materials(),
        "textures": load_textures(),
    }
    return {name: _datalist(name, words) for name, words in named.items()}


def _datalist(name: str, words: Iterable[str]) -> SafeString:
    options = format_html_join("", '<option value="{}">', ((word,) for word in sorted(set(words))))
    return format_html('<datalist id="{}">{}</datalist>', name, options)
