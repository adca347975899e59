/** Says for screen readers on which part the keyboard stands. */
import { useStore } from 'zustand'
import type { BoardModel } from '../../board/index.ts'
import type { SheetContext } from './context.ts'
import type { LoadView } from '../../case/index.ts'

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
        : `${part.ref}, ${part.kind.replace('-', ' ')}, ${part.side} side${failing(part.ref, load)}`}
    </output>
  )
}

const failing = (ref: string, load: LoadView | undefined): string =>
  load?.failingParts.has(ref) === true ? ', lanes fail' : load?.untestedParts.has(ref) === true ? ', untested' : ''
