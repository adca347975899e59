/** The cautions of one station, where its hazards are met; they can't be closed. */
import { cautionsAt, type Station } from '../../case/index.ts'
import { CautionBox } from './pieces.tsx'
import { usePresent } from '../stores/hooks.ts'

interface StationCautionsProps {
  readonly station: Station
  readonly title: string
}

export function StationCautions({ station, title }: StationCautionsProps) {
  const present = usePresent()
  if (present === undefined) return undefined
  return <CautionBox title={title} reasons={cautionsAt(station, present)} />
}
