// Short names for what the server answers; the long ones are generated and nobody edits them.
import type { components } from "./openapi.gen";

type Schemas = components["schemas"];

export type DesignAnswer = Schemas["DesignAnswer"];
export type TrayAnswer = Schemas["TrayAnswer"];
export type StringAnswer = Schemas["StringAnswer"];
export type GeometryAnswer = Schemas["GeometryAnswer"];
export type Packed = Schemas["Packed"];
export type Column = Schemas["Column"];
export type Braid = Schemas["Braid"];
export type Size = Schemas["Size"];
export type Supplies = Schemas["Supplies"];
export type Remark = Schemas["Remark"];
export type CatalogueAnswer = Schemas["CatalogueAnswer"];
export type Bead = Schemas["Bead"];
export type Cord = Schemas["Cord"];
export type EndCap = Schemas["EndCap"];
export type EntryAnswer = Schemas["EntryAnswer"];
export type StateAnswer = Schemas["StateAnswer"];
export type LookAnswer = Schemas["LookAnswer"];
export type ListAnswer = Schemas["ListAnswer"];
export type HistoryAnswer = Schemas["HistoryAnswer"];
export type SolveAnswer = Schemas["SolveAnswer"];
export type MeshesAnswer = Schemas["MeshesAnswer"];
export type MeshAnswer = Schemas["MeshAnswer"];
export type PressingAnswer = Schemas["PressingAnswer"];
export type Glyph = Schemas["Glyph"];
export type PackProgress = Schemas["PackProgress"];
export type SheetAnswer = Schemas["SheetAnswer"];
export type DemosAnswer = Schemas["DemosAnswer"];
export type TakenInAnswer = Schemas["TakenInAnswer"];
export type BraidAnswer = Schemas["BraidAnswer"];
export type PreviewAnswer = Schemas["PreviewAnswer"];
export type Tried = Schemas["Tried"];
export type Wall = Schemas["Wall"];
export type Problem = Schemas["Problem"];
