"""What the looking at pages can tell: each fault it looks for, made on purpose."""

from __future__ import annotations

from tests.reporting.browser.pages import A4, PHONE, SCREEN, Opened, torn

HEAD = '<!DOCTYPE html><html lang="en"><title>A page</title><style>{}</style><main><h1>A page</h1>'


def drawing(*texts: str, wide: int = 100, high: int = 40) -> str:
    inside = "".join(texts)
    return f'<svg width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}"><title>a drawing</title>{inside}</svg>'


def lettered(text: str, x: float, y: float, turned: int = 0) -> str:
    return f'<text font-size="3" x="{x}" y="{y}" transform="rotate({turned} {x} {y})">{text}</text>'


def test_what_is_wider_than_the_page_sticks_out(opened: Opened) -> None:
    opened.show(HEAD.format("") + '<p style="width: 500px">wide</p>', PHONE)
    assert opened.sticking_out() == ["MAIN A pagewide", "P wide"]


def test_a_long_word_sticks_out_of_its_cell(opened: Opened) -> None:
    table = f"<table style='table-layout: fixed; width: 100%'><tr><td>{'m' * 80}</td><td>a</td></tr></table>"
    opened.show(HEAD.format("") + table, PHONE)
    assert any(found.startswith("TD mmm") for found in opened.sticking_out())


def test_texts_on_one_another_are_found_and_neighbours_are_not(opened: Opened) -> None:
    opened.show(HEAD.format("") + drawing(lettered("600", 10, 10), lettered("700", 12, 10)), SCREEN)
    assert opened.overlapping() == ["a drawing: 600 on 700"]
    opened.show(HEAD.format("") + drawing(lettered("600", 10, 10), lettered("700", 16, 10)), SCREEN)
    assert opened.overlapping() == []


def test_a_turned_text_takes_the_room_that_it_is_turned_into(opened: Opened) -> None:
    texts = lettered("worktop 908", 10, 30, -90), lettered("oven", 8, 20)
    opened.show(HEAD.format("") + drawing(*texts), SCREEN)
    assert opened.overlapping() == ["a drawing: worktop 908 on oven"]


def test_a_text_beyond_the_edge_of_its_drawing_is_cut(opened: Opened) -> None:
    opened.show(HEAD.format("") + drawing(lettered("bare floor 0", 90, 10)), SCREEN)
    assert opened.overlapping() == ["a drawing: bare floor 0 is cut"]


def test_a_drawing_over_two_pages_of_paper_is_torn(opened: Opened) -> None:
    two = drawing(lettered("above", 10, 10), lettered("below", 10, 390), wide=100, high=400)
    opened.show(HEAD.format("@page { size: A4 }") + two, A4, printed=True)
    assert torn(opened.figures(), opened.printed()) == [["above", "below"]]


def test_what_scripts_say_and_fetch_is_heard(opened: Opened) -> None:
    opened.show(HEAD.format("") + "<script>alert(1)</script><img src='http://a.example/a.png' alt='a'>", SCREEN)
    assert "dialog: 1" in opened.said
    assert any(said.startswith("request: http://a.example") for said in opened.said)


def test_grey_on_grey_and_a_nameless_picture_keep_readers_out(opened: Opened) -> None:
    opened.show(HEAD.format("p { color: #999; background: #aaa }") + "<p>grey</p><svg role='img'></svg>", SCREEN)
    assert {barrier.split(":")[0] for barrier in opened.barriers()} == {"color-contrast", "svg-img-alt"}
