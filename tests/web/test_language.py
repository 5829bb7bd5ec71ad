"""A throw-away language, dropped in as one file: whatever is served speaks it."""

import html
import json
import re
import shutil
import warnings
from functools import cache
from html.parser import HTMLParser

import pytest
from fluent.syntax import FluentParser, FluentSerializer, ast
from fluent.syntax.visitor import Visitor

from daq.app import service, spoken
from daq.says import Language, language
from daq.says.language import HERE
from daq.service.files import load, shipped
from daq.settings import SettingsError
from daq.virtual.mill import VirtualMill
from daq.virtual.panel import Panel
from daq.virtual.spec import MillSpec
from daq.virtual.tutor import Tutor
from daq.words import said
from tests.words import troubled
from web.app import create_app

MILL = "practice-mill"
PAGES = ("/", "/setup", f"/machines/{MILL}/wall", f"/machines/{MILL}/console", "/nowhere")
PAGES += (f"/machines/{MILL}/trend/run-nod", f"/machines/{MILL}/trend", f"/machines/{MILL}/enough")
FROM_FILES = (
    "Side to side",
    "the side bolts, the nod bolts",
    "Practice mill",
    "Practice gauge",
    "ground ring on the table",
    "Shop plunger gauge",
    "Shop long-travel gauge",
    "Shop test indicator",
    "Shop digital gauge",
    "Shop column gauge",
    "The shop's own measuring room",
    "Bench 1, the practice room",
    "Squaring a mill's head",
)
"""Names that the shop's files give, in whatever language they were written."""
ENGLISH = re.compile(
    r"\b(found|allowed|missing|unknown|known|nothing|list|table|text|such|least|most)\b"
    r"|[a-z]+ [a-z]+ [a-z]+"
)
"""What the builder says in English, and any other words in a row."""
WORD = re.compile(r"[A-Za-z]{2,}")


def bracketed(keep=lambda code: True):
    """English with each of its sentences in brackets."""
    resource = FluentParser().parse((HERE / "en.ftl").read_text(encoding="utf-8"))
    messages = [each for each in resource.body if isinstance(each, ast.Message)]
    for each in messages:
        each.value.elements = [ast.TextElement("["), *each.value.elements, ast.TextElement("]")]
    return FluentSerializer().serialize(ast.Resource([m for m in messages if keep(m.id.name)]))


@pytest.fixture
def config(tmp_path):
    return shutil.copytree(shipped(), tmp_path / "config")


@pytest.fixture(scope="module")
def says(tmp_path_factory):
    """The language of that tag from a folder with this one file in it."""

    @cache
    def made(**how):
        folder = tmp_path_factory.mktemp("says")
        (folder / "xx.ftl").write_text(bracketed(**how), encoding="utf-8")
        return language("xx", folder)

    return made


@pytest.fixture
def served(tmp_path, config):
    """A client of the pages of a real service, in that language."""
    with service(load(config), tmp_path / "data") as running:

        def client(one, practice=None):
            more = {"setup": running.setup, "trends": running.trends, "says": one}
            app = create_app(running.hub, running.inbox, practice, **more)
            return app.test_client()

        yield client


class Texts(HTMLParser):
    """What stands on a page, and its language."""

    def __init__(self, page):
        super().__init__()
        self.found, self.lang, self._silent = [], None, False
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        self.lang = given["lang"] if tag == "html" else self.lang
        self._silent = tag in ("script", "style", "code") or given.get("class") == "key"
        self.found += [given[name] for name in ("aria-label", "title") if given.get(name)]

    def handle_endtag(self, tag):
        self._silent = False

    def handle_data(self, data):
        if not self._silent and WORD.search(data):
            self.found.append(data.strip())


def foreign(texts):
    """Those with a word in them that no sentence of the language said."""
    for text in texts:
        rest = re.sub(r"\S*/\S*|\b[0-9a-f]{64}\b", "", text)  # where a port is; a digest
        for name in FROM_FILES:
            rest = rest.replace(name, "")
        while rest != (rest := re.sub(r"\[[^\[\]]*\]", "", rest)):
            pass
        if len(WORD.findall(rest)) > 2:
            yield text


