/** A probability field as pixels: where the spill probably was. */

/**
 * Cells to RGBA, first row on top (the field's rows run upwards), the colour's strength with the root of the density so
 * that a faint tail still shows. Empty for a field without mass.
 * @param density row by row from the lower left, any unit, not negative
 * @param colour `#rrggbb`
 */
export function washPixels(
  density: Float32Array,
  columns: number,
  rows: number,
  colour: string,
  strongest = 0.55,
): Uint8ClampedArray<ArrayBuffer> {
  const pixels = new Uint8ClampedArray(4 * columns * rows)
  let peak = 0
  for (const value of density) if (value > peak) peak = value
  if (!(peak > 0) || !Number.isFinite(peak)) return pixels
  const [red, green, blue] = channels(colour)
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const share = (density[row * columns + column] ?? 0) / peak
      const to = 4 * ((rows - 1 - row) * columns + column)
      pixels[to] = red
      pixels[to + 1] = green
      pixels[to + 2] = blue
      pixels[to + 3] = share > 0 ? 255 * strongest * Math.sqrt(share) : 0
    }
  }
  return pixels
}

function channels(colour: string): [number, number, number] {
  const value = Number.parseInt(colour.slice(1), 16)
  return [(value >> 16) & 255, (value >> 8) & 255, value & 255]
}
