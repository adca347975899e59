/** Cold measuring: every rail and stage to ground, before any power. */
import { StationCautions } from '../panels/StationCautions.tsx'
import styles from '../panels/why.module.css'
import { ShortFinder } from './ShortFinder.tsx'

export function ColdMeasuring() {
  return (
    <section className={styles.section} aria-label="Cold measuring">
      <div className={styles.heading}>
        <h2>Cold measuring</h2>
        <span>every rail and stage to ground, before any power</span>
      </div>
      <StationCautions station="cold-measuring" title="Before a probe goes on" />
      <ShortFinder />
    </section>
  )
}
