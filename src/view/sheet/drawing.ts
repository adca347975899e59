/** Drawing a new mark: a press for a spill or a note, press and pull for an area, bend by bend for a dam, a pull to measure. */
import { distance, type Point } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import type { SheetContext } from './context.ts'
import type { MarkDraft, Tool } from './props.ts'

/** Radius of an area that was only pressed, not pulled. */
const PRESSED_RADIUS_MM = 3
const SMALLEST_RADIUS_MM = 0.3

export class Drawing {
  readonly #context: SheetContext
  #from: Point | undefined
  #pulled = false

  constructor(context: SheetContext) {
    this.#context = context
  }

  start(tool: Exclude<Tool, 'select'>, side: Side, at: Point): void {
    const { hand } = this.#context
    this.#from = at
    this.#pulled = false
    if (tool === 'measure-distance') return hand.setState({ measured: { side, from: at, to: at } })
    if (tool === 'spill' || tool === 'note') return hand.setState({ drawn: { kind: tool, side, at } })
    if (tool !== 'dam') return hand.setState({ drawn: { kind: tool, side, at, radiusMm: PRESSED_RADIUS_MM } })
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
    const radiusMm = Math.max(SMALLEST_RADIUS_MM, Math.round(distance(drawn.at, at) * 10) / 10)
    hand.setState({ drawn: { ...drawn, radiusMm } })
  }

  /** The pointer moves unpressed: the loose end of a dam follows. */
  hover(at: Point): void {
    const { drawn } = this.#context.hand.getState()
    if (drawn?.kind === 'dam')
      this.#context.hand.setState({ drawn: { ...drawn, path: [...drawn.path.slice(0, -1), at] } })
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
    this.#context.hand.setState({ drawn: undefined, measured: undefined })
    return drawn !== undefined || measured !== undefined
  }

  #hand(draft: MarkDraft): void {
    this.#context.hand.setState({ drawn: undefined })
    this.#context.props().onMarkAdd(draft)
  }
}
