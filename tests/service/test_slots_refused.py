"""A file whose sweep would end in a slot of the table is refused, with what would do instead."""

import re

import pytest

SLOTS = """
[table.slots]
width = "14 mm"
pitch = "63 mm"
offset = "-94.5 mm"
count = 4
"""
# A slot's middle 94.5 from the spindle: front and back stand clear up to 84.5, and from 104.5 on.


def on_the_table(mill_file, seat="table", slots=SLOTS, **keys):
    for key, value in keys.items():
        mill_file.text = re.sub(rf"^{key} = .*$", f'{key} = "{value}"', mill_file.text, flags=re.M)
    mill_file.text += slots
    return mill_file.put(f'seat = "{seat}"')


@pytest.mark.parametrize("seat", ["table", "block"])
def test_a_radius_that_ends_in_a_slot_is_refused_with_the_next_ones(mill_file, seat):
    (found,) = on_the_table(mill_file, seat).problems()
    assert found == (
        "sweep_radius: found 100 mm, where a slot of the table is nearer than 3 mm at front, back; "
        "allowed: the next clear of all, 84.5 mm or 104.5 mm"
    )


@pytest.mark.parametrize("radius", ["84.5 mm", "104.5 mm", "50 mm", "130 mm"])
def test_what_is_proposed_is_taken(mill_file, radius):
    machine = on_the_table(mill_file, sweep_radius=radius).read()
    assert machine.table.slots.count == 4


@pytest.mark.parametrize("seat", ["ring", "plate"])
def test_a_ring_or_a_plate_lies_over_the_slots(mill_file, seat):
    assert on_the_table(mill_file, seat).read().table.slots.pitch == 63.0


def test_an_inch_shop_is_told_inches(mill_file):
    (found,) = on_the_table(mill_file, unit="in").problems()
    assert found.endswith("allowed: the next clear of all, 3.325 in or 4.115 in")
    mill_file.change('sweep_radius = "100 mm"', 'sweep_radius = "4.115 in"').read()


def test_where_no_radius_would_do_the_table_is_to_be_moved(mill_file):
    below = SLOTS.replace("-94.5 mm", "-63 mm").replace("4", "3", 1)
    (found,) = on_the_table(mill_file, slots=below).problems()
    assert found.endswith("at right, left; allowed: none, as the table stands: move it")


def test_the_other_contact_of_a_bar_is_looked_at_on_its_own_circle(mill_file):
    on_the_table(mill_file, sweep_radius="110 mm")
    mill_file.put('second_gauge = "far"\nsecond_radius = "95 mm"')
    (found,) = mill_file.problems()
    assert found.startswith("second_radius: found 95 mm, where a slot of the table is nearer")
    assert "at back, front;" in found


def test_diagonal_spots_come_nearer_to_a_slot_by_the_sine(mill_file):
    """150·sin 45° is 106.07, 11.6 from a slot's middle, and 140·sin 45° is 98.99, 4.5 from it."""
    eight = 'positions = ["front", "front-right", "right", "back-right", "back", "back-left", '
    mill_file.put(f'{eight}"left", "front-left"]')
    on_the_table(mill_file, sweep_radius="140 mm")
    (found,) = mill_file.problems()
    assert "at front-right, back-right, back-left, front-left;" in found
    mill_file.change('"140 mm"', '"150 mm"').read()
