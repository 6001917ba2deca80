"""The page behind a link that no longer opens a report: whom to ask, and no more.

It names the firm alone. What the report was about, and the link that replaced this one,
are nobody's business who holds an old link.
"""

from __future__ import annotations

from generator.website.root_files import plain_page

TITLE = "This link opens no report any longer"
REASONS = {
    "replaced": "It was replaced by a new link.",
    "withdrawn": "The report was withdrawn.",
    "over": "Its last day has passed.",
}


def gone_page(state: str, firm: str, phone: str) -> str:
    """Write the page of a link that was replaced, withdrawn, or is past its last day.

    Examples
    --------
    >>> page = gone_page("over", "Example Onlot", "555-0100")
    >>> "Its last day has passed. Ask Example Onlot, 555-0100." in page
    True
    """
    return plain_page(TITLE, f"{REASONS[state]} Ask {firm}, {phone}.")
