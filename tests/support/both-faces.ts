/** What a canvas was told to draw, and what an SVG says, as the same list of painted figures in millimetres of paper. */

/** A path that was stroked or filled, or words: `figures` are its coordinates in the order in which they were drawn. */
export interface Painted {
  readonly kind: 'stroke' | 'fill' | 'text'
  readonly colour: string
  readonly figures: readonly number[]
  readonly width: number
  readonly dash: readonly number[]
  readonly text: string
}

/** Drawn alike to a hundredth of a millimetre. */
export function alike(a: Painted, b: Painted): boolean {
  const near = (p: readonly number[], q: readonly number[]): boolean =>
    p.length === q.length && p.every((value, i) => Math.abs(value - (q[i] ?? Infinity)) < 0.01)
  const same = a.kind === b.kind && a.colour === b.colour && a.text === b.text
  return same && near([a.width, ...a.dash], [b.width, ...b.dash]) && near(a.figures, b.figures)
}

/** Text is as wide as so many letters; the paper's own estimate, so that both look for places with the same boxes. */
export type Advance = (text: string, sizePx: number, bold: boolean) => number

/** A canvas that draws nothing and notes everything; figures come out times `mmPerPx`. */
export function notingCanvas(mmPerPx: number, advance: Advance) {
  const painted: Painted[] = []
  const noted = (entry: Omit<Painted, 'figures'>, figures: readonly number[]): void => {
    painted.push({ ...entry, figures: figures.map((value) => value * mmPerPx) })
  }
  let path: number[] = []
  let dash: number[] = []
  const sizeOf = (): number => Number(/(\d+(?:\.\d+)?)px/.exec(ctx.font)?.[1] ?? 0)
  const put = (...figures: number[]): void => void path.push(...figures)
  const ctx = {
    strokeStyle: '',
    fillStyle: '',
    lineWidth: 1,
    globalAlpha: 1,
    font: '',
    textAlign: 'left',
    beginPath: () => (path = []),
    moveTo: put,
    lineTo: put,
    quadraticCurveTo: put,
    /** A circle's path begins at its right: that move belongs to it. */
    arc: (x: number, y: number, radius: number) => {
      if (path.at(-2) === x + radius && path.at(-1) === y) path.splice(-2)
      put(x, y, radius)
    },
    arcTo: put,
    rect: put,
    roundRect: put,
    closePath: () => undefined,
    save: () => undefined,
    restore: () => undefined,
    clip: () => undefined,
    fillRect: () => undefined,
    strokeRect: () => undefined,
    strokeText: () => undefined,
    setLineDash: (lengths: number[]) => (dash = lengths),
    measureText: (text: string) => ({ width: advance(text, sizeOf(), ctx.font.startsWith('700')) }),
    stroke: () =>
      noted(
        {
          kind: 'stroke',
          colour: ctx.strokeStyle,
          width: ctx.lineWidth * mmPerPx,
          dash: dash.map((length) => length * mmPerPx),
          text: '',
        },
        path,
      ),
    fill: () => noted({ kind: 'fill', colour: ctx.fillStyle, width: 0, dash: [], text: '' }, path),
    fillText: (text: string, x: number, y: number) =>
      noted({ kind: 'text', colour: ctx.fillStyle, width: 0, dash: [], text }, [x, y - 0.06 * sizeOf()]),
  }
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- stands in for the browser's canvas, which Node lacks
  return { ctx: ctx as unknown as CanvasRenderingContext2D, painted }
}

/** The paths, circles and texts of an SVG. */
export function paintedIn(svg: string): Painted[] {
  return [...svg.matchAll(/<(path|circle|text)([^>]*?)(?:\/>|>([^<]*)<)/g)].flatMap(
    ([, name, attributes, inside]): Painted[] => {
      const of = (key: string): string | undefined => new RegExp(` ${key}="([^"]*)"`).exec(attributes ?? '')?.[1]
      const plain = { width: 0, dash: [], text: '' }
      const place = (...keys: string[]): number[] => keys.map((key) => Number(of(key)))
      if (name === 'text')
        return [{ ...plain, kind: 'text', colour: of('fill') ?? '', figures: place('x', 'y'), text: inside ?? '' }]
      const figures = name === 'circle' ? place('cx', 'cy', 'r') : figuresOf(of('d') ?? '')
      const dash = (of('stroke-dasharray') ?? '').split(' ').filter(Boolean).map(Number)
      const [fill = 'none', stroke] = [of('fill'), of('stroke')]
      const found: Painted[] = []
      if (fill !== 'none') found.push({ ...plain, kind: 'fill', colour: fill, figures })
      if (stroke !== undefined)
        found.push({ kind: 'stroke', colour: stroke, figures, width: Number(of('stroke-width')), dash, text: '' })
      return found
    },
  )
}

/** Coordinates of a path; a circle of two arcs as its centre and radius. */
function figuresOf(d: string): number[] {
  const circles = d.replaceAll(
    /M([-\d.]+) ([-\d.]+)a([-\d.]+) [-\d.]+ 0 1 0 [-\d.]+ 0a[^Z]*Z/g,
    (_, x: string, y: string, r: string) => `${Number(x) + Number(r)} ${y} ${r} `,
  )
  return [...circles.matchAll(/-?\d+(?:\.\d+)?/g)].map(([figure]) => Number(figure))
}
