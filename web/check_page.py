"""The page where a stranger checks an export: one file, with nothing of the shop in it.

It works when saved and opened from a disk. What it runs and how it looks stand in it, each
allowed by its own SHA-256; nothing else is, and no line to anywhere.
"""

import base64
import hashlib
from dataclasses import dataclass
from pathlib import Path

from jinja2 import Environment, FileSystemLoader

from daq.says import Language
from daq.words import said

HERE = Path(__file__).parent
SCRIPTS = ("sha.js", "ed25519.js", "export.js", "page.js")
"""In this order: each uses what came before it."""

FOUND = (
    said("none-altered", rows="{rows}", head="{head}"),
    said("ledger-has-no-rows"),
    said("row-is-missing", seq="{seq}"),
    said("row-was-slipped-in", seq="{seq}", want="{want}"),
    said("row-is-altered", seq="{seq}"),
    said("row-holds-no-event", seq="{seq}"),
    said("row-out-of-place", seq="{seq}", was="{was}"),
    said("row-of-another-ledger", seq="{seq}", ledger="{ledger}"),
    said("row-misnames-evidence", seq="{seq}", found="{found}"),
    said("row-and-why", seq="{seq}", why="{why}"),
    said("row-behind-evidence", seq="{seq}"),
    said("no-line-of-an-export", line="{line}"),
    said("evidence-not-there", digest="{digest}"),
    said("evidence-is-damaged", digest="{digest}"),
    said("evidence-let-go", digest="{digest}", row="{row}"),
    said("let-go-by-none", seq="{seq}", why="{why}"),
    said("let-go-otherwise", seq="{seq}", found="{found}"),
    said("other-hash-noted", seq="{seq}", found="{found}", noted="{noted}"),
    said("later-row-noted", seq="{seq}", noted="{noted}"),
    said("noted-in-file", say="{say}", file="{file}"),
    said("attests-nothing", seq="{seq}"),
    said("attests-no-such-row", seq="{seq}", row="{row}"),
    said("attested-by-other", seq="{seq}", row="{row}", key="{key}"),
    said("attested-falsely", seq="{seq}", row="{row}"),
    said("attested-by", n="{n}", of="{of}", key="{key}"),
    said("attested-by-none", n="{n}", of="{of}", row="{row}"),
)
"""What may be found of an export, in the command line's own sentences."""

AROUND = (
    said("export-title"),
    said("export-intro"),
    said("export-file"),
    said("export-file-why"),
    said("export-papers"),
    said("export-papers-why"),
    said("export-noted"),
    said("export-noted-why"),
    said("export-noted-wrong", found="{found}"),
    said("export-key"),
    said("export-key-why"),
    said("export-key-wrong"),
    said("export-start"),
    said("export-progress"),
    said("export-reading", share="{share}", row="{row}"),
    said("export-none-chosen"),
    said("export-not-done"),
    said("export-no-export"),
    said("export-no-export-say", file="{file}"),
    said("export-sound"),
    said("export-not-sound"),
    said("export-first-bad"),
    said("export-ledger"),
    said("export-rows"),
    said("export-head"),
    said("export-evidence"),
    said("export-evidence-of", here="{here}", named="{named}", gone="{gone}"),
    said("export-no-evidence", named="{named}"),
    said("export-anchors"),
    said("export-no-anchors"),
    said("export-anchors-of", ours="{ours}", all="{all}", files="{files}"),
    said("export-signatures"),
    said("export-shows"),
    said("export-shows-chain"),
    said("export-shows-anchor"),
    said("export-shows-key"),
    said("export-shows-not"),
)


@dataclass(frozen=True)
class CheckPage:
    """The page, and the policy it is served with; the page holds all of it that a page can."""

    html: str
    policy: str


def check_page(says: Language) -> CheckPage:
    """Put the page together in a language."""
    texts = [(HERE / "check" / name).read_text(encoding="utf-8") for name in SCRIPTS]
    script, style = "".join(texts), (HERE / "check" / "check.css").read_text(encoding="utf-8")
    policy = "; ".join(
        (
            "default-src 'none'",
            "connect-src 'none'",
            f"script-src '{_digest(script)}'",
            f"style-src '{_digest(style)}'",
            "base-uri 'none'",
            "form-action 'none'",
        )
    )
    words = {each.code: says.words(each) for each in (*FOUND, *AROUND)}
    environment = Environment(
        loader=FileSystemLoader(HERE / "templates"), autoescape=True, trim_blocks=True
    )
    template = environment.get_template("check.html")
    html = template.render(
        language=says.name, policy=policy, words=words, script=script, style=style
    )
    return CheckPage(html, f"{policy}; frame-ancestors 'none'")


def _digest(text: str) -> str:
    """How a policy names an inline text."""
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"
