/** Proof: tested again, before beside after. */
import { StationCautions } from '../panels/StationCautions.tsx'
import styles from '../panels/why.module.css'

export function Proof() {
  return (
    <section className={styles.section} aria-label="Proof">
      <div className={styles.heading}>
        <h2>Proof</h2>
        <span>tested again, before beside after</span>
      </div>
      <StationCautions station="proof" title="Before you power it again" />
    </section>
  )
}
