// Ink that can be read on a colour: WCAG 2.2, relative luminance.
export function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const value = parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

export function inkOn(hex: string): "#1d1a15" | "#fffdf8" {
  return luminance(hex) > 0.18 ? "#1d1a15" : "#fffdf8";
}
