/** Does every channel get the same share of the memory? By rank over GF(2) and coverage of residues, else by counting. */
import { type Fault, good, rank, type Result, say } from '../../base/index.ts'
import type { AddressMapDescription } from '../schema.ts'
import { type Balance, balanceJudge } from './balance.ts'
import { type Chain, chainOf, rowOf } from './columns.ts'
import { countChannels } from './enumerate.ts'
import { compileAddressMap } from './map.ts'
import { type AddressPlan, planAddressMap } from './plan.ts'
import { coverageFault, cutBlockFault, dependenceFaults, orderFaults } from './split-faults.ts'

export interface FairSplit {
  readonly fair: boolean
  /** `not proved`: neither algebra nor counting could decide; `fair` is false then, and there is no fault to name. */
  readonly proved: 'by rank' | 'by enumeration' | 'not proved'
  /** Each aligned block of so many bytes is split evenly too; undefined where it was not worked out. */
  readonly blockBytes?: number
  readonly faults: readonly Fault[]
}

const UNDECIDED: Result<FairSplit> = { ok: false, faults: [] }

/**
 * Every channel of the map must come up equally often among the mapped addresses.
 * @returns the verdict, how it was reached, and for each digit that breaks it what is wrong with it
 */
export function proveFairSplit(description: AddressMapDescription, pathPrefix = '$.addressMap'): FairSplit {
  const planned = planAddressMap(description, pathPrefix)
  if (!planned.ok) return { fair: false, proved: 'not proved', faults: planned.faults }
  const plan = planned.value
  const unequal = orderFaults(description, pathPrefix)
  if (unequal.length > 0) return { fair: false, proved: 'by rank', faults: unequal }
  const ruled = byRank(plan, description, pathPrefix)
  if (ruled.ok) return ruled.value
  return byCounting(plan, description, pathPrefix)
}

const refused = (...faults: Fault[]): Result<FairSplit> => good({ fair: false, proved: 'by rank', faults })

/** Not ok (and no fault) where the algebra does not decide. */
function byRank(plan: AddressPlan, description: AddressMapDescription, pathPrefix: string): Result<FairSplit> {
  const restCount = plan.channel.terms.filter(({ kind }) => kind === 'residue').length
  const chain = chainOf(plan, restCount)
  const uneven = coverageFault(plan, chain, description, pathPrefix)
  if (uneven !== undefined) return refused(uneven)
  if (!chain.whole) return UNDECIDED
  const rows = plan.channel.bits.map((bit) => rowOf(bit, chain))
  const dependent = dependenceFaults(plan, rows, pathPrefix)
  if (dependent.length > 0) return refused(...dependent)
  const judged = judgeSums(rows, chain)
  if (judged.balance === 'uneven') return refused(cutBlockFault(plan, judged.subset, description, pathPrefix))
  if (judged.balance === 'undecided') return UNDECIDED
  const blockBytes = smallestBlock(plan, chain)
  return good({ fair: true, proved: 'by rank', faults: [], ...(blockBytes === undefined ? {} : { blockBytes }) })
}

/** Judges each sum of some of the rows; the subset is the first that is uneven, one bit for each row. */
function judgeSums(rows: readonly bigint[], chain: Chain): { balance: Balance; subset: number } {
  const judge = balanceJudge(chain)
  let balance: Balance = 'even'
  for (let subset = 1; subset < 2 ** rows.length; subset++) {
    const judged = judge(rows.reduce((sum, row, i) => ((subset >> i) & 1 ? sum ^ row : sum), 0n))
    if (judged === 'uneven') return { balance: judged, subset }
    if (judged === 'undecided') balance = judged
  }
  return { balance, subset: 0 }
}

/**
 * The smallest aligned block that is split evenly by itself: with one residue, or none, every candidate leaves a power
 * of two to the rest, so that what holds for the first block holds for all.
 */
function smallestBlock(plan: AddressPlan, chain: Chain): number | undefined {
  if (chain.residues.length > 1) return undefined
  const size = plan.end - plan.first
  for (let block = chain.residues[0]?.evenBlock ?? 1; block > 0 && block <= size; block *= 2) {
    const part = chainOf({ ...plan, first: 0, end: block }, chain.residues.length)
    const rows = plan.channel.bits.map((bit) => rowOf(bit, part))
    if (part.whole && rank(rows) === rows.length && judgeSums(rows, part).balance === 'even') return block
  }
  return undefined
}

function byCounting(plan: AddressPlan, description: AddressMapDescription, pathPrefix: string): FairSplit {
  const compiled = compileAddressMap(description, pathPrefix)
  const counts = compiled.ok ? countChannels(plan, compiled.value) : undefined
  if (counts === undefined) return { fair: false, proved: 'not proved', faults: [] }
  const least = counts.indexOf(Math.min(...counts))
  const most = counts.indexOf(Math.max(...counts))
  if (counts[least] === counts[most]) return { fair: true, proved: 'by enumeration', faults: [] }
  const share = (channel: number): string => `${description.channel.order[channel]} ${counts[channel]}`
  const fault: Fault = {
    path: `${pathPrefix}.channel.digits`,
    found: say('of all addresses {most} and {least}', { most: share(most), least: share(least) }),
    expected: say('the same share for every channel'),
    todo: say('The digits depend on each other: let the xor digits read bits that no mod digit gathers, or the rest.'),
  }
  return { fair: false, proved: 'by enumeration', faults: [fault] }
}
