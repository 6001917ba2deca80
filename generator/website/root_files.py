"""What stands in the published folder beside the clients: nothing that names one.

The header files say in the words of several kinds of host what every page says itself:
no index, no referrer, nothing but our own files, no frame, no stale copy. Sources: the
W3C TAG's finding Good Practices for Capability URLs (2014), sections 5.1 to 5.3, and
RFC 9309 (robots.txt), both cited from memory.
"""

from __future__ import annotations

import json
from html import escape

MARKER = ".onlot-published"
HEADERS = {
    "X-Robots-Tag": "noindex, nofollow, noarchive",
    "Referrer-Policy": "no-referrer",
    "Content-Security-Policy": "frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
    "Strict-Transport-Security": "max-age=31536000",
    "Cache-Control": "private, no-cache",
}
NEUTRAL = "Private pages"
NOTHING_HERE = (
    "There is nothing to see on this page. If you were given a link, please use all of "
    "it."
)
_PAGE = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'">
<meta name="viewport" content="width=device-width,initial-scale=1">
<meta name="robots" content="noindex, nofollow, noarchive">
<meta name="referrer" content="no-referrer">
<title>{title}</title>
</head>
<body>
<main>
<h1>{title}</h1>
<p>{words}</p>
</main>
</body>
</html>
"""


def plain_page(title: str, words: str) -> str:
    """Write a page of one sentence or two, which loads nothing at all."""
    return _PAGE.format(title=escape(title), words=escape(words))


def root_files() -> dict[str, str]:
    """Give the text of every file of the published folder that is no client's."""
    nothing = plain_page(NEUTRAL, NOTHING_HERE)
    return {
        MARKER: "This folder is written by onlot. Put nothing of your own into it.\n",
        "index.html": nothing,
        "404.html": nothing,
        "robots.txt": "User-agent: *\nDisallow: /\n",
        "_headers": _by_path(),
        ".htaccess": _by_directive(),
        "staticwebapp.config.json": _as_json(
            {
                "globalHeaders": HEADERS,
                "responseOverrides": {"404": {"rewrite": "/404.html"}},
            }
        ),
        "vercel.json": _as_json(
            {
                "headers": [
                    {
                        "source": "/(.*)",
                        "headers": [
                            {"key": name, "value": value}
                            for name, value in HEADERS.items()
                        ],
                    }
                ]
            }
        ),
    }


def _by_path() -> str:
    lines = (f"  {name}: {value}\n" for name, value in HEADERS.items())
    return "/*\n" + "".join(lines)


def _by_directive() -> str:
    lines = (
        f'  Header always set {name} "{value}"\n' for name, value in HEADERS.items()
    )
    return (
        "Options -Indexes\nErrorDocument 404 /404.html\n"
        "<IfModule mod_headers.c>\n" + "".join(lines) + "</IfModule>\n"
    )


def _as_json(content: dict[str, object]) -> str:
    return json.dumps(content, indent=2) + "\n"