@pytest.mark.parametrize("path", PAGES)
def test_a_page_speaks_it(served, says, path):
    page = Texts(served(says()).get(path).text)
    assert page.lang == "xx"
    assert sum(text.startswith("[") for text in page.found) >= 3
    assert list(foreign(page.found)) == []


def test_what_a_script_says_by_itself_speaks_it(served, says):
    page = served(says()).get(f"/machines/{MILL}/wall").text
    carried = json.loads(re.search(r'id="words">(.*?)</script>', page, re.DOTALL)[1])
    assert carried["no_live"] == "[No live reading]"


def test_the_api_speaks_it(served, says):
    client = served(says())
    of = f"/api/machines/{MILL}"
    shown = client.get(f"{of}/snapshot").json["pages"]
    assert shown["console"]["title"].startswith("[") and shown["wall"]["title"].startswith("[")
    assert client.get(f"{of}/trend").json["due"]["say"].startswith("[")
    assert client.get("/api/machines/lathe/live").json["reason"].startswith("[")
    assert client.get("/api/setup").json["gauges"][0]["say"].startswith("[")
    body = {"id": "5f0c3a52-8f7e-4d6c-9f53-2f1f6f0a7c11", "kind": "pushed"}
    assert client.post(f"{of}/commands", json=body).json["reason"].startswith("[")
    assert "[Not done: " in client.get(f"{of}/snapshot").json["said"]["say"]


def texts(shown):
    """Every text in an answer but keys and codes."""
    if isinstance(shown, dict):
        for key, value in shown.items():
            yield from () if key == "args" else texts(value)
    elif isinstance(shown, list):
        for each in shown:
            yield from texts(each)
    elif isinstance(shown, str):
        yield shown


def test_the_practice_panel_speaks_it(served, says, tmp_path):
    mill = VirtualMill(MillSpec(), tty_link=tmp_path / "gauge", speed=1000.0)
    client, of = served(says(), Panel(mill, Tutor(mill, {}))), f"/api/machines/{MILL}/practice"
    for verb in ("swing", "loosen", "set", "fault", "unplug", "turn"):
        did = {"position": "left", "axis": "nod", "name": "junk", "amount_mm": 0.1}
        shown = client.post(of, json={"verb": verb, "args": did}).json
        assert list(foreign(texts(shown))) == []
        assert shown["say"].startswith("[")
        assert all(each["say"].startswith("[") for each in shown["operations"])
        assert all(each["group"].startswith("[") for each in shown["operations"] if each["verb"])
    for nonsense in ({"verb": "dance"}, {"verb": "turn", "args": {"axis": "nod"}}):
        assert client.post(of, json=nonsense).json["reason"].startswith("[")


class Names(Visitor):
    """What a sentence is given."""

    def __init__(self, sentence):
        self.found = set()
        self.visit(sentence)

    def visit_VariableReference(self, node):
        self.found.add(node.id.name)


@cache
def wordless():
    """A language whose sentences hold what they are given, and no word of their own."""
    resource = FluentParser().parse((HERE / "en.ftl").read_text(encoding="utf-8"))
    messages = [each for each in resource.body if isinstance(each, ast.Message)]
    given = {m.id.name: sorted(Names(m).found) for m in messages}
    lines = [f"{code} = |{' '.join(f'{{ ${n} }}' for n in of)}|" for code, of in given.items()]
    return Language("xx", "\n".join(lines) + "\n")


