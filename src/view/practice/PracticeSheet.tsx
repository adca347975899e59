/** The map of a practice card: what was told and seen, which lanes fail or failed, what came off. Nothing can be moved on it. */
import { smallName } from '../../base/index.ts'
import { useMemo, useState } from 'react'
import type { BoardModel } from '../../board/index.ts'
import type { PartTally } from '../../report/index.ts'
import type { PracticeView } from '../../rehearsal/index.ts'
import { type Mark, substanceOf } from '../../spill/index.ts'
import { nothingJudged, type SuspectsResult } from '../../suspects/index.ts'
import {
  createCameraStore,
  type Overlays,
  type ProofKind,
  type ProofLanes,
  type Selection,
  Sheet,
} from '../sheet/index.ts'
import { useScreen } from '../stores/hooks.ts'
import type { PracticeTable } from '../stores/practiceDesk.ts'
import { shownTheme } from '../stores/screenStore.ts'
import { SideButtons } from './SideButtons.tsx'

interface PracticeSheetProps {
  readonly table: PracticeTable
  readonly selection: Selection | undefined
  readonly onSelect: (selection: Selection | undefined) => void
}

export function PracticeSheet({ table, selection, onSelect }: PracticeSheetProps) {
  const { model, view } = table
  const proofLanes = useMemo(() => becomeOf(view), [view])
  return (
    <BoardPicture
      model={model}
      tallyParts={view.tallyParts}
      proofLanes={proofLanes}
      marks={view.marks}
      numbered={view.lifted}
      selection={selection}
      onSelect={onSelect}
    />
  )
}

interface BoardPictureProps {
  readonly model: BoardModel
  readonly tallyParts: readonly PartTally[]
  readonly proofLanes: ProofLanes | undefined
  readonly marks: readonly Mark[]
  /** Parts with a numbered badge. */
  readonly numbered: readonly string[]
  readonly selection: Selection | undefined
  readonly onSelect: (selection: Selection | undefined) => void
}

export function BoardPicture({
  model,
  marks,
  numbered,
  proofLanes,
  tallyParts,
  selection,
  onSelect,
}: BoardPictureProps) {
  const theme = useScreen(shownTheme)
  const [camera] = useState(() => createCameraStore(model.box))
  const [hovered, setHovered] = useState<Selection | undefined>()
  const [letGo, setLetGo] = useState(0)
  // a mark that was pulled at springs back once it is let go
  const held = useMemo(() => (letGo < 0 ? [] : [...marks]), [marks, letGo])
  const suspects = useMemo((): SuspectsResult => ({ ...nothingJudged, lift: numbered }), [numbered])
  return (
    <>
      <Sheet
        model={model}
        camera={camera}
        theme={theme}
        overlays={proofLanes === undefined ? firstRun : laterRun}
        tallyParts={tallyParts}
        proofLanes={proofLanes}
        reach={undefined}
        suspects={suspects}
        marks={held}
        substanceName={substanceName}
        selection={selection}
        hovered={hovered}
        tool="select"
        onSelect={onSelect}
        onHover={setHovered}
        onMarkAdd={nothing}
        onMarkEdit={(_mark, _grip, phase) => phase === 'drop' && setLetGo((count) => count + 1)}
      />
      <SideButtons model={model} camera={camera} />
    </>
  )
}

const substanceName = (id: string): string => smallName(substanceOf(id, [])?.name.split(',')[0] ?? id)

const nothing = (): void => undefined

const firstRun: Overlays = { errorLoad: true, reach: false, field: false, liftOrder: true, labels: true }
const laterRun: Overlays = { ...firstRun, errorLoad: false, proof: true }

/** What became of lanes since the first run; undefined before a second one. */
function becomeOf({ firstRun: first, lastRun: last }: PracticeView): ProofLanes | undefined {
  if (last === undefined) return undefined
  const lanes = new Map<string, ProofKind>()
  for (const [id, before] of first) {
    const now = last.get(id) ?? 'untested'
    if (now === 'fail') lanes.set(id, before === 'fail' ? 'still' : 'fresh')
    else if (now === 'pass' && before === 'fail') lanes.set(id, 'gone')
    else if (now === 'untested') lanes.set(id, 'untested')
  }
  return lanes
}
