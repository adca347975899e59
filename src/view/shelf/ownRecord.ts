/** What the shelf gives to the shop's own record: its closed cards, and the counts of other shops that were taken in. */
import { z } from 'zod'
import { type BoardModel, loadBoard } from '../../board/index.ts'
import { type Case, closedCardOf, isCounted } from '../../case/index.ts'
import { type ClosedCard, countsSchema } from '../../rehearsal/index.ts'

export interface ClosedCards {
  readonly cards: readonly ClosedCard[]
  /** Cases with an outcome of which nobody confirmed what was wrong. */
  readonly unconfirmed: number
  /** Closed cases that could not be read. */
  readonly unreadable: number
}

export const recordChoiceSchema = z.object({
  /** The record's figures stand in place of the shipped ones. */
  inUse: z.boolean().catch(false),
  pools: z
    .array(
      z.object({
        name: z.string().min(1).max(200),
        all: countsSchema,
        boards: z.record(z.string(), countsSchema),
      }),
    )
    .catch([]),
})
export type RecordChoice = z.infer<typeof recordChoiceSchema>

export const noChoice: RecordChoice = { inUse: false, pools: [] }

/** What became of a closed case: a card with what tells it from others, or why it teaches nothing. */
export type Counted =
  | { readonly kind: 'card'; readonly key: string; readonly card: ClosedCard }
  | { readonly kind: 'unconfirmed' | 'unreadable' | 'none' }

/** @param model undefined where the board could not be loaded */
export function countedOf(caseFile: Case, model: BoardModel | undefined): Counted {
  const { demo, goodCard, handBack } = caseFile
  if (demo || goodCard || handBack.outcome === undefined) return { kind: 'none' }
  if (!isCounted(caseFile)) return { kind: 'unconfirmed' }
  const card = model === undefined ? undefined : closedCardOf(caseFile, model)
  return card === undefined ? { kind: 'unreadable' } : { kind: 'card', key: keyOf(caseFile), card }
}

/** The same visit, opened here twice from one file, is one card. */
const keyOf = ({ card, arrival, handBack, passes, measurements }: Case): string =>
  JSON.stringify([card, arrival, handBack, passes, measurements])

export function gathered(all: readonly Counted[]): ClosedCards {
  const cards = new Map(all.flatMap((each) => (each.kind === 'card' ? [[each.key, each.card] as const] : [])))
  const having = (kind: Counted['kind']): number => all.filter((each) => each.kind === kind).length
  return { cards: [...cards.values()], unconfirmed: having('unconfirmed'), unreadable: having('unreadable') }
}

/** Of cases with their boards inside. */
export function closedCardsOf(cases: readonly Case[]): ClosedCards {
  const models = new Map<unknown, BoardModel | undefined>()
  return gathered(
    cases.map((caseFile) => {
      if (caseFile.handBack.outcome === undefined) return { kind: 'none' }
      const inside = 'inline' in caseFile.board ? caseFile.board.inline : undefined
      if (inside !== undefined && !models.has(inside)) models.set(inside, modelOf(inside))
      return countedOf(caseFile, models.get(inside))
    }),
  )
}

export function modelOf(description: unknown): BoardModel | undefined {
  const loaded = loadBoard(description)
  return loaded.ok ? loaded.value : undefined
}
