/** Says for screen readers on which part the keyboard stands. */
import { say } from '../../base/index.ts'
import { useStore } from 'zustand'
import type { BoardModel } from '../../board/index.ts'
import type { SheetContext } from './context.ts'
import type { LoadView } from '../../case/index.ts'
import { partKindWords } from '../kindWords.ts'

interface SpokenPartProps {
  readonly context: SheetContext
  readonly model: BoardModel
  readonly load: LoadView | undefined
}

export function SpokenPart({ context, model, load }: SpokenPartProps) {
  const ref = useStore(context.hand, (state) => state.keyboardPart)
  const part = ref === undefined ? undefined : model.partByRef.get(ref)
  return (
    <output className="sheet-unseen">
      {part === undefined
        ? ''
        : say('{ref}, {kind}, {side} side{ref2}', {
            ref: part.ref,
            kind: partKindWords[part.kind],
            side: part.side,
            ref2: failing(part.ref, load),
          })}
    </output>
  )
}

const failing = (ref: string, load: LoadView | undefined): string =>
  load?.failingParts.has(ref) === true
    ? say(', lanes fail')
    : load?.untestedParts.has(ref) === true
      ? say(', untested')
      : ''
