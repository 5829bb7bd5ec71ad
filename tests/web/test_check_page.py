"""The stranger's page is one file: all it needs stands in it, and it can reach nothing."""

import base64
import hashlib
import re

from daq.cli import main
from daq.says import language
from tests.house.test_page_words import phrases
from web.check_page import AROUND, FOUND, HERE, SCRIPTS, check_page


def digest(text):
    return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


def test_it_is_served_by_a_policy_of_its_own(client):
    got = client.get("/check")
    page = check_page(language("en"))
    assert (got.status_code, got.text) == (200, page.html)
    policy = got.headers["Content-Security-Policy"]
    assert policy == page.policy
    assert "'self'" not in policy and "unsafe" not in policy and "http" not in policy
    assert "default-src 'none'; connect-src 'none'" in policy
    assert got.headers["X-Frame-Options"] == "DENY"
    other = client.get("/").headers["Content-Security-Policy"]
    assert "script-src 'self'" in other and "sha256" not in other


def test_what_runs_in_it_is_what_its_policy_allows():
    page = check_page(language("en"))
    (script,) = re.findall(r"<script>(.*)</script>", page.html, re.DOTALL)
    (style,) = re.findall(r"<style>(.*)</style>", page.html, re.DOTALL)
    assert f"script-src 'sha256-{digest(script)}'" in page.policy
    assert f"style-src 'sha256-{digest(style)}'" in page.policy
    (inside,) = re.findall(r'http-equiv="Content-Security-Policy" content="([^"]*)"', page.html)
    assert f"{inside.replace('&#39;', chr(39))}; frame-ancestors 'none'" == page.policy


def test_it_names_nothing_outside_itself_and_nothing_of_the_shop(client):
    html = client.get("/check").text
    assert not re.findall(
        r"\b(?:src|href|action)=|url\(|import |fetch\(|XMLHttp|WebSocket|eval", html
    )
    assert "Practice mill" not in html and "rights" not in html
    assert len(html) < 80_000


def test_the_command_writes_the_same_file(tmp_path):
    assert main(["ledger", "check-page", "-o", str(tmp_path / "check.html")]) == 0
    assert (tmp_path / "check.html").read_text() == check_page(language("en")).html


def test_its_scripts_hold_no_sentence_and_each_code_they_say_has_one():
    texts = [(HERE / "check" / name).read_text(encoding="utf-8") for name in SCRIPTS]
    names = {"use strict", "Signed"}  # of an event
    assert {phrase for text in texts for phrase in phrases(text)} <= names
    codes = {each.code for each in (*FOUND, *AROUND)}
    html = (HERE / "templates" / "check.html").read_text(encoding="utf-8")
    used = set(re.findall(r'say\("([a-z-]+)"', "".join(texts)))
    used |= set(re.findall(r'"((?:export|evidence)-[a-z-]+)"', "".join((*texts, html))))
    assert used == codes
