"""wishes: what the screen asks for, checked in shape and in size; what it means is checked by the craft."""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from braidwright.domain.design import Anchor, PlacedMotif

Text = Annotated[str, Field(max_length=4_000_000)]
Line = Annotated[str, Field(max_length=300)]
Key = Annotated[str, Field(min_length=1, max_length=1)]
Number = Annotated[int, Field(ge=1, le=1_000_000)]
Length = Annotated[float, Field(gt=0.0, le=100_000.0, allow_inf_nan=False)]


class Wish(BaseModel):
    """What all wishes have in common: no field that is not known, no value of another kind."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)


class DesignWish(Wish):
    """A design file."""

    design: Text


class StitchWish(Wish):
    """One stitch, counted from 1."""

    row: Number
    stitch: Number

    def anchor(self) -> Anchor:
        """The stitch, in the words of the craft."""
        return Anchor(row=self.row, stitch=self.stitch)


class PaintWish(DesignWish):
    """One drop at some stitches."""

    stitches: Annotated[list[StitchWish], Field(min_length=1, max_length=100_000)]
    key: Key


class FillWish(DesignWish):
    """One drop at every stitch, or of the rows from first to last."""

    key: Key
    first: Number | None = None
    last: Number | None = None


class ExchangeWish(DesignWish):
    """One bead in the place of another."""

    old: Key
    new: Key


class CordWish(DesignWish):
    """One drop along the whole cord that starts in a slot."""

    slot: Annotated[int, Field(ge=1, le=64)]
    key: Key


class MotifWish(DesignWish):
    """A motif: lines are rows, characters are stations clockwise, a space leaves what is there."""

    name: Line
    lines: Annotated[list[Line], Field(min_length=1, max_length=1_000)]

    def motif(self, at: "list[StitchWish] | None" = None) -> PlacedMotif:
        """The motif, in the words of the craft."""
        return PlacedMotif(name=self.name, lines=tuple(self.lines), anchors=tuple(each.anchor() for each in at or ()))


class PlaceWish(MotifWish):
    """A motif at some stitches."""

    at: Annotated[list[StitchWish], Field(min_length=1, max_length=1_000)]


class FrontWish(MotifWish):
    """A motif along the front line."""

    spacing_mm: Annotated[float, Field(ge=1.0, le=100_000.0, allow_inf_nan=False)]
    count: Annotated[int, Field(ge=1, le=10_000)] | None = None


class MirrorWish(DesignWish):
    """The other hand."""

    keep_picture: bool = False


class ResizeWish(DesignWish):
    """Longer or shorter: exactly one of rows, length, wrist and neckline."""

    rows: Number | None = None
    length_mm: Length | None = None
    wrist_mm: Length | None = None
    neckline: Line | None = None
    ease: Line | None = None
    findings_mm: Annotated[float, Field(ge=0.0, le=10_000.0, allow_inf_nan=False)] | None = None


Percent = Annotated[float, Field(ge=0.0, le=500.0, allow_inf_nan=False)]


class PackWish(DesignWish):
    """A pattern pack; see `app.publish.Wishes`."""

    paper: Literal["a4", "letter"] = "a4"
    large_print: bool = False
    other_hand: Literal["mirror", "same-picture", "none"] = "mirror"
    spare_percent: Percent | None = None
    pieces: Annotated[int, Field(ge=1, le=10_000)] = 1
    formats: Annotated[list[Line], Field(max_length=20)] | None = None
    solve: bool = False


class ReaderWish(DesignWish):
    """A design as a reader works it."""

    reader: Literal["own", "mirror", "same-picture"] = "own"


class SheetWish(ReaderWish):
    """One sheet of a design."""

    sheet: Line
    width_mm: Annotated[float, Field(ge=60.0, le=400.0, allow_inf_nan=False)] = 174.0
    large: bool = False


class SuppliesWish(DesignWish):
    """Supplies for some pieces."""

    pieces: Annotated[int, Field(ge=1, le=10_000)] = 1
    spare_percent: Percent | None = None


Slot = Annotated[int, Field(ge=1, le=64)]
Share = Annotated[float, Field(ge=0.0, le=1.0, allow_inf_nan=False)]


class MoveWish(Wish):
    """One move entered."""

    take: Slot
    put: Slot
    slides: bool = False


class BraidWish(Wish):
    """A braid entered move by move."""

    name: Annotated[str, Field(min_length=1, max_length=100)]
    slots: Annotated[int, Field(ge=8, le=64)]
    start: Annotated[list[Slot], Field(max_length=64)]
    moves: Annotated[list[MoveWish], Field(max_length=400)]
    hand: Literal["S", "Z"] | None = None


class ColourWish(Wish):
    """So many cords of one colour."""

    colour: Annotated[str, Field(pattern="^#[0-9a-fA-F]{6}$")]
    count: Annotated[int, Field(ge=1, le=64)]


class WallWish(DesignWish):
    """Arrangements of colours on the cords of a design."""

    colours: Annotated[list[ColourWish], Field(min_length=1, max_length=8)]
    turned: bool = False
    swapped: bool = False


class PictureWish(DesignWish):
    """A picture to lay on; see `domain.picture.Placing`."""

    picture: Annotated[str, Field(max_length=12_000_000)]
    arc_deg: Annotated[float, Field(gt=0.0, le=360.0, allow_inf_nan=False)] = 180.0
    centre_deg: Annotated[float, Field(ge=-360.0, le=360.0, allow_inf_nan=False)] = 0.0
    upright: bool = False
    fit: Literal["whole", "fill"] = "whole"
    left: Share = 0.0
    top: Share = 0.0
    right: Share = 1.0
    bottom: Share = 1.0
    keys: Annotated[list[Key], Field(min_length=1, max_length=100)] | None = None
    mixing: Literal["none", "diffused", "ordered"] = "none"


class WordWish(DesignWish):
    """A word to lay on; see `domain.lettering.Word`."""

    text: Line
    key: Key
    ground: Key | None = None
    way: Literal["along", "stacked", "round"] = "along"
    height: Annotated[int, Field(ge=1, le=50)] = 5
    row: Number | None = None
    centre_deg: Annotated[float, Field(ge=-360.0, le=360.0, allow_inf_nan=False)] = 0.0


class NewWish(Wish):
    """A new design."""

    title: Line
    braid: Line | None = None
    hand: Annotated[str, Field(pattern="^[SZ]$")] | None = None
    bead: Line | None = None
    colour: Annotated[str, Field(pattern="^#[0-9a-fA-F]{6}$")] | None = None
    rows: Annotated[int, Field(ge=1, le=10_000)] | None = None
    length_mm: Length | None = None
    wrist_mm: Length | None = None


Name = Annotated[str, Field(pattern="^[0-9a-f]{64}$")]


class SaveWish(DesignWish):
    """A change of a design in the library."""

    made_from: Name
    doing: Line


class RenameWish(Wish):
    """Another title."""

    made_from: Name
    title: Line


class CopyWish(Wish):
    """A copy under a title."""

    title: Line


class BackWish(Wish):
    """An earlier state, to be the newest again."""

    made_from: Name
    state: Name
