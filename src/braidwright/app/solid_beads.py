"""The solids of the beads in a tray, for a screen that draws the rope in space."""

from braidwright.app.designs import Opened
from braidwright.app.sizes import materials_of
from braidwright.drawings.meshes.bead_mesh import bead_mesh
from braidwright.drawings.meshes.mesh import Mesh

__all__ = ["Mesh", "bead_solids"]


def bead_solids(opened: Opened) -> dict[str, Mesh]:
    """The solid of each single bead of the tray, by its key; the hole runs along z, what reaches out along x.

    Raises:
        CatalogueError: A bead the catalogue does not know.
    """
    design = opened.reading.design
    materials = materials_of(design, opened.catalogue)
    return {entry.key: bead_mesh(materials.bead(entry.key)) for entry in design.tray.beads}
