/** What a wash may do is no reason to lift: said apart from the chance that the part must come off. */
import { percent, say } from '../../base/index.ts'
import type { PartSuspicion } from '../../suspects/index.ts'
import panel from '../controls/panel.module.css'
import { FiguredText } from './Figured.tsx'

/** Smaller chances are not worth a line. */
const TOLD_FROM = 0.01

export const isWashTold = ({ probability, comesOff }: PartSuspicion): boolean => probability - comesOff >= TOLD_FROM

export function WashMayDo({ part }: { readonly part: PartSuspicion }) {
  if (!isWashTold(part)) return undefined
  const words = say('Must come off: {comesOff}. A wash may do: {washMayDo}.', {
    comesOff: percent(part.comesOff),
    washMayDo: percent(part.probability - part.comesOff),
  })
  return (
    <p className={panel.quiet}>
      <FiguredText words={words} of={{ kind: 'part-chance', ref: part.ref }} />
    </p>
  )
}
