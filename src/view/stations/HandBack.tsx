/** Hand-back: what was done, what it cost, the record. */
import styles from '../panels/why.module.css'

export function HandBack() {
  return (
    <section className={styles.section} aria-label="Hand-back">
      <div className={styles.heading}>
        <h2>Hand-back</h2>
        <span>what was done, what it cost, the record</span>
      </div>
    </section>
  )
}
