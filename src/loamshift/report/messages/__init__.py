"""Every sentence that people read, by key and language, and the one place that words them.

The words stand in ``<language>/*.ftl`` beside this file, in Project Fluent's format: a key, an
equals sign, and a text with the values that belong in it. ``en`` is British English; ``en-US``
holds what an American says in other words, and the rest is respelt from ``en``.
"""

from loamshift.report.messages.say import can_say as can_say
from loamshift.report.messages.say import say as say
from loamshift.report.messages.say import say_each as say_each
from loamshift.report.messages.say import say_sentence as say_sentence
