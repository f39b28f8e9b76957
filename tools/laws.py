"""Hold the letters of random cases to their laws, and compare the quick judgement with the full.

    python tools/laws.py --static 5000 --full 300 --pairs 100     count violations by law
    python tools/laws.py --agreement 2000      the six words without a forecast and with one
    python tools/laws.py --anew 300            cases of today's chance: nothing is kept, 1 if broken
    python tools/laws.py --smallest L05 591    the smallest case that still breaks the law
    python tools/laws.py --check               exit 1 if docs/laws.md is not what was stored

Each run keeps its figures in tools/laws_results.json and writes docs/laws.md from them. The cases
are those of ``tests/laws``; the same seeds give the same cases. ``--jobs 2`` uses two processes.
"""

from __future__ import annotations

import argparse
import itertools
import json
import random
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from multiprocessing import Pool
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "laws.md"
RESULTS = ROOT / "tools" / "laws_results.json"
FULL_SEEDS = 1_000_000
"""Cases with a forecast are others than those without, from this seed on."""
PAIR_SEEDS = 2_000_000
LISTED = 5
"""Seeds kept of each law that was broken [count]."""

sys.path.insert(0, str(ROOT / "tests"))

from laws.laws import LAWS, violations  # noqa: E402  (found by the line above)
from laws.pair_laws import PAIR_LAWS, Letter  # noqa: E402
from laws.random_cases import case_text, draft  # noqa: E402
from loamshift.case.answer import answer_to_json  # noqa: E402
from loamshift.case.read import parse_case  # noqa: E402
from loamshift.cli.kernel_cache import keep_kernels  # noqa: E402
from loamshift.errors import CaseError  # noqa: E402
from loamshift.services.advise import LookAhead, advise  # noqa: E402

Found = dict[str, Any]


