"""surface: what a finish looks like to light, as a material of glTF 2.0 with its ratified extensions.

Every finish also has plain values, for viewers that know no extension. The numbers are our own, chosen by eye, but for
the refractive index of soda-lime glass, 1.52 (common tables).
"""

from collections.abc import Callable

from braidwright.domain.colour import linear_of

JsonTable = dict[str, object]
Triple = tuple[float, float, float]

GLASS = 1.52
SILVER: Triple = (0.95, 0.93, 0.88)
DARKEST = 0.004  # black glass still lets a little light through: a colour of nothing at all has no distance


def bead_surface(name: str, colour: str, finish: str, thick_mm: float) -> JsonTable:
    """The material of a bead.

    Args:
        name: What the pattern calls the bead.
        colour: "#rrggbb".
        finish: One of the finishes of the tray.
        thick_mm: How thick the glass is, as light sees it.
    """
    return {"name": name, **_FINISHES.get(finish, _opaque)(linear_of(colour), thick_mm / 1000.0)}


def lining_surface() -> JsonTable:
    """The silver in the hole of a silver-lined bead."""
    return {"name": "silver lining", **_plain(SILVER, 1.0, 0.18)}


def cord_surface(name: str, colour: str) -> JsonTable:
    """The material of a cord: braided or twisted thread, without a mirror of its own."""
    tint = linear_of(colour)
    sheen = {"sheenColorFactor": _mix(tint, (1.0, 1.0, 1.0), 0.3, 0.35), "sheenRoughnessFactor": 0.5}
    return {"name": name, **_plain(tint, 0.0, 0.75), "extensions": {"KHR_materials_sheen": sheen}}


def _plain(colour: Triple, metal: float, rough: float) -> JsonTable:
    return {
        "pbrMetallicRoughness": {
            "baseColorFactor": [*(round(value, 5) for value in colour), 1.0],
            "metallicFactor": metal,
            "roughnessFactor": rough,
        }
    }


def _mix(colour: Triple, other: Triple, share: float, scale: float = 1.0) -> list[float]:
    return [round(scale * ((1.0 - share) * one + share * two), 5) for one, two in zip(colour, other, strict=True)]


def _coat(strength: float, rough: float) -> JsonTable:
    return {"KHR_materials_clearcoat": {"clearcoatFactor": strength, "clearcoatRoughnessFactor": rough}}


def _film(strength: float, thick_nm: float) -> JsonTable:
    return {
        "KHR_materials_iridescence": {
            "iridescenceFactor": strength,
            "iridescenceIor": 1.8,
            "iridescenceThicknessMaximum": thick_nm,
        }
    }


def _opaque(colour: Triple, thick: float) -> JsonTable:
    return {**_plain(colour, 0.0, 0.3), "extensions": _coat(0.5, 0.1)}


def _matte(colour: Triple, thick: float) -> JsonTable:
    return _plain(colour, 0.0, 0.9)


def _metallic(colour: Triple, thick: float) -> JsonTable:
    return _plain(colour, 1.0, 0.28)


def _glass(colour: Triple, thick: float, clear: float) -> JsonTable:
    """Coloured glass: its colour comes half from the surface, which every viewer shows, and half from the depth."""
    tint = [round(max(DARKEST, value), 5) for value in colour]
    return {
        "pbrMetallicRoughness": {
            "baseColorFactor": [*_mix(colour, (1.0, 1.0, 1.0), 0.08), 1.0],
            "metallicFactor": 0.0,
            "roughnessFactor": 0.05,
        },
        "extensions": {
            "KHR_materials_transmission": {"transmissionFactor": clear},
            "KHR_materials_ior": {"ior": GLASS},
            "KHR_materials_volume": {
                "thicknessFactor": round(thick, 6),
                "attenuationDistance": round(2.0 * thick, 6),
                "attenuationColor": tint,
            },
        },
    }


def _transparent(colour: Triple, thick: float) -> JsonTable:
    return _glass(colour, thick, 0.9)


def _silver_lined(colour: Triple, thick: float) -> JsonTable:
    return _glass(colour, thick, 0.8)


def _rainbow(colour: Triple, thick: float) -> JsonTable:
    return {**_plain(colour, 0.25, 0.2), "extensions": {**_film(1.0, 420.0), **_coat(0.6, 0.05)}}


def _pearl(colour: Triple, thick: float) -> JsonTable:
    return {**_plain(colour, 0.0, 0.35), "extensions": {**_film(0.35, 300.0), **_coat(0.8, 0.2)}}


_FINISHES: dict[str, Callable[[Triple, float], JsonTable]] = {
    "opaque": _opaque,
    "matte": _matte,
    "metallic": _metallic,
    "transparent": _transparent,
    "silver-lined": _silver_lined,
    "rainbow": _rainbow,
    "pearl": _pearl,
}
