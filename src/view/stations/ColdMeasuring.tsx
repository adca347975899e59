/** Cold measuring: every rail and stage to ground, before any power; and what that says about power. */
import { setGoodCard } from '../actions/measure.ts'
import { Tick } from '../controls/fields.tsx'
import { StationCautions } from '../panels/StationCautions.tsx'
import styles from '../panels/why.module.css'
import { useDesk, usePresent } from '../stores/hooks.ts'
import { usePhase } from '../stores/measuring.ts'
import { Cleaned } from './measuring/Cleaned.tsx'
import { LeadsChoice } from './measuring/LeadsChoice.tsx'
import { MeasuringSheet } from './measuring/MeasuringSheet.tsx'
import { MeterBar } from './measuring/MeterBar.tsx'
import { PhaseChoice } from './measuring/PhaseChoice.tsx'
import { PowerVerdict } from './measuring/PowerVerdict.tsx'
import { ShortFinder } from './ShortFinder.tsx'

export function ColdMeasuring() {
  const desk = useDesk()
  const present = usePresent()
  const phase = usePhase()
  if (present === undefined) return undefined
  return (
    <section className={styles.section} aria-label="Cold measuring">
      <div className={styles.heading}>
        <h2>Cold measuring</h2>
        <span>every rail and stage to ground, before any power</span>
      </div>
      <StationCautions station="cold-measuring" title="Before a probe goes on" />
      <PowerVerdict />
      <PhaseChoice />
      <LeadsChoice />
      <MeterBar quantity="ohms" phase={phase} />
      <MeasuringSheet quantity="ohms" phase={phase} />
      <Cleaned />
      <Tick
        label="This card is known to be good: the shop’s ranges for this board learn from it"
        checked={present.goodCard}
        onChange={(goodCard) => setGoodCard(desk, goodCard)}
      />
      <ShortFinder />
    </section>
  )
}
