"""Two answers held against each other: what was told, what works it out, what followed."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from cli.kept import answer_text, changed, write_case
from loamshift.case.answer import answer_from_json, answer_to_json


@pytest.fixture
def old(tmp_path: Path) -> Path:
    write_case(tmp_path / "bed.toml")
    path = tmp_path / "old.json"
    path.write_text(answer_text(), "utf-8")
    return path


def found(command, *arguments: str) -> dict:  # type: ignore[type-arg]
    result = command("compare-letters", *arguments, "--json")
    assert result.code == 0, result.err
    return json.loads(result.out)  # type: ignore[no-any-return]


def flat(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("new", ["old.json", "bed.toml", None])
def test_the_same_is_called_the_same(command, tmp_path: Path, old: Path, new: str | None) -> None:
    names = [str(tmp_path / new)] if new else []
    result = command("compare-letters", str(old), *names)
    assert result.code == 0, result.err
    assert "Nothing differs" in result.out


def test_only_an_input_changed(command, tmp_path: Path, old: Path) -> None:
    case = write_case(tmp_path / "bed.toml", ph=6.6)
    text = flat(command("compare-letters", str(old), str(case)).out)
    assert "it comes from the inputs alone" in text
    assert "soil.ph 7.2 6.6" in text and "What works it out" not in text
    changes = found(command, str(old), str(case))
    assert changes["inputs"] == [{"path": "soil.ph", "old": 7.2, "new": 6.6}]
    assert changes["makers"] == [] and changes["between"] is None
    assert changes["old"]["sulfur_as_s_g_m2"]["mid"] > changes["new"]["sulfur_as_s_g_m2"]["mid"]
    assert [row["day"] for row in changes["forecast"]]


def test_only_the_tables_changed(command, tmp_path: Path, old: Path) -> None:
    earlier = changed(old, tmp_path / "earlier.json", made_by__tables="0123456789ab")
    text = flat(command("compare-letters", str(earlier), str(old)).out)
    assert "so does every figure" in text and "another edition of the tables" in text
    assert "0123456789ab, now " in text and "Inputs that changed" not in text


def test_only_the_seed_changed(command, tmp_path: Path, old: Path) -> None:
    new = tmp_path / "seed.json"
    new.write_text(
        command(
            "advise", str(tmp_path / "bed.toml"), "--json", "--members", "20", "--seed", "7"
        ).out,
        "utf-8",
    )
    changes = found(command, str(old), str(new))
    assert changes["inputs"] == []
    assert changes["makers"] == [{"what": "seed", "old": 1, "new": 7}]
    text = flat(command("compare-letters", str(old), str(new)).out)
    assert "Another random draw of simulated beds moves every figure a little" in text


def test_a_case_answered_now_uses_its_readings_as_the_older_answer_did(
    command, monkeypatch, old: Path, tmp_path: Path
) -> None:
    from loamshift.services import advise as door

    asked = []

    def watched(case, *, look_ahead=None):  # type: ignore[no-untyped-def]
        asked.append(look_ahead)
        return answer_from_json(old.read_text("utf-8"))

    monkeypatch.setattr(door, "advise", watched)
    scale = {"lo90": 0.5, "mid": 1.0, "hi90": 2.0}
    refit = {
        "used": False, "readings": 2, "acid_scale": {"prior": scale, "now": scale},
        "effective_members": 40.0, "doubted": [], "words": "",
    }  # fmt: skip
    without = changed(old, tmp_path / "without.json", refit=refit)
    for answer in (old, without):
        assert command("compare-letters", str(answer)).code == 0
    assert [one.refit for one in asked] == [True, False]
    made = json.loads(old.read_text("utf-8"))["made_by"]
    assert [one.members for one in asked] == [made["members"]] * 2


def test_both_changed_and_the_middle_tells_them_apart(command, tmp_path: Path, old: Path) -> None:
    earlier = changed(
        old,
        tmp_path / "earlier.json",
        made_by__tables="0123456789ab",
        dose__sulfur_as_s_g_m2={"lo90": 1.0, "mid": 2.0, "hi90": 3.0},
    )
    case = write_case(tmp_path / "bed.toml", ph=6.6)
    changes = found(command, str(earlier), str(case))
    then = json.loads(old.read_text("utf-8"))["dose"]["sulfur_as_s_g_m2"]
    assert changes["between"]["sulfur_as_s_g_m2"] == then
    text = flat(command("compare-letters", str(earlier), str(case)).out)
    assert "Same case, now" in text and "What changes after it comes from the inputs" in text


def test_an_answer_that_keeps_no_case_is_compared_as_far_as_it_goes(
    command, tmp_path: Path, old: Path
) -> None:
    bare = changed(old, tmp_path / "bare.json", case=None, letter=None)
    case = write_case(tmp_path / "bed.toml", ph=6.6)
    assert found(command, str(bare), str(case))["inputs"] is None
    assert "has no case with it" in flat(command("compare-letters", str(bare), str(case)).out)
    alone = command("compare-letters", str(bare))
    assert alone.code == 1 and "contains no case" in alone.err


def test_another_decision_gives_both_reasons(command, tmp_path: Path, old: Path) -> None:
    case = write_case(tmp_path / "bed.toml", ph=4.9)
    text = flat(command("compare-letters", str(old), str(case)).out)
    assert "changes from “with effort” to “leave alone”" in text or "changes from" in text
    assert "Then: " in text and "Now: " in text


def test_care_gained_and_lost(command, tmp_path: Path, old: Path) -> None:
    plain = json.loads(old.read_text("utf-8"))
    assert plain["cautions"]
    bare = changed(old, tmp_path / "bare.json", cautions=[])
    assert "New precautions" in command("compare-letters", str(bare), str(old)).out
    assert "Precautions no longer needed" in command("compare-letters", str(old), str(bare)).out
    codes = [caution["code"] for caution in plain["cautions"]]
    lost = found(command, str(old), str(bare))["cautions_lost"]
    assert [caution["code"] for caution in lost] == codes


def test_us_readers_get_their_units(command, tmp_path: Path, old: Path) -> None:
    case = tmp_path / "bed.toml"
    case.write_text(case.read_text("utf-8").replace("20 m2", "25 m2"), "utf-8")
    text = flat(command("compare-letters", str(old), str(case), "--units", "us").out)
    assert "bed.area 215 sq ft 269 sq ft" in text
    assert "sulphur" not in text


@pytest.mark.parametrize("kept", [5, [], {"soil": 3, "x": [[{}]]}, {"applied": [{}] * 3000}])
def test_a_kept_case_made_by_hand_never_stops_the_comparison(
    command, tmp_path: Path, old: Path, kept: object
) -> None:
    odd = changed(old, tmp_path / "odd.json", case=kept)
    result = command("compare-letters", str(odd), str(old))
    assert result.code == 0 and len(result.out) < 20_000


def test_an_answer_may_have_any_name(command, tmp_path: Path, old: Path) -> None:
    other = old.rename(tmp_path / "spring")
    assert "Nothing differs" in command("compare-letters", str(other)).out
    assert command("reprint", str(other)).code == 0


def test_today_is_for_a_case_answered_now(command, tmp_path: Path, old: Path) -> None:
    assert command("compare-letters", str(old), str(old), "--today", "2026-05-01").code == 2
    changes = found(command, str(old), "--today", "2026-05-01")
    assert {"path": "today", "old": "2026-04-12", "new": "2026-05-01"} in changes["inputs"]


def test_an_answer_of_before_compares_with_one_of_now(command, tmp_path: Path, old: Path) -> None:
    plain = json.loads(old.read_text("utf-8"))
    for key in ("case", "letter", "wanted", "soil_temperature"):
        plain.pop(key, None)
    before = tmp_path / "before.json"
    before.write_text(json.dumps(plain), "utf-8")
    assert answer_to_json(answer_from_json(before.read_text("utf-8")))
    assert command("compare-letters", str(before), str(old)).code == 0
