"""The trade's words, each with one plain sentence for the reader who is new to them."""

from __future__ import annotations

import re

from generator.pages.wording import sentence

# Meanings as the trade uses the words, common practice; the sentences are our own.
GLOSSARY = {
    "absorption area": "The ground, often stone and pipe, where the water soaks away.",
    "as-built": "A drawing of the system as it was put in.",
    "baffle": "A wall or pipe in the tank that holds back what floats.",
    "bore": "The width of the hole through a pipe.",
    "casing": "The pipe that lines a well and stands up out of the ground.",
    "cesspool": "A pit with open walls that takes raw sewage and lets it soak away.",
    "coliform": "A kind of germ that shows if waste may have got into water.",
    "design flow": "The gallons a day that the system is meant to take.",
    "distribution box": "A small box that shares the water out among several pipes.",
    "dose": "The water that a pump sends out in one run.",
    "drain-back": "Water that runs back out of the pipe when the pump stops.",
    "effluent": "The water that leaves the tank, cleared of most solids.",
    "give or take": "How far the true number may be from the one we wrote.",
    "holding tank": "A tank with no way out; all that goes in is hauled away.",
    "inlet": "Where water comes into a tank or a box.",
    "invert": "The lowest point inside a pipe, where the water runs.",
    "load test": "We run a set amount of water in and watch what the level does.",
    "locator": "A tool that finds buried pipe or a camera from above ground.",
    "mound": "A bed of sand and soil built up above the ground.",
    "nitrate": "A salt from waste or feed for crops that can harm a baby.",
    "offset joint": "A place where two pipes no longer line up.",
    "outlet device": "The part at the way out of the tank that holds back what floats.",
    "outlet invert": "The bottom of the pipe where water leaves the tank.",
    "perforation": "A hole in a pipe that lets water out into the ground.",
    "pump chamber": "A tank with a pump in it that sends the water on.",
    "riser": "A wide pipe that brings a buried cover up to the ground.",
    "sag": "A low spot in a pipe where water stands.",
    "scum": "Grease and light stuff that floats on top in the tank.",
    "seepage pit": "A deep pit where water from a tank soaks into the ground.",
    "siting distance": "How far a new system must be from a well, a line or a house.",
    "sludge": "Solids that sink and lie on the floor of the tank.",
    "standard uncertainty": "How far off a number may well be, told one way for all.",
    "tee": "A pipe shaped like a T that takes water from below what floats.",
    "tie": "A length taped from a fixed point, so that a part can be found again.",
    "too close to call": "The limit lies within what we can measure, so we do not say.",
    "trench": "A long ditch with stone and pipe, where water soaks away.",
}


def words_on(text: str) -> dict[str, str]:
    """Give the words that a page uses, with their meanings, in the order of letters.

    Examples
    --------
    >>> words_on("Sludge lay 11 in deep, and no scum.")["sludge"]
    'Solids that sink and lie on the floor of the tank.'
    """
    read = NOT_READ.sub(" ", text)
    return {
        word: meaning
        for word, meaning in GLOSSARY.items()
        if any(form.search(read) for form in STANDING[word])
    }


def explained(text: str) -> str:
    """Mark each word where it first stands under a heading, with its meaning.

    Examples
    --------
    >>> print(explained("A sag. No sag."))
    A <abbr title="A low spot in a pipe where water stands.">sag</abbr>. No sag.
    """
    marked: set[str] = set()

    def _mark(found: re.Match[str]) -> str:
        form = found["word"]
        if form is None:
            if found[0].startswith("#"):
                marked.clear()
            return found[0]
        word = WORD_OF[form]
        if word in marked:
            return form
        marked.add(word)
        return f'<abbr title="{GLOSSARY[word]}">{form}</abbr>'

    return MARKABLE.sub(_mark, text)


def _forms(word: str) -> tuple[str, ...]:
    capital, end = sentence(word), _end(word)
    return (word, capital, f"{word}{end}", f"{capital}{end}")


def _end(word: str) -> str:
    return "es" if word.endswith("ch") else "s"


def _pattern(word: str) -> str:
    """Match the four forms of a word in one go."""
    rest = re.escape(word[1:])
    return f"[{word[0]}{word[0].upper()}]{rest}(?:{_end(word)})?"


def _standing(form: str, end: str) -> re.Pattern[str]:
    """Match a form by its letters first, which is many times as fast as by its edge."""
    return re.compile(rf"{re.escape(form)}(?<!\w{re.escape(form)})(?:{end})?\b")


WORD_OF = {form: word for word in GLOSSARY for form in _forms(word)}
_ANY = "|".join(map(_pattern, sorted(GLOSSARY, key=len, reverse=True)))
STANDING = {
    word: [_standing(form, _end(word)) for form in (word, sentence(word))]
    for word in GLOSSARY
}
# What nobody reads: where links lead, tags and names of places.
NOT_READ = re.compile(r"\]\([^)]*\)|\{:[^}]*\}|<[^>]*>")
# Headings, links, names of columns, tags and names of places keep their own look.
MARKABLE = re.compile(
    r"^#.*$|^\|.*\n(?=\|[-:|]+$)|<a\b.*?</a>|<[^>]*>"
    r"|\[[^\]]*\]\([^)]*\)|\{:[^}]*\}"
    rf"|\b(?P<word>{_ANY})\b",
    re.MULTILINE,
)