UUID = "5f0c3a52-8f7e-4d6c-9f53-2f1f6f0a7c11"
FACE = {"width": "50 mm", "zone": "0.02 mm", "cutter": "20 mm"}
WRONG = [
    ("commands", {}),
    ("commands", {"id": 5, "kind": ["x"], "payload": [], "wish": 1}),
    ("commands", {"id": UUID, "kind": None, "expects_seq": 10**200, "actor": "nobody"}),
    ("commands", {"id": UUID, "kind": {}, "expects_seq": 1.5, "audit": True, "kinds": 1}),
    ("commands", {"id": "x", "kind": "pushed"}),
    ("commands", {"id": UUID, "kind": "pushed", "expects_seq": -1}),
    ("commands", {"id": UUID, "kind": "open", "payload": {"reason": 7, "unheard": 1}}),
    ("commands", {"id": UUID, "kind": "open", "payload": {"reason": "for fun"}}),
    ("enough", {"bore": []}),
    ("enough", {}),
    ("enough", {"bore": {"depth": "x"}, "wall": {}}),
    ("enough", {"wall": {"height": "9000 mm", "zone": "5 s"}}),
    ("enough", {"face": FACE}),
    ("enough", {"face": {**FACE, "to": "flatter"}}),
    ("practice", {"verb": "turn", "args": {"axis": ["x"], "amount_mm": 0.1}}),
    ("practice", {"verb": "turn", "args": {"axis": "nod"}}),
    ("practice/lessons", {"lesson": "known", "side_mm": 1e9}),
]


@pytest.mark.parametrize(("at", "body"), WRONG)
def test_what_is_wrong_with_a_body_holds_no_word_of_another_language(served, tmp_path, at, body):
    mill = VirtualMill(MillSpec(), tty_link=tmp_path / "gauge", speed=1000.0)
    answer = served(wordless(), Panel(mill, Tutor(mill, {}))).post(
        f"/api/machines/{MILL}/{at}", json=body
    )
    assert answer.status_code in (400, 422)
    told = [answer.json["reason"], *answer.json.get("problems", ())]
    assert all(text.startswith("|") for text in told)
    assert [text for text in told if ENGLISH.search(text)] == []


def test_what_is_wrong_with_an_address_holds_no_word_of_another_language(served):
    answer = served(wordless()).get(f"/api/machines/{MILL}/trend?before=x&after=1")
    assert answer.status_code == 400 and len(answer.json["problems"]) == 2
    assert not any(ENGLISH.search(text) for text in answer.json["problems"])


def test_what_is_wrong_with_the_record_speaks_it(served, says, tmp_path):
    client = served(says())
    (tmp_path / "data" / "ledger.db").unlink()
    problem = client.get("/api/setup").json["ledger"]["problem"]
    assert problem.startswith("[") and list(foreign([problem])) == []


def test_what_a_language_lacks_is_said_in_english_sentence_by_sentence(served, says):
    lacking = set(sorted(language().codes)[::2]) | {"setup-says"}
    one = says(keep=lambda code: code not in lacking)
    assert one.missing == lacking
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        for code in ("setup-says", "recording-failed", "of-gauge"):
            what = said(code, why="x", gauge="g", say=said("live"))
            english = language().words(what)
            assert one.words(what).replace("[", "").replace("]", "") == english
        client = served(one)
        assert all(client.get(path).status_code in (200, 404) for path in PAGES)
    assert language().words(said("setup-says")) in html.unescape(client.get("/setup").text)


def test_a_sentence_that_asks_for_what_is_not_given_is_said_in_english(tmp_path):
    (tmp_path / "xx.ftl").write_text("live = { $nothing }\n", encoding="utf-8")
    with pytest.warns(UserWarning, match="nothing"):
        assert language("xx", tmp_path).words(said("live")) == "Live"


def test_a_language_that_is_not_there_is_refused(config):
    path = config / "shop.toml"
    text = path.read_text(encoding="utf-8")
    assert spoken(load(config), config).name == "en"
    path.write_text(text.replace('language = "en"', 'language = "xx"'), encoding="utf-8")
    with troubled(SettingsError, match=r"shop\.toml: language: found 'xx'; allowed: en, es"):
        spoken(load(config), config)
