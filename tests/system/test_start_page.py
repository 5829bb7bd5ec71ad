"""Whose mill it is stands on the first page, and is no firm anywhere."""

import urllib.request


def test_the_first_page_of_the_shipped_configuration_names_a_practice_shop(daemon):
    client = daemon.client
    asked = urllib.request.Request(f"http://127.0.0.1:{client.port}/", headers=client.headers)
    with urllib.request.urlopen(asked, timeout=30) as answer:
        page = answer.read().decode()
    assert ">Practice shop<" in page