def main(words: list[str]) -> int:
    """Run what was asked for, keep the figures and write the page."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--static", type=int, default=0, metavar="N")
    parser.add_argument("--full", type=int, default=0, metavar="N")
    parser.add_argument("--pairs", type=int, default=0, metavar="N")
    parser.add_argument("--agreement", type=int, default=0, metavar="N")
    parser.add_argument("--anew", type=int, default=0, metavar="N")
    parser.add_argument("--smallest", nargs=2, metavar=("LAW", "SEED"))
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--check", action="store_true")
    asked = parser.parse_args(words)
    keep_kernels()
    if asked.check:
        return 0 if PAGE.exists() and PAGE.read_text(encoding="utf-8") == page(stored()) else 1
    if asked.smallest:
        print(smallest(asked.smallest[0], int(asked.smallest[1])))
        return 0
    if asked.anew:
        return tried_anew(asked.anew, jobs=asked.jobs)
    kept = stored()
    runs: dict[str, tuple[Callable[[int], Found], Iterable[int]]] = {
        "static": (held_without_forecast, range(asked.static)),
        "full": (held_with_forecast, range(FULL_SEEDS, FULL_SEEDS + asked.full)),
        "pairs": (held_by_neighbours, range(PAIR_SEEDS, PAIR_SEEDS + asked.pairs)),
        "agreement": (agreed, range(FULL_SEEDS, FULL_SEEDS + asked.agreement)),
    }
    for name, (one, seeds) in runs.items():
        if getattr(asked, name):
            rows = list(run(one, seeds, jobs=asked.jobs))
            kept[name] = agreement(rows) if name == "agreement" else counted(rows)
            RESULTS.write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")
    PAGE.write_text(page(kept), encoding="utf-8")
    print(page(kept))
    return 0


def tried_anew(cases: int, *, jobs: int) -> int:
    """Hold cases that nobody tried to the laws; 1 where one is broken, with its seed."""
    first = random.SystemRandom().randrange(10_000_000, 1_000_000_000)
    print(f"seeds {first} to {first + cases - 1}")
    broken = [
        f"{key} seed {row['seed']}: {sentence}"
        for one, seeds in (
            (held_without_forecast, range(first, first + cases)),
            (held_with_forecast, range(first, first + cases // 10)),
            (held_by_neighbours, range(first, first + cases // 5)),
        )
        for row in run(one, seeds, jobs=jobs)
        for key, sentences in row["broken"].items()
        for sentence in sentences
    ]
    print("\n".join(broken) or "no law is broken")
    if broken:
        print("Add the seed to FOUND in tests/laws/test_laws.py when the law is mended.")
    return 1 if broken else 0


def run(one: Callable[[int], Found], seeds: Iterable[int], *, jobs: int) -> Iterator[Found]:
    """Each seed in turn, or in several processes."""
    if jobs < 2:
        yield from map(one, seeds)
        return
    with Pool(jobs, initializer=keep_kernels) as pool:
        yield from pool.imap(one, seeds, chunksize=4)


def held_without_forecast(seed: int) -> Found:
    """What is wrong with the letter of one case by the quick path."""
    return _held(seed, None)


def held_with_forecast(seed: int) -> Found:
    """What is wrong with the letter of one case by the full path."""
    return _held(seed, LookAhead())


def _held(seed: int, look_ahead: LookAhead | None) -> Found:
    case = parse_case(case_text(seed))
    start = time.perf_counter()
    try:
        answer = advise(case, look_ahead=look_ahead)
        answer_to_json(answer)
    except Exception as fault:
        return {"seed": seed, "seconds": 0.0, "broken": {"crash": [repr(fault)]}}
    return {
        "seed": seed,
        "seconds": time.perf_counter() - start,
        "broken": violations(case, answer),
        "decision": answer.verdict.decision.value,
    }


def held_by_neighbours(seed: int) -> Found:
    """What is wrong between a case and its neighbours."""
    near = draft(seed)
    start = time.perf_counter()
    broken: dict[str, list[str]] = {}
    tried = []
    case = parse_case(near.text())
    letter = Letter(case, advise(case))
    for key, law in PAIR_LAWS.items():
        far = law.change(near, random.Random(seed))
        if far is None:
            continue
        other = parse_case(far.text())
        tried.append(key)
        sentences = law.check(letter, Letter(other, advise(other)))
        if sentences:
            broken[key] = sentences
    return {"seed": seed, "seconds": time.perf_counter() - start, "broken": broken, "tried": tried}


def agreed(seed: int) -> Found:
    """The verdict of one case by both paths."""
    case = parse_case(case_text(seed))
    try:
        quick, full = advise(case).verdict, advise(case, look_ahead=LookAhead()).verdict
    except Exception as fault:
        return {"seed": seed, "quick": ["no answer", ""], "full": [repr(fault), ""]}
    return {
        "seed": seed,
        "quick": [quick.decision.value, str(quick.reason)],
        "full": [full.decision.value, str(full.reason)],
    }


def counted(rows: list[Found]) -> Found:
    """Figures of one run: cases, seconds, what was broken, and the slowest case."""
    broken: dict[str, list[int]] = {}
    for row in rows:
        for key in row["broken"]:
            broken.setdefault(key, []).append(row["seed"])
    slowest = max(rows, key=lambda row: float(row["seconds"]))
    return {
        "cases": len(rows),
        "seconds_each": round(sum(row["seconds"] for row in rows) / len(rows), 3),
        "slowest": {"seed": slowest["seed"], "seconds": round(slowest["seconds"], 2)},
        "broken": {key: {"n": len(s), "seeds": s[:LISTED]} for key, s in sorted(broken.items())},
        "tried": dict(Counter(itertools.chain.from_iterable(row.get("tried", ()) for row in rows))),
        "decisions": dict(Counter(row["decision"] for row in rows if "decision" in row)),
    }


def agreement(rows: list[Found]) -> Found:
    """How many verdicts are the same by both paths, and how the others differ."""
    apart = [row for row in rows if row["quick"][0] != row["full"][0]]
    pairs = Counter((*row["quick"], *row["full"]) for row in apart)
    reasons = sum(row["quick"] != row["full"] for row in rows) - len(apart)
    return {
        "cases": len(rows),
        "same": len(rows) - len(apart),
        "other_reason": reasons,
        "apart": [
            {
                "pair": list(pair),
                "n": count,
                "seeds": [row["seed"] for row in apart if (*row["quick"], *row["full"]) == pair][
                    :LISTED
                ],
            }
            for pair, count in pairs.most_common()
        ],
    }


def smallest(key: str, seed: int) -> str:
    """The case of a seed with everything left out that the broken law does not need."""
    made = draft(seed)

    def breaks(candidate: Any) -> bool:
        try:
            case = parse_case(candidate.text())
        except CaseError:
            return False
        return any(
            LAWS[key].check(case, advise(case, look_ahead=ahead))
            for ahead in ((LookAhead(),) if seed >= FULL_SEEDS else (None,))
        )

    if not breaks(made):
        return f"{key} holds for seed {seed}"
    shrunk = True
    while shrunk:
        shrunk = False
        for table in range(len(made.tables) - 1, -1, -1):
            fewer = made.copy()
            fewer.tables.pop(table)
            if breaks(fewer):
                made, shrunk = fewer, True
        for table, (_, keys) in enumerate(made.tables):
            for name in list(keys):
                fewer = made.copy()
                fewer.tables[table][1].pop(name)
                if breaks(fewer):
                    made, shrunk = fewer, True
    return made.text()


def stored() -> Found:
    """The figures of earlier runs."""
    if not RESULTS.exists():
        return {}
    kept: Found = json.loads(RESULTS.read_text(encoding="utf-8"))
    return kept


def page(kept: Found) -> str:
    """The page of the laws, with the figures of the last runs."""
    parts = [
        "# Laws of a letter",
        "<!-- Written by `python tools/laws.py` from its last runs; do not edit here. -->",
        "What must hold of every answer, whatever the case. Each law is a check of case and answer "
        "in `tests/laws`; each is broken there on purpose, by an answer doctored in one place, and "
        "must say so. The tests hold them to every example and to more than a hundred random "
        "cases; the counts below are of longer runs, by `python tools/laws.py --static 5000 "
        "--full 300 --pairs 500`.",
        "## One letter",
        _law_table(
            {key: law.sentence for key, law in sorted(LAWS.items())},
            {name: kept.get(name, {}) for name in ("static", "full")},
        ),
        *(_run_words(name, kept[name]) for name in ("static", "full") if name in kept),
        "## Two letters",
        "Neighbouring cases: the second differs from the first in one thing, a little.",
        _pair_table(kept.get("pairs", {})),
    ]
    if "pairs" in kept:
        parts.append(_run_words("pairs", kept["pairs"]))
    parts += ["## The judgement without a forecast", *_agreement_words(kept.get("agreement"))]
    return "\n\n".join(parts) + "\n"


def _law_table(sentences: dict[str, str], runs: dict[str, Found]) -> str:
    lines = ["| id | law | without a forecast | with one |", "|---|---|---|---|"]
    for key, sentence in sentences.items():
        cells = [_cell(found, key, found.get("cases")) for found in runs.values()]
        lines.append(f"| {key} | {sentence} | {' | '.join(cells)} |")
    return "\n".join(lines)


def _pair_table(found: Found) -> str:
    lines = ["| id | law | pairs |", "|---|---|---|"]
    tried = found.get("tried", {})
    for key, law in sorted(PAIR_LAWS.items()):
        lines.append(f"| {key} | {law.sentence} | {_cell(found, key, tried.get(key))} |")
    return "\n".join(lines)


def _cell(found: Found, key: str, cases: int | None) -> str:
    if not cases:
        return "not run"
    broken = found["broken"].get(key)
    if broken is None:
        return f"0 of {cases:,}"
    seeds = ", ".join(str(seed) for seed in broken["seeds"])
    return f"**{broken['n']}** of {cases:,} (seeds {seeds})"


def _run_words(name: str, found: Found) -> str:
    called = {
        "static": "Without a forecast",
        "full": "With one",
        "pairs": "Pairs, without a forecast",
    }[name]
    crashes = found["broken"].get("crash", {}).get("n", 0)
    words = (
        f"{called}: {found['cases']:,} cases, {crashes} without an answer, "
        f"{found['seconds_each']:.2f} s each, the slowest seed {found['slowest']['seed']} with "
        f"{found['slowest']['seconds']:.1f} s."
    )
    if found["decisions"]:
        listed = sorted(found["decisions"].items(), key=lambda pair: -pair[1])
        words += " Decisions: " + ", ".join(f"{word} {count:,}" for word, count in listed) + "."
    return words


def _agreement_words(found: Found | None) -> list[str]:
    if found is None:
        return ["Not compared yet: `python tools/laws.py --agreement 2000`."]
    share = 100.0 * found["same"] / found["cases"]
    head = (
        f"Of {found['cases']:,} random cases the six words agree in {found['same']:,} "
        f"({share:.1f} %); in {found['other_reason']:,} of these the reason is another. Where they "
        "differ the full judgement is right."
    )
    lines = ["| without | with | cases | seeds |", "|---|---|---|---|"]
    for row in found["apart"]:
        quick, why, full, because = row["pair"]
        seeds = ", ".join(str(seed) for seed in row["seeds"])
        lines.append(f"| {quick} ({why}) | {full} ({because}) | {row['n']} | {seeds} |")
    return [head, "\n".join(lines)]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
