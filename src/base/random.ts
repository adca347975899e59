/** Random numbers that a seed decides: the only randomness that a core may use, and only when it is handed in. */

export interface Random {
  /** Uniform in [0, 1), 32 bits of it. */
  next(): number
  /** Uniform whole number in [0, below). */
  whole(below: number): number
  /** Standard normal, by Box and Muller. */
  normal(): number
}

/** sfc32 (Doty-Humphrey, in the PractRand suite, public domain), seeded from one whole number. */
export function seededRandom(seed: number): Random {
  let a = 0x9e3779b9
  let b = 0x243f6a88
  let c = seed | 0
  let counter = 1
  const step = (): number => {
    const sum = (((a + b) | 0) + counter) | 0
    counter = (counter + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = (c << 21) | (c >>> 11)
    c = (c + sum) | 0
    return (sum >>> 0) / 0x1_0000_0000
  }
  for (let i = 0; i < 15; i++) step()
  return {
    next: step,
    whole: (below) => Math.floor(step() * below),
    normal: () => Math.sqrt(-2 * Math.log(1 - step())) * Math.cos(2 * Math.PI * step()),
  }
}
