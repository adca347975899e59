/** What of the reports waits for the user above the sheet, and how it stands on the sheet meanwhile. */
import { useMemo } from 'react'
import { aimAt, putNameAt, putNameOn } from './naming.ts'
import type { SheetNames, SheetProps, TwoReadings } from '../../../sheet/index.ts'
import { useBoard, useDesk, usePresent, useReadings, useScreen } from '../../../stores/hooks.ts'
import { patternsFor, toldOf } from '../../../stores/naming.ts'
import { type NamedReport, reportToName, toldNames } from './namingOfDesk.ts'
import { wordsOf } from '../../../stores/boardWords.ts'
import { sheetNamesOf } from './sheetNames.ts'
import { type Undecided, undecidedAt } from '../../../stores/twoReadings.ts'

export function useNamedReport(): NamedReport | undefined {
  const present = usePresent()
  const model = useBoard()?.model
  const readings = useReadings()
  const station = useScreen((screen) => screen.station)
  const naming = useScreen((screen) => screen.naming)
  const { report, closed } = naming
  return useMemo(
    () =>
      present === undefined || model === undefined
        ? undefined
        : reportToName({ present, model, readings }, station, { report, closed }),
    [present, model, readings, station, report, closed],
  )
}

export function useUndecided(): Undecided | undefined {
  const reports = usePresent()?.reports
  const readings = useReadings()
  const station = useScreen((screen) => screen.station)
  return useMemo(
    () => (reports === undefined ? undefined : undecidedAt(station, reports, readings)),
    [reports, readings, station],
  )
}

/** All names that the board's words tell, of whatever report. */
export function useToldNames(): NamedReport['told'] {
  const present = usePresent()
  const model = useBoard()?.model
  const readings = useReadings()
  return useMemo(() => {
    if (present === undefined || model === undefined) return {}
    const words = wordsOf(present, model)
    const ofReports = [...readings.values()].map((reading) => toldNames(reading, words))
    return Object.assign({}, ...words.map(({ names = {} }) => names), ...ofReports)
  }, [present, model, readings])
}

type OfSheet = Pick<SheetProps, 'names' | 'twoReadings' | 'aimed' | 'onPlace'>

interface NamesOnSheet extends OfSheet {
  /** A part was chosen by key while a name is in the hand; @returns whether that is what it was for */
  readonly takesPart: (ref: string | undefined) => boolean
  readonly onAim: (at: Parameters<typeof aimAt>[1]) => void
}

/** @param isSwitchedOn whether names that were told stand on the sheet in place of refs */
export function useNamesOnSheet(isSwitchedOn: boolean): NamesOnSheet {
  const desk = useDesk()
  const model = useBoard()?.model
  const named = useNamedReport()
  const undecided = useUndecided()
  const told = useToldNames()
  const held = useScreen((screen) => screen.naming.held)
  const aimed = useScreen((screen) => screen.naming.aimed)
  const chosen = useScreen((screen) => screen.naming.pattern)
  const names = useMemo((): SheetNames | undefined => {
    if (model === undefined) return undefined
    if (named === undefined) return isSwitchedOn ? sheetNamesOf(model, told) : undefined
    const own = toldOf(named.foreign, named.told)
    const patterns = patternsFor(named.foreign, model, own)
    return sheetNamesOf(model, own, (patterns.find(({ title }) => title === chosen) ?? patterns[0])?.names)
  }, [model, named, told, isSwitchedOn, chosen])
  const twoReadings = useMemo(
    (): TwoReadings | undefined =>
      undecided === undefined || named !== undefined ? undefined : { a: undecided.a.parts, b: undecided.b.parts },
    [undecided, named],
  )
  const isPlacing = named !== undefined && held !== undefined
  return {
    names,
    twoReadings,
    ...(isPlacing && aimed !== undefined ? { aimed } : {}),
    onPlace: isPlacing ? (at, side) => putNameAt(desk, at, side) : undefined,
    takesPart: (ref) => {
      if (!isPlacing || ref === undefined) return false
      putNameOn(desk, ref)
      return true
    },
    onAim: (at) => {
      if (isPlacing) aimAt(desk, at)
    },
  }
}
