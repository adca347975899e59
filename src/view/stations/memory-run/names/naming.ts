/** Names of a report to their places: taken in the hand, put down, filled by a pattern, taken back. */
import type { Point } from '../../../../base/index.ts'
import { type ForeignNames, lanesOfMeaning, type Meaning, sayMeaning } from '../../../../report/index.ts'
import { pointOnBoard } from '../../../sheet/index.ts'
import type { Desk } from '../../../stores/desk.ts'
import { freeShare, likelyShare, meaningAt } from '../../../stores/naming.ts'
import { type NamedReport, reportToName } from './namingOfDesk.ts'
import type { NamingScreen } from '../../../stores/screenStore.ts'
import { tellNames } from '../../../actions/reportWords.ts'

const change = (desk: Desk, next: Partial<NamingScreen>): void =>
  desk.screen.setState(({ naming }) => ({ naming: { ...naming, ...next } }))

export function holdName(desk: Desk, name: string | undefined): void {
  desk.screen.setState(({ naming }) => ({
    naming: { ...naming, held: name, aimed: undefined },
    ...(name === undefined ? {} : { tool: 'select', selection: undefined }),
  }))
}

export const chooseShare = (desk: Desk, share: NamingScreen['share']): void =>
  change(desk, share === undefined ? {} : { share })

export const choosePattern = (desk: Desk, pattern: string): void => change(desk, { pattern })

/** The names that are being told now. */
export function namingNow(desk: Desk): NamedReport | undefined {
  const { history, board } = desk.cases.getState()
  if (history === undefined || board === undefined) return undefined
  const { station, naming } = desk.screen.getState()
  const known = { present: history.present, model: board.model, readings: desk.readings.getState().byId }
  return reportToName(known, station, naming)
}

/** A name means this from now on; undefined takes back what it meant. The next name without a place is taken in hand. */
export function placeName(desk: Desk, name: string, meaning: Meaning | undefined): void {
  const now = namingNow(desk)
  if (now === undefined) return
  const { [name]: _, ...others } = now.told
  tellNames(desk, now.id, meaning === undefined ? others : { ...others, [name]: meaning })
  const at = now.foreign.findIndex((one) => one.name === name)
  const order = [...now.foreign.slice(at + 1), ...now.foreign.slice(0, at)]
  const next = meaning === undefined ? undefined : order.find((one) => others[one.name] === undefined)?.name
  holdName(desk, next)
}

export function fillNames(desk: Desk, names: ForeignNames): void {
  const now = namingNow(desk)
  if (now === undefined) return
  tellNames(desk, now.id, { ...names, ...now.told })
  holdName(desk, undefined)
}

/** Takes back what is told of this report's names. */
export function forgetNames(desk: Desk): void {
  const now = namingNow(desk)
  if (now === undefined) return
  const own = new Set(now.foreign.map(({ name }) => name))
  tellNames(desk, now.id, Object.fromEntries(Object.entries(now.told).filter(([name]) => !own.has(name))))
}

/** Puts the names of a report aside; its card brings them back. */
export function closeNames(desk: Desk): void {
  const now = namingNow(desk)
  holdName(desk, undefined)
  desk.screen.setState(({ naming }) => ({
    naming: {
      ...naming,
      report: undefined,
      closed: now === undefined ? naming.closed : [...naming.closed, now.id],
    },
  }))
}

export const openNames = (desk: Desk, id: string): void =>
  desk.screen.setState(({ naming }) => ({
    naming: { ...naming, report: id, closed: naming.closed.filter((other) => other !== id) },
  }))

const shareNow = (desk: Desk, now: NamedReport) => {
  const { board } = desk.cases.getState()
  return (
    desk.screen.getState().naming.share ?? (board === undefined ? 'package' : likelyShare(now.foreign, board.model))
  )
}

/** What lies under the name in the hand is lit up. */
export function aimAt(desk: Desk, place: { readonly at: Point; readonly side: 'top' | 'bottom' } | undefined): void {
  const now = namingNow(desk)
  const { board } = desk.cases.getState()
  if (now === undefined || board === undefined) return
  const meaning = place && meaningAt(board.model, place.at, place.side, shareNow(desk, now))
  const aimed = meaning === undefined ? [] : lanesOfMeaning(board.model, meaning)
  if (aimed.join() !== (desk.screen.getState().naming.aimed ?? []).join()) change(desk, { aimed })
}

/** Puts the name in the hand down at a point of the board; beside all packages it stays in the hand. */
export function putNameAt(desk: Desk, at: Point, side: 'top' | 'bottom'): void {
  const now = namingNow(desk)
  const { board } = desk.cases.getState()
  const { held } = desk.screen.getState().naming
  if (now === undefined || board === undefined || held === undefined) return
  const meaning = meaningAt(board.model, at, side, shareNow(desk, now))
  if (meaning !== undefined) placeName(desk, held, meaning)
}

/** By keyboard on the sheet: the first share of the package that is free. */
export function putNameOn(desk: Desk, ref: string): void {
  const now = namingNow(desk)
  const { board } = desk.cases.getState()
  const { held } = desk.screen.getState().naming
  if (now === undefined || board === undefined || held === undefined) return
  const { [held]: _, ...others } = now.told
  const meaning = board.model.memories.some((part) => part.ref === ref)
    ? freeShare(board.model, ref, shareNow(desk, now), others)
    : undefined
  if (meaning !== undefined) placeName(desk, held, meaning)
}

/** The place of the board under a point of the page; undefined beside the sheet. */
export function placeUnder(desk: Desk, page: Point): ReturnType<typeof pointOnBoard> {
  const sheet = document.querySelector('[data-testid="sheet"] .sheet')
  const { board } = desk.cases.getState()
  if (sheet === null || board === undefined) return undefined
  const frame = sheet.getBoundingClientRect()
  return pointOnBoard(board.camera.getState(), { x: page.x - frame.left, y: page.y - frame.top })
}

/** `U14`, `U14 (A0, A1)`, `U14.A0`: short enough for a chip. */
export function shortMeaning(desk: Desk, meaning: Meaning): string {
  const { board } = desk.cases.getState()
  if (board === undefined) return ''
  return sayMeaning(board.model, meaning).replace(/^.*half of /, '')
}
