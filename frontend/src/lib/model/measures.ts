// Lengths and weights as people write them.
export type Units = "mm" | "in";
const MM_PER_INCH = 25.4;

/** A length with its unit: whole millimetres from 20 on, one decimal below; inches with two decimals. */
export function length(mm: number, units: Units, language = "en"): string {
  if (units === "in") return `${number(mm / MM_PER_INCH, 2, language)} in`;
  return `${number(mm, Math.abs(mm) >= 20 ? 0 : 1, language)} mm`;
}

export function grams(value: number, language = "en"): string {
  return `${number(value, 1, language)} g`;
}

export function number(value: number, decimals: number, language = "en"): string {
  return new Intl.NumberFormat(language, { maximumFractionDigits: decimals }).format(value);
}

/** A length typed in the units on show, in mm; null when it is no number above 0. */
export function typed(text: string, units: Units): number | null {
  const value = Number(text.trim().replace(",", "."));
  if (!Number.isFinite(value) || value <= 0) return null;
  return units === "in" ? value * MM_PER_INCH : value;
}
