/** What somebody at the bench is told and sees when the card comes: the owner's account, the report, what lies on it. */
import { decimals, millimetres, type Point, say, someOf } from '../../base/index.ts'
import type { BoardModel, Side } from '../../board/index.ts'
import type { Tally } from '../../report/index.ts'
import { type SpillMark, substances } from '../../spill/index.ts'
import type { Observations, SimulatedReport } from '../simulator/types.ts'
import { placeSaid } from '../../suspects/index.ts'
import { edgesToLook } from '../simulator/looks.ts'

/**
 * Sentences in the order in which the bench hears them: what the owner says, spills, slips, what was looked at. Only
 * what was observed is told, never the truth.
 */
export function accountWords(model: BoardModel, observations: Observations): string[] {
  const { told, spills, slips } = observations
  const said = {
    accident: spills.length + slips.length > 0 ? [] : [say('The owner says that something happened, and not what.')],
    'no-accident': [say('The owner says that nothing happened to it.')],
    unknown: [say('The owner says nothing about how it came about.')],
  }[told]
  return [
    ...said,
    ...spills.map((mark) => spillWords(model, mark)),
    ...slips.map(({ at, side, radiusMm }) =>
      say('A scratch of about {size} was found {place}: a tool slipped.', {
        size: millimetres(2 * radiusMm),
        place: placeOn(model, at, side),
      }),
    ),
    ...lookedWords(model, observations),
  ]
}

/** Edges at which somebody looked before, as the map shows them too. */
function lookedWords(model: BoardModel, { areas, spills }: Observations): string[] {
  const nameOf = new Map(edgesToLook(model, spills).map(({ mark, at }) => [mark.id, placeSaid(at)]))
  const seen = (isDirty: boolean): string[] =>
    areas.filter(({ kind }) => (kind !== 'clean') === isDirty).flatMap(({ id }) => nameOf.get(id) ?? [])
  const [dirty, clean] = [seen(true), seen(false)]
  return [
    ...(dirty.length > 0 ? [say('Residue was seen at {places}.', { places: someOf(dirty, 6) })] : []),
    ...(clean.length > 0 ? [say('Looked at and clean: {places}.', { places: someOf(clean, 6) })] : []),
  ]
}

function spillWords(model: BoardModel, mark: SpillMark): string {
  const { at, side, substance, amount, downDeg, sdMm, pressed, pushMm } = mark
  const name = (substances.find(({ id }) => id === substance)?.name ?? substance).split(',')[0] ?? substance
  const much =
    'volumeMl' in amount
      ? say('about {value} ml', { value: amount.volumeMl.toPrecision(2) })
      : say('about {value} cm²', { value: amount.smearCm2.toPrecision(2) })
  const where = say('{place}, give or take {sdMm} mm', { place: placeOn(model, at, side), sdMm })
  const mounted =
    downDeg === undefined ? '' : say(' The card stood on edge: {downDeg} was down.', { downDeg: downWords(downDeg) })
  const push =
    pressed === 'yes'
      ? pushMm > 0
        ? say(' A cooler was pressed on it and pushed it {pushMm}.', { pushMm: millimetres(pushMm) })
        : say(' A cooler was pressed on it.')
      : pressed === 'no'
        ? say(' No cooler was pressed on it.')
        : ''
  return say('{name}, {much}, got onto it {where}.{mounted}{push}', { name, much, where, mounted, push })
}

const DOWN = [say('the right edge'), say('the upper edge'), say('the left edge'), say('the lower edge')] as const

const downWords = (downDeg: number): string => DOWN[Math.round((((downDeg % 360) + 360) % 360) / 90) % 4] ?? DOWN[3]

/** `near U13 on the top side (147, 84)` */
export function placeOn(model: BoardModel, at: Point, side: Side): string {
  const bodies = model.core === undefined ? model.memories : [model.core, ...model.memories]
  const far = ({ box }: (typeof bodies)[number]): number =>
    Math.hypot(Math.max(box.minX - at.x, 0, at.x - box.maxX), Math.max(box.minY - at.y, 0, at.y - box.maxY))
  const nearest = bodies.filter((part) => part.side === side).toSorted((a, b) => far(a) - far(b))[0]
  const near =
    nearest === undefined
      ? ''
      : far(nearest) === 0
        ? say('at {ref} ', { ref: nearest.ref })
        : say('near {ref} ', { ref: nearest.ref })
  return say('{near}on the {side, select, top {top} other {bottom}} side ({x}, {y})', {
    near,
    side,
    x: decimals(at.x, 0),
    y: decimals(at.y, 0),
  })
}

/** Longer reports are shown from their beginning. */
const MOST_CHARACTERS = 20_000

export interface SeenReport {
  readonly layout: string
  readonly text: string
  /** Characters that are not shown. */
  readonly cut: number
  /** What was read out of it, in sentences. */
  readonly read: readonly string[]
}

/** The beginning of a report as the bench sees it, how many characters were cut, and what was read out of it. */
export function seenReport(report: SimulatedReport, tally: Tally): SeenReport {
  const whole =
    report.kind === 'text' ? report.text : report.rows.map((row) => [row.lane, row.errors].join('  ')).join('\n')
  return {
    layout: report.layout,
    text: whole.slice(0, MOST_CHARACTERS),
    cut: Math.max(0, whole.length - MOST_CHARACTERS),
    read: readWords(tally),
  }
}

function readWords({ parts }: Tally): string[] {
  const states = parts.map(({ ref, channels }) => ({
    ref,
    lanes: channels.flatMap(({ lanes }) => lanes.map(({ state }) => state)),
  }))
  const untested = states.filter(({ lanes }) => lanes.every((state) => state === 'untested')).map(({ ref }) => ref)
  const failing = parts.filter(({ errors }) => errors > 0)
  const clean = states.length - failing.length - untested.length
  return [
    ...(failing.length === 0
      ? [say('No lane fails in this run.')]
      : failing.map(({ signature }) => signature.sentence)),
    ...(failing.length > 0 && clean > 0 ? [say('No errors at the other {clean}.', { clean })] : []),
    ...(untested.length > 0
      ? [say('The report says nothing about {untested}.', { untested: someOf(untested, 12) })]
      : []),
  ]
}
