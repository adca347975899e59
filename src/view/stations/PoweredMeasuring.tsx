/** Powered measuring: voltages, and what the host sees. */
import { StationCautions } from '../panels/StationCautions.tsx'
import styles from '../panels/why.module.css'

export function PoweredMeasuring() {
  return (
    <section className={styles.section} aria-label="Powered measuring">
      <div className={styles.heading}>
        <h2>Powered measuring</h2>
        <span>voltages, and what the host sees</span>
      </div>
      <StationCautions station="powered-measuring" title="Before you give it power" />
    </section>
  )
}
