"""typesetter: data is never markup, and what the type cannot show is known beforehand."""

from braidwright.drawings.typesetter import SUBSTITUTE, drawing_png, missing_signs

SQUARE = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><rect width="10" height="10" fill="#ff0000"/></svg>'
)


def test_common_scripts_are_in_the_type_and_others_are_not() -> None:
    """Coverage of Typst's own faces, as found by setting them: no Japanese, no Thai, no emoji."""
    assert (
        missing_signs("Plain, \u00e4\u00f6\u00fc \u00df \u017a; \u0416\u0443\u043a; \u03a9; \u05e9\u05dc\u05d5\u05dd")
        == frozenset()
    )
    assert missing_signs("a漢b字ไ😀") == frozenset("漢字ไ😀")
    assert missing_signs(SUBSTITUTE) == frozenset()


def test_signs_that_are_commands_elsewhere_are_signs_here() -> None:
    assert missing_signs("#panic($*_`<@\\\"'{[(/") == frozenset()


def test_a_png_is_as_wide_as_asked() -> None:
    import io

    from PIL import Image

    with Image.open(io.BytesIO(drawing_png(SQUARE, 42.0, 42.0, 500))) as picture:
        assert abs(picture.width - 500) <= 1
        assert picture.convert("RGB").getpixel((250, 250)) == (255, 0, 0)
        assert picture.convert("RGB").getpixel((2, 2)) == (255, 255, 255)
