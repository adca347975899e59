/** Hand-back: what was done, what it cost, the record. */
import { StationCautions } from '../panels/StationCautions.tsx'
import styles from '../panels/why.module.css'

export function HandBack() {
  return (
    <section className={styles.section} aria-label="Hand-back">
      <div className={styles.heading}>
        <h2>Hand-back</h2>
        <span>what was done, what it cost, the record</span>
      </div>
      <StationCautions station="hand-back" title="Before it leaves" />
    </section>
  )
}
