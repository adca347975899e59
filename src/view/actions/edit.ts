/** Changes to the case: every one goes through here, so that all of them can be undone. */
import { type Point, say } from '../../base/index.ts'
import { type Case, endJoin, redo, step, undo } from '../../case/index.ts'
import { type Mark, mountedAs, type SpillMark, usualOf, substanceOf } from '../../spill/index.ts'
import { areaOfDraft, type DragPhase, type MarkDraft, type MarkGrip } from '../sheet/index.ts'
import type { Desk } from '../stores/desk.ts'
import { toolStoreOf } from '../stores/toolStore.ts'

type WithCase = Pick<Desk, 'cases'>

/** @param joinKey steps in a row with the same key count as one for undo */
export function editCase(desk: WithCase, change: (present: Case) => Case, joinKey?: string): void {
  desk.cases.setState(({ history }) =>
    history === undefined ? {} : { history: step(history, change(history.present), joinKey) },
  )
}

/** Of what took a while: the case that it was for may have left the desk meanwhile, and then nothing is changed. */
export function editCaseOf(desk: WithCase, caseId: string | undefined, change: (present: Case) => Case): boolean {
  if (desk.cases.getState().id !== caseId) return false
  editCase(desk, change)
  return true
}

export const undoEdit = (desk: WithCase): void =>
  desk.cases.setState(({ history }) => (history === undefined ? {} : { history: undo(history) }))

export const redoEdit = (desk: WithCase): void =>
  desk.cases.setState(({ history }) => (history === undefined ? {} : { history: redo(history) }))

const endDrag = (desk: Desk): void =>
  desk.cases.setState(({ history }) => (history === undefined ? {} : { history: endJoin(history) }))

export const editArrival = (desk: Desk, change: Partial<Case['arrival']>): void =>
  editCase(desk, (c) => ({ ...c, arrival: { ...c.arrival, ...change } }), `arrival ${Object.keys(change).join()}`)

/** The mark becomes what `change` makes of it; others stay. */
export function editMark(desk: Desk, id: string, change: (mark: Mark) => Mark, joinKey?: string): void {
  editCase(desk, (c) => ({ ...c, marks: c.marks.map((mark) => (mark.id === id ? change(mark) : mark)) }), joinKey)
}

export const editSpill = (desk: Desk, id: string, change: Partial<SpillMark>, joinKey?: string): void =>
  editMark(desk, id, (mark) => (mark.kind === 'spill' ? { ...mark, ...change } : mark), joinKey)

export function removeMark(desk: Desk, id: string): void {
  editCase(desk, (c) => ({ ...c, marks: c.marks.filter((mark) => mark.id !== id) }))
  desk.screen.setState(({ selection }) =>
    selection?.kind === 'mark' && selection.id === id ? { selection: undefined } : {},
  )
}

/** What the hand drew becomes a mark, is selected, and the hand is free again unless it keeps its tool. */
export function addMark(desk: Desk, draft: MarkDraft): string | undefined {
  const present = desk.cases.getState().history?.present
  if (present === undefined) return undefined
  const id = freeId(desk, present, draft.kind)
  const mark = markOf(draft, id, present, toolStoreOf(desk).getState().nextSubstance)
  editCase(desk, (c) => ({ ...c, marks: [...c.marks, mark] }))
  if (draft.kind === 'spill') toolStoreOf(desk).setState({ nextSubstance: undefined })
  desk.screen.setState({
    ...(toolStoreOf(desk).getState().isLocked ? {} : { tool: 'select' }),
    selection: { kind: 'mark', id },
    station: draft.kind === 'spill' || draft.kind === 'dam' ? 'spill' : 'inspection',
  })
  return id
}

function freeId(desk: Desk, present: Case, kind: string): string {
  const taken = new Set(present.marks.map((mark) => mark.id))
  for (;;) {
    const id = `${kind}-${desk.nextNumber()}`
    if (!taken.has(id)) return id
  }
}

const DEFAULT_SD_MM = 4

function markOf(draft: MarkDraft, id: string, present: Case, nextSubstance?: string): Mark {
  if ('path' in draft) return { ...draft, id, path: [...draft.path] }
  if (draft.kind === 'slip') return { kind: 'slip', id, side: draft.side, at: draft.at, radiusMm: draft.radiusMm }
  if ('radiusMm' in draft) return { kind: draft.kind, id, side: draft.side, ...areaOfDraft(draft) }
  if (draft.kind === 'note') return { kind: 'note', id, side: draft.side, at: draft.at, text: say('Note') }
  return spillOf(draft.side, draft.at, id, present, nextSubstance)
}

/** A new spill is like the last one, so that pointing once more needs no form; the first takes what is usual. */
function spillOf(side: SpillMark['side'], at: Point, id: string, present: Case, nextSubstance?: string): SpillMark {
  const last = present.marks.findLast((mark) => mark.kind === 'spill')
  if (last !== undefined) return { ...last, id, side, at }
  const substance = nextSubstance ?? firstSubstance(present)
  const { mounted } = present.arrival
  const hung = mounted === 'unknown' ? {} : mountedAs(mounted)
  return {
    kind: 'spill',
    id,
    side,
    at,
    sdMm: DEFAULT_SD_MM,
    substance,
    ...usualOf(substanceOf(substance, present.substances)),
    ...hung,
    reachesOtherSide: false,
  }
}

/** What a first spill is taken for, by what was told on arrival. */
export const firstSubstance = ({ arrival }: Pick<Case, 'arrival'>): string =>
  arrival.accident === 'flux' ? FLUX : COOLANT

const COOLANT = 'coolant-eg'
const FLUX = 'flux-fresh'

/** The mark as the hand has made it takes the old one's place; a drop at the place that it has asks for nothing. */
export function putMark(desk: Desk, mark: Mark, grip: MarkGrip, phase: DragPhase): void {
  const marks = desk.cases.getState().history?.present.marks ?? []
  if (!marks.includes(mark)) editMark(desk, mark.id, () => mark, `${grip} ${mark.id}`)
  if (phase === 'drop') endDrag(desk)
}

/** How the card hung: what was said before, a direction or a side that faced down, goes. */
export const hangAs = (desk: Desk, id: string, hung: ReturnType<typeof mountedAs>): void =>
  editMark(desk, id, (mark) => {
    if (mark.kind !== 'spill') return mark
    const { downDeg: _, lay: __, ...rest } = mark
    return { ...rest, ...hung }
  })
