"""Finishes as materials: the fields that the glTF 2.0 extensions ask for, and colours in linear light."""

from typing import Any

import pytest

from braidwright.domain.tray import FINISHES
from braidwright.drawings.meshes.surface import bead_surface, cord_surface, lining_surface

KNOWN = {
    "KHR_materials_clearcoat": {"clearcoatFactor", "clearcoatRoughnessFactor"},
    "KHR_materials_ior": {"ior"},
    "KHR_materials_iridescence": {"iridescenceFactor", "iridescenceIor", "iridescenceThicknessMaximum"},
    "KHR_materials_sheen": {"sheenColorFactor", "sheenRoughnessFactor"},
    "KHR_materials_transmission": {"transmissionFactor"},
    "KHR_materials_volume": {"thicknessFactor", "attenuationDistance", "attenuationColor"},
}  # names: the extension pages of the glTF registry, all ratified by Khronos


def made(finish: str, colour: str = "#808080") -> dict[str, Any]:
    return bead_surface("Moss", colour, finish, 1.0)


@pytest.mark.parametrize("finish", FINISHES)
def test_every_finish_is_a_material_of_its_own(finish: str) -> None:
    assert made(finish)["name"] == "Moss"
    assert [other for other in FINISHES if made(other) == made(finish)] == [finish]
    for name, fields in made(finish).get("extensions", {}).items():
        assert set(fields) <= KNOWN[name]


def test_colours_are_in_linear_light() -> None:
    """Half-way grey, #808080, is 0.2158605 (IEC 61966-2-1)."""
    materials: list[Any] = [made("opaque"), made("matte"), made("metallic"), cord_surface("cord", "#808080")]
    for material in materials:
        assert material["pbrMetallicRoughness"]["baseColorFactor"] == pytest.approx([0.2158605] * 3 + [1.0], abs=1e-5)


def test_glass_lets_light_through_and_metal_does_not() -> None:
    """A volume means nothing without transmission (KHR_materials_volume); lengths in metres (glTF 2.0, 3.4)."""
    for finish in ("transparent", "silver-lined"):
        found = made(finish, "#000000")["extensions"]
        assert found["KHR_materials_transmission"]["transmissionFactor"] > 0.5
        assert found["KHR_materials_volume"]["thicknessFactor"] == 0.001
        assert min(found["KHR_materials_volume"]["attenuationColor"]) > 0.0
        assert found["KHR_materials_ior"]["ior"] == 1.52
        assert made(finish)["pbrMetallicRoughness"]["metallicFactor"] == 0.0
    metals: list[Any] = [made("metallic"), lining_surface()]
    for material in metals:
        assert material["pbrMetallicRoughness"]["metallicFactor"] == 1.0
        assert "KHR_materials_transmission" not in material.get("extensions", {})


def test_matte_is_rough_and_opaque_is_not() -> None:
    rough = {finish: made(finish)["pbrMetallicRoughness"]["roughnessFactor"] for finish in FINISHES}
    assert max(rough, key=lambda finish: rough[finish]) == "matte"
    assert rough["opaque"] < 0.5 < rough["matte"]
