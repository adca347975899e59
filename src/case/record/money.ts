/** What the visit took: hours, parts, labour, the sum and what was charged, and how they fit together. */
import { resolveShopSettings } from '../../plan/index.ts'
import { totalsOf } from '../invoice/totals.ts'
import type { Case } from '../schema.ts'

export interface Bill {
  readonly currency: string
  readonly parts: readonly {
    readonly what: string
    readonly count: number
    readonly price: number
    readonly sum: number
  }[]
  readonly partsSum: number
  readonly minutes: number | undefined
  /** In the shop's currency. */
  readonly hourlyRate: number
  /** `minutes` at the hourly rate; undefined without minutes. */
  readonly labour: number | undefined
  readonly sum: number
  /** The sum of the invoice, with tax; else what was noted as charged. */
  readonly charged: number | undefined
  /** `charged` − `sum`, rounded to a hundredth; undefined where nothing was charged yet. */
  readonly difference: number | undefined
}

/** What the owner pays: the sum of the invoice, else what was noted as charged; undefined while neither is there. */
export const chargedOf = ({ handBack, invoice }: Pick<Case, 'handBack' | 'invoice'>): number | undefined =>
  invoice === undefined ? handBack.charged : totalsOf(invoice).gross

/** The price of a used part is that of one piece. */
export function billOf({ caseFile }: { readonly caseFile: Pick<Case, 'handBack' | 'shop' | 'invoice'> }): Bill {
  const { handBack, shop } = caseFile
  const settings = resolveShopSettings(shop)
  const hourlyRate = settings.ok ? settings.value.money.hourlyRate : 0
  const parts = handBack.usedParts.map((part) => ({ ...part, sum: hundredth(part.count * part.price) }))
  const partsSum = hundredth(parts.reduce((total, part) => total + part.sum, 0))
  const { minutes } = handBack
  const charged = chargedOf(caseFile)
  const labour = minutes === undefined ? undefined : hundredth((minutes / 60) * hourlyRate)
  const sum = hundredth(partsSum + (labour ?? 0))
  const difference = charged === undefined ? undefined : hundredth(charged - sum)
  return { currency: handBack.currency, parts, partsSum, minutes, hourlyRate, labour, sum, charged, difference }
}

const hundredth = (value: number): number => Math.round((value + Number.EPSILON) * 100) / 100
