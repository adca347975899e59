/** Says for screen readers on which part the keyboard stands. */
import { say } from '../../base/index.ts'
import { useStore } from 'zustand'
import type { BoardModel, PlacedPart } from '../../board/index.ts'
import type { SheetContext } from './context.ts'
import { type LoadView, partKindWords } from '../../case/index.ts'

interface SpokenPartProps {
  readonly context: SheetContext
  readonly model: BoardModel
  readonly load: LoadView | undefined
}

export function SpokenPart({ context, model, load }: SpokenPartProps) {
  const ref = useStore(context.hand, (state) => state.keyboardPart)
  const part = ref === undefined ? undefined : model.partByRef.get(ref)
  return <output className="sheet-unseen">{part === undefined ? '' : spoken(part, load)}</output>
}

function spoken({ ref, kind: name, side }: PlacedPart, load: LoadView | undefined): string {
  const kind = partKindWords[name]
  if (load?.failingParts.has(ref) === true) return say('{ref}, {kind}, {side} side, lanes fail', { ref, kind, side })
  if (load?.untestedParts.has(ref) === true) return say('{ref}, {kind}, {side} side, untested', { ref, kind, side })
  return say('{ref}, {kind}, {side} side', { ref, kind, side })
}
