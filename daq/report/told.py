"""Codes and numbers as the words of one report."""

from dataclasses import dataclass

from daq.report.given import Given
from daq.words import Person, Said, said
from daq.words.said import Text


@dataclass(frozen=True)
class Told:
    """Words in the report's language, with people's names in them."""

    given: Given

    def words(self, what: Text | Person) -> str:
        """What is said, in words; a name as it stands, nothing for None."""
        if what is None or isinstance(what, str):
            return what or ""
        if isinstance(what, Said):
            return self.given.says.words(what, self.given.names)
        return str(self.given.says.told(what, self.given.names))

    def person(self, who: str) -> str:
        """Somebody's name by their id, "" for nobody."""
        return self.words(Person(who)) if who else ""

    def risk(self, name: str, guard: str, risk: str) -> str:
        """What a verdict on something risks, and how far inside its limit is in."""
        return self.words(said("paper-risk", name=name, guard=guard or "none", risk=risk))

    def part(self, of: str) -> str:
        """The heading of a part of the report."""
        return self.words(said("paper-part", of=of))

    def fact(self, of: str) -> str:
        """What a fact is called."""
        return self.words(said("paper-fact", of=of))

    def head(self, *of: str) -> tuple[str, ...]:
        """What the columns of a table are called."""
        return tuple(self.words(said("paper-column", of=each)) for each in of)

    def moment(self, iso: str, *, sure: bool = True) -> str:
        """2026-10-25T02:30:00+01:00 as it is read; not `sure`: its clock was never set."""
        if not iso:
            return ""
        text = f"{iso[:10]} {iso[11:19]} {iso[19:]}"
        return text if sure else self.words(said("paper-unsure-moment", moment=text))
