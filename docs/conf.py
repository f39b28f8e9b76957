"""Sphinx settings of the documentation; ``tools/docs.py`` builds it."""

from __future__ import annotations

import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE / "_loam"))

from loamshift import __version__  # noqa: E402

project = "loamshift"
author = "The loamshift authors"
copyright = "The loamshift authors, Apache-2.0"
release = version = __version__
language = "en"

extensions = ["myst_nb", "sphinx.ext.autodoc", "sphinx.ext.napoleon", "loam_pages"]
source_suffix = {".md": "myst-nb", ".ipynb": "myst-nb"}
nb_execution_mode = "off"  # tools/gallery.py runs them; a page shows what is kept
nb_merge_streams = True
exclude_patterns = ["_loam"]
nitpicky = True
nitpick_ignore_regex = [("py:.*", ".*")]  # docstrings name neighbours that are not on the page
smartquotes_action = "D"

myst_enable_extensions = ["dollarmath", "deflist"]
myst_heading_anchors = 3
myst_dmath_double_inline = False
myst_links_external_new_tab = False

autodoc_member_order = "bysource"
autodoc_typehints = "none"
napoleon_google_docstring = False
napoleon_use_param = False
napoleon_use_rtype = False

html_theme = "theme"
html_theme_path = [str(HERE / "_loam")]
html_title = "loamshift"
html_math_renderer = "mathml"
html_copy_source = False
html_show_sourcelink = False
html_show_sphinx = False
html_show_search_summary = False  # excerpts.js shows excerpts without fetching a page
html_use_index = False
html_domain_indices = False
html_permalinks_icon = "§"
pygments_style = "loam_pages.Ink"
highlight_language = "none"
