/** Drawing a new mark: a press for a spill or a note, a pull or a stroke for an area, bends for a dam, a pull to measure. */
import { distance, type Point } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import type { SheetContext } from './context.ts'
import type { HandState } from './handStore.ts'
import type { MarkDraft, Painting, Tool } from './props.ts'
import { firstStroke, longerStroke } from './pure/stroke.ts'

/** Radius of an area that was only pressed, not pulled. */
const PRESSED_RADIUS_MM = 3
const SMALLEST_RADIUS_MM = 0.3
const CIRCLES: Painting = { manner: 'circle', brushMm: PRESSED_RADIUS_MM }
const PAINTED: ReadonlySet<Tool> = new Set(['residue', 'film', 'corrosion', 'clean'])
/** Points of a stroke lie at least this share of the least pull apart. */
const STROKE_SHARE = 0.5

export class Drawing {
  readonly #context: SheetContext
  #from: Point | undefined
  #pulled = false

  constructor(context: SheetContext) {
    this.#context = context
  }

  start(tool: Exclude<Tool, 'select' | 'probe'>, side: Side, at: Point): void {
    const { hand } = this.#context
    this.leave()
    this.#from = at
    this.#pulled = false
    if (tool === 'measure-distance') return hand.setState({ measured: { side, from: at, to: at } })
    if (tool === 'spill' || tool === 'note') return hand.setState({ drawn: { kind: tool, side, at } })
    if (tool !== 'dam') {
      const painting = tool === 'slip' ? CIRCLES : (this.#context.props().painting ?? CIRCLES)
      const radiusMm = painting.manner === 'brush' ? painting.brushMm : PRESSED_RADIUS_MM
      return hand.setState({ drawn: { kind: tool, side, at, radiusMm, ...firstStroke(painting, at) } })
    }
    const { drawn } = hand.getState()
    const continued = drawn?.kind === 'dam' && drawn.side === side
    hand.setState({ drawn: { kind: 'dam', side, path: continued ? [...drawn.path.slice(0, -1), at, at] : [at, at] } })
  }

  /** The pointer moves while it is pressed. */
  to(at: Point, dragFromMm: number): void {
    const { hand } = this.#context
    const { drawn, measured } = hand.getState()
    if (this.#from === undefined) return
    if (!this.#pulled && distance(this.#from, at) < dragFromMm) return
    this.#pulled = true
    if (measured !== undefined && drawn === undefined) return hand.setState({ measured: { ...measured, to: at } })
    if (drawn === undefined) return
    if (drawn.kind === 'dam') return hand.setState({ drawn: { ...drawn, path: [...drawn.path.slice(0, -1), at] } })
    if (!('radiusMm' in drawn)) return hand.setState({ drawn: { ...drawn, at } })
    if (drawn.stroke !== undefined)
      return hand.setState({
        drawn: { ...drawn, stroke: longerStroke(drawn.stroke, at, dragFromMm * STROKE_SHARE) },
      })
    const radiusMm = Math.max(SMALLEST_RADIUS_MM, Math.round(distance(drawn.at, at) * 10) / 10)
    hand.setState({ drawn: { ...drawn, radiusMm } })
  }

  /** The pointer moves unpressed: the loose end of a dam follows, and the brush shows its width; a finger has none. */
  hover(at: Point, side: Side, coarse: boolean): void {
    const { drawn, brush } = this.#context.hand.getState()
    const next = coarse ? undefined : this.#brushAt(at, side)
    if (next !== brush) this.#context.hand.setState({ brush: next })
    if (drawn?.kind === 'dam')
      this.#context.hand.setState({ drawn: { ...drawn, path: [...drawn.path.slice(0, -1), at] } })
  }

  leave(): void {
    if (this.#context.hand.getState().brush !== undefined) this.#context.hand.setState({ brush: undefined })
  }

  #brushAt(at: Point, side: Side): HandState['brush'] {
    const { tool, painting } = this.#context.props()
    if (painting?.manner !== 'brush' || !PAINTED.has(tool)) return undefined
    return { side, at, radiusMm: painting.brushMm }
  }

  end(at: Point): void {
    const { drawn } = this.#context.hand.getState()
    this.#from = undefined
    if (drawn === undefined) return
    if (drawn.kind !== 'dam') return this.#hand(drawn)
    if (this.#pulled && drawn.path.length === 2) return this.#hand(drawn)
    if (this.#pulled) this.#context.hand.setState({ drawn: { ...drawn, path: [...drawn.path, at] } })
  }

  /** Ends a dam at its last fixed bend; true if there was one. */
  finishDam(): boolean {
    const { drawn } = this.#context.hand.getState()
    if (drawn?.kind !== 'dam') return false
    const path = drawn.path.slice(0, -1).filter((bend, i, all) => i === 0 || distance(bend, all[i - 1] ?? bend) > 0.05)
    if (path.length >= 2) this.#hand({ ...drawn, path })
    else this.#context.hand.setState({ drawn: undefined })
    return true
  }

  cancel(): boolean {
    const { drawn, measured } = this.#context.hand.getState()
    this.#from = undefined
    this.#context.hand.setState({ drawn: undefined, measured: undefined, brush: undefined })
    return drawn !== undefined || measured !== undefined
  }

  #hand(draft: MarkDraft): void {
    this.#context.hand.setState({ drawn: undefined })
    this.#context.props().onMarkAdd(draft)
  }
}
