"""What to do about a bed that has had too much."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Decision
from loamshift.domain.letter import Block, Items, Paragraph, Section
from loamshift.report.letter_words import sentence, sentences
from loamshift.report.words import Quantity, Words


def putting_right(answer: Answer, *, words: Words) -> Section | None:
    """The rescue: where it is heading, the steps in order, and what makes it worse.

    Parameters
    ----------
    answer
        The answer [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section or None
        Nothing where there is nothing to rescue [object].
    """
    rescue = answer.rescue
    if rescue is None:
        return None
    lead = sentences(sentence(rescue.problem, words), expected_course(answer, words))
    blocks: list[Block] = [Paragraph(lead)] if lead else []
    if rescue.steps:
        steps = tuple(sentence(step, words) for step in rescue.steps)
        blocks.append(Items(steps, numbered=True))
    if rescue.lime_as_caco3_g_m2 is not None:
        blocks.append(
            Paragraph(
                words.text(
                    "To come back to the lower limit the soil takes lime, "
                    f"{words.likely(rescue.lime_as_caco3_g_m2, Quantity.RATE)}, counted as pure "
                    "calcium carbonate; give it in small steps, by a test each time."
                )
            )
        )
    if rescue.never:
        blocks.append(Paragraph("What not to do:"))
        blocks.append(Items(tuple(sentence(step, words) for step in rescue.never)))
    given_up = answer.verdict.decision is Decision.ELSEWHERE
    heading = "For the plants that stand there" if given_up else "Putting it right"
    return Section(heading, tuple(blocks))


def expected_course(answer: Answer, words: Words) -> str:
    """Where the pH of an answer's rescue [object] ends left alone; may be empty [text]."""
    if answer.rescue is None or answer.rescue.ph_expected is None:
        return ""
    expected = answer.rescue.ph_expected
    low, high = words.ph(expected.lo90), words.ph(expected.hi90)
    ends = f"near {low}" if low == high else f"between {low} and {high}"
    return f"Left alone, the pH is likely to end {ends}."
