/** The cautions of one station, where its hazards are met: what is dangerous here in one line, the sentences behind it. */
import { cautionsAt, dangersAt, type Station } from '../../case/index.ts'
import { CautionBox } from './pieces.tsx'
import { usePresent } from '../stores/hooks.ts'

interface StationCautionsProps {
  readonly station: Station
  /** Of the sentences; it also stands in sight where the station has no danger of its own. */
  readonly title: string
}

export function StationCautions({ station, title }: StationCautionsProps) {
  const present = usePresent()
  if (present === undefined) return undefined
  const dangers = dangersAt(station, present)
  return <CautionBox title={dangers ?? title} about={title} reasons={cautionsAt(station, present)} />
}
