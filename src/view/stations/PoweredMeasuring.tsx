/** Powered measuring: whether to give power, that it was given, voltages, and what the host sees. */
import { StationCautions } from '../panels/StationCautions.tsx'
import styles from '../panels/why.module.css'
import { usePresent } from '../stores/hooks.ts'
import { usePhase } from '../stores/measuring.ts'
import { GivePower } from './measuring/GivePower.tsx'
import { MeasuringSheet } from './measuring/MeasuringSheet.tsx'
import { MeterBar } from './measuring/MeterBar.tsx'
import { PhaseChoice } from './measuring/PhaseChoice.tsx'
import { PoweredFacts } from './measuring/PoweredFacts.tsx'
import { PowerVerdict } from './measuring/PowerVerdict.tsx'

export function PoweredMeasuring() {
  const present = usePresent()
  const phase = usePhase()
  if (present === undefined) return undefined
  return (
    <section className={styles.section} aria-label="Powered measuring">
      <div className={styles.heading}>
        <h2>Powered measuring</h2>
        <span>voltages, and what the host sees</span>
      </div>
      <PowerVerdict />
      <StationCautions station="powered-measuring" title="Before you give it power" />
      <PhaseChoice />
      <GivePower />
      <MeterBar quantity="volts" phase={phase} />
      <MeasuringSheet quantity="volts" phase={phase} />
      <PoweredFacts powered={present.powered} />
    </section>
  )
}
