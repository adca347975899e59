/** Suspects: the lift list, the stories behind it, the cautions before heat, and the assumptions, each open to change. */
import { stationCautions } from '../../case/index.ts'
import { CautionBox, Opening } from '../controls/pieces.tsx'
import { LiftList } from '../panels/LiftList.tsx'
import { Stories } from '../panels/Stories.tsx'
import styles from '../panels/why.module.css'
import { usePresent } from '../stores/hooks.ts'
import { AssumptionsEditor } from './AssumptionsEditor.tsx'

export function Suspects() {
  const present = usePresent()
  if (present === undefined) return undefined
  const sentences = stationCautions(present).flatMap((entry) => (entry.station === 'suspects' ? [entry.sentence] : []))
  const changed = Object.values(present.assumptions ?? {}).reduce(
    (sum, section) => sum + Object.keys(section ?? {}).length,
    0,
  )
  return (
    <>
      <LiftList />
      <Stories />
      <CautionBox title="Before you heat anything" reasons={sentences} />
      <section className={styles.section} aria-label="Assumptions">
        <Opening summary={changed === 0 ? 'Assumptions: priors and costs' : `Assumptions: ${changed} changed by you`}>
          <AssumptionsEditor />
        </Opening>
      </section>
    </>
  )
}
