/** What can be asked of `npm run scorecard`. */
import { cpus } from 'node:os'
import { parseArgs } from 'node:util'
import { mixtureNames } from '../../../src/rehearsal/index.ts'
import { SHIPPED } from '../../support/read-board.ts'

export const USAGE = `npm run scorecard -- [--cards 2000] [--seed 1] [--mixture ${mixtureNames.join('|')}] [--varied]
  [--boards a,b] [--one-shot] [--remedies 0] [--json] [--dump FILE] [--page FILE] [--workers N]`

export interface Options {
  readonly cards: number
  readonly seed: number
  readonly mixture: string
  /** Each weight of the mixture is drawn anew around it, from the seed. */
  readonly varied: boolean
  readonly boards: readonly string[]
  readonly oneShot: boolean
  /** On so many of the cards somebody follows the proposals remedy by remedy. */
  readonly remedies: number
  readonly json: boolean
  readonly dump: string | undefined
  readonly page: string | undefined
  readonly workers: number
}

export function readOptions(args: readonly string[]): Options | string {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: {
        cards: { type: 'string', default: '2000' },
        seed: { type: 'string', default: '1' },
        mixture: { type: 'string', default: 'middle' },
        varied: { type: 'boolean', default: false },
        boards: { type: 'string', default: SHIPPED.join(',') },
        'one-shot': { type: 'boolean', default: false },
        remedies: { type: 'string', default: '0' },
        json: { type: 'boolean', default: false },
        dump: { type: 'string' },
        page: { type: 'string' },
        help: { type: 'boolean', default: false },
        workers: { type: 'string', default: `${Math.max(1, cpus().length)}` },
      },
    })
    if (values.help) return USAGE
    const boards = values.boards.split(',')
    const cards = Number(values.cards)
    const seed = Number(values.seed)
    const workers = Number(values.workers)
    const remedies = Number(values.remedies)
    const strange = boards.find((name) => !SHIPPED.some((shipped) => shipped === name))
    if (strange !== undefined) return `Found board ${strange}, expected some of ${SHIPPED.join(', ')}.`
    if (!mixtureNames.includes(values.mixture))
      return `Found mixture ${values.mixture}, expected one of ${mixtureNames.join(', ')}.`
    if (![cards, seed, workers].every((value) => Number.isInteger(value) && value > 0))
      return 'Expected whole numbers above 0 for --cards, --seed and --workers.'
    if (!Number.isInteger(remedies) || remedies < 0) return 'Expected a whole number from 0 up for --remedies.'
    const { mixture, varied, json, dump, page } = values
    return { cards, seed, mixture, varied, boards, oneShot: values['one-shot'], remedies, json, dump, page, workers }
  } catch (error) {
    return error instanceof Error ? error.message : 'Unreadable options.'
  }
}
