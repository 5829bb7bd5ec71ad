"""Every key a machine's file may leave out is told in the README, with what goes then.

So is every key of what shop.toml says for paper, and where reports go.
"""

from dataclasses import MISSING, fields

import pytest

from daq.audit.setup import AxisSetup, MachineSetup
from daq.audit.shop_papers import ShopPapers, Tool
from daq.checks.sweep.rings import NamedRing
from daq.service.delivery.config import OnSigning
from daq.service.messages.config import Mqtt


def optional(cls):
    """The keys with a default."""
    return {
        each.name
        for each in fields(cls)
        if each.default is not MISSING or each.default_factory is not MISSING
    }


def told(readme):
    """The first cells of the table of keys."""
    rows = readme.split("| in the machine's file |")[1].split("\n\n")[0]
    return "\n".join(row.split(" | ")[0] for row in rows.splitlines()[2:])


@pytest.mark.parametrize("cls", [MachineSetup, AxisSetup])
def test_each_key_that_may_be_left_out_is_told(readme, cls):
    keys = optional(cls)
    assert len(keys) > 8
    cells = told(readme)
    shapes = ("`{}`", "`[{}]`", "`[side.{}]`")
    assert {key for key in keys if not any(shape.format(key) in cells for shape in shapes)} == set()


@pytest.mark.parametrize(
    ("table", "cls", "inner"),
    [
        ("[papers]", ShopPapers, ()),
        ("[tools.NAME]", Tool, ()),
        ("[rings.NAME]", NamedRing, ("key", "wedge")),
        ("[on_signing]", OnSigning, ()),
        ("[mqtt]", Mqtt, ()),
    ],
)
def test_each_key_of_the_shops_tables_is_told(readme, table, cls, inner):
    rows = readme.split("| in `shop.toml` |")[1].split("\n\n")[0].splitlines()
    (cell,) = (row.split(" | ")[0] for row in rows if row.startswith(f"| `{table}`"))
    keys = {each.name for each in fields(cls)} - {*inner}
    assert {key for key in keys if f"`{key}`" not in cell} == set()
