/** What the hand is doing right now: hover, the keyboard's place, a mark being moved, something being drawn. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Point } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import type { Mark } from '../../spill/index.ts'
import type { MarkDraft, Selection } from './props.ts'

interface Measured {
  readonly side: Side
  readonly from: Point
  readonly to: Point
}

export interface HandState {
  readonly hovered: Selection | undefined
  /** Ref of the part on which the keyboard stands. */
  readonly keyboardPart: string | undefined
  /** A mark as it is being moved or changed; drawn instead of the one that the shell has. */
  readonly edited: Mark | undefined
  readonly drawn: MarkDraft | undefined
  readonly measured: Measured | undefined
  /** Where a brush would paint if it were pressed now. */
  readonly brush: { readonly side: Side; readonly at: Point; readonly radiusMm: number } | undefined
}

export type HandStore = StoreApi<HandState>

export const createHandStore = (): HandStore =>
  createStore<HandState>(() => ({
    hovered: undefined,
    keyboardPart: undefined,
    edited: undefined,
    drawn: undefined,
    measured: undefined,
    brush: undefined,
  }))

/** The shell's marks with the edited one in its place. */
export const marksNow = (marks: readonly Mark[], edited: Mark | undefined): readonly Mark[] =>
  edited === undefined ? marks : marks.map((mark) => (mark.id === edited.id ? edited : mark))
