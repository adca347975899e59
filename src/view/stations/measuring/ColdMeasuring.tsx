/** Cold measuring: every rail and stage to ground, before any power; and what that says about power. */
import { say } from '../../../base/index.ts'
import { setGoodCard } from './measure.ts'
import { Tick } from '../../controls/fields.tsx'
import { StationCautions } from '../../controls/StationCautions.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { usePhase } from '../../stores/measuring.ts'
import { BenchMeans } from './BenchMeans.tsx'
import { Cleaned } from './Cleaned.tsx'
import { MeasuringSheet } from './MeasuringSheet.tsx'
import { PhaseChoice } from './PhaseChoice.tsx'
import { PowerVerdict } from './PowerVerdict.tsx'
import { ShortFinder } from './short/ShortFinder.tsx'

export function ColdMeasuring() {
  const desk = useDesk()
  const present = usePresent()
  const phase = usePhase()
  if (present === undefined) return undefined
  return (
    <section className={styles.section} aria-label={say('Cold measuring')}>
      <div className={styles.heading}>
        <h2>{say('Cold measuring')}</h2>
        <span>{say('to ground, before any power')}</span>
      </div>
      <StationCautions station="cold-measuring" title={say('Before a probe goes on')} />
      <PowerVerdict />
      <PhaseChoice />
      <BenchMeans quantity="ohms" phase={phase} />
      <MeasuringSheet quantity="ohms" phase={phase} />
      <Cleaned />
      <Tick
        label={say('Card known to be good: the shop’s ranges learn from it')}
        checked={present.goodCard}
        onChange={(goodCard) => setGoodCard(desk, goodCard)}
      />
      <ShortFinder />
    </section>
  )
}
