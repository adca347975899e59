/** Whether repairing pays: what it costs, what the card is worth then, where it breaks even. */
import { useId } from 'react'
import type { PlanAnswer } from '../../../plan/index.ts'
import { money } from '../../panels/LiftList.tsx'
import panel from '../../panels/why.module.css'
import { minutesWords } from '../../stores/planWords.ts'
import { percent } from '../../stores/words.ts'
import styles from './plan.module.css'

export function Worth({ answer }: { readonly answer: PlanAnswer }) {
  const headingId = useId()
  const { worth, best } = answer
  return (
    <section className={styles.worth} aria-labelledby={headingId}>
      <h3 className={panel.sub} id={headingId}>
        {worth.expectedGain > 0
          ? `Repairing pays: ${money(worth.expectedGain)} expected`
          : `Repairing does not pay: ${money(-worth.expectedGain)} expected loss`}
      </h3>
      <p>{worth.sentence}</p>
      <dl className={panel.facts}>
        <dt>work</dt>
        <dd>{minutesWords(best.minutes)}</dd>
        <dt>cost of repair</dt>
        <dd>{money(worth.costOfRepair)}</dd>
        <dt>risk to neighbours</dt>
        <dd>{money(best.exposureCost)} expected harm</dd>
        <dt>works afterwards</dt>
        <dd>{percent(worth.successProbability)}</dd>
        <dt>worth then</dt>
        <dd>{money(worth.valueIfRepaired)}</dd>
        <dt>breaks even</dt>
        <dd>
          {Number.isFinite(worth.breakEvenValue)
            ? `at a card worth ${money(worth.breakEvenValue)}`
            : 'never: it can’t work afterwards'}
        </dd>
      </dl>
    </section>
  )
}
