/** Whether repairing pays: what it costs, what the card is worth then, where it breaks even. */
import { roughMoney } from '../../../base/index.ts'
import { useId } from 'react'
import type { PlanAnswer } from '../../../plan/index.ts'
import { Opening } from '../../controls/pieces.tsx'
import panel from '../../controls/panel.module.css'
import { percent, minutesWords } from '../../stores/words.ts'
import styles from './plan.module.css'

interface WorthProps {
  readonly answer: PlanAnswer
  /** What is weighed: all of the repair, or only the part of it that comes off. */
  readonly work: 'Repairing' | 'This work alone'
}

export function Worth({ answer, work }: WorthProps) {
  const headingId = useId()
  const { worth, best } = answer
  return (
    <section className={styles.worth} aria-labelledby={headingId}>
      <h3 className={panel.sub} id={headingId}>
        {worth.expectedGain > 0
          ? `${work}: worth it, about +${roughMoney(worth.expectedGain)}`
          : `${work}: not worth it, about −${roughMoney(-worth.expectedGain)}`}
      </h3>
      <p>{worth.sentence}</p>
      <Opening summary="The figures">
        <dl className={panel.facts}>
          <dt>work</dt>
          <dd>{minutesWords(best.minutes)}</dd>
          <dt>cost of repair</dt>
          <dd>{roughMoney(worth.costOfRepair)}</dd>
          <dt>risk to neighbours</dt>
          <dd>{roughMoney(best.exposureCost)} expected harm</dd>
          <dt>works afterwards</dt>
          <dd>{percent(worth.successProbability)}</dd>
          <dt>worth then</dt>
          <dd>{roughMoney(worth.valueIfRepaired)}</dd>
          <dt>breaks even</dt>
          <dd>
            {Number.isFinite(worth.breakEvenValue)
              ? `at a card worth ${roughMoney(worth.breakEvenValue)}`
              : 'never: it can’t work afterwards'}
          </dd>
        </dl>
      </Opening>
    </section>
  )
}
