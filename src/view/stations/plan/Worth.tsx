/** Whether repairing pays: what it costs, what the card is worth then, where it breaks even. */
import { say } from '../../../base/index.ts'
import { ChevronRight } from 'lucide-react'
import {
  type PlanAnswer,
  resolveShopSettings,
  wholeWorth,
  type WholeWorth,
  wholeWorthWords,
} from '../../../plan/index.ts'
import { endingMeans } from '../../../suspects/index.ts'
import panel from '../../controls/panel.module.css'
import { useNextChecks, usePresent } from '../../stores/hooks.ts'
import { useRoughMoney } from '../../stores/money.ts'
import { percent, minutesWords } from '../../stores/words.ts'
import styles from './plan.module.css'

interface WorthProps {
  readonly answer: PlanAnswer
  /** What is weighed: all of the repair, or only the part of it that comes off. */
  readonly work: 'Repairing' | 'This work alone'
}

export function Worth({ answer, work }: WorthProps) {
  const money = useRoughMoney()
  const { worth, best } = answer
  const whole = useWhole(work)
  return (
    <details className={styles.worth} aria-label={say('Whether it pays')}>
      <summary>
        <h3>{headline(work, whole?.gain ?? worth.expectedGain, money)}</h3>
        <ChevronRight size={16} aria-hidden="true" />
      </summary>
      <div>
        {whole !== undefined && <p>{wholeWorthWords(whole, money)}</p>}
        <p>{worth.sentence}</p>
        <dl className={panel.facts}>
          <dt>{say('work')}</dt>
          <dd>{minutesWords(best.minutes)}</dd>
          <dt>{say('cost of repair')}</dt>
          <dd>{money(worth.costOfRepair)}</dd>
          <dt>{say('harm to neighbours')}</dt>
          <dd>{say('{exposureCost} on average', { exposureCost: money(best.exposureCost) })}</dd>
          <dt>{say('works afterwards')}</dt>
          <dd>{percent(worth.successProbability)}</dd>
          <dt>{say('worth then')}</dt>
          <dd>{money(worth.valueIfRepaired)}</dd>
          <dt>{say('breaks even')}</dt>
          <dd>
            {Number.isFinite(worth.breakEvenValue)
              ? say('at a card worth {breakEvenValue}', { breakEvenValue: money(worth.breakEvenValue) })
              : say('never: it can’t work afterwards')}
          </dd>
        </dl>
      </div>
    </details>
  )
}

/** Of all that is proposed, where that is reckoned: these steps are its beginning. */
function useWhole(work: WorthProps['work']): WholeWorth | undefined {
  const { state, proposal } = useNextChecks()
  const shop = usePresent()?.shop
  const settings = resolveShopSettings(shop)
  if (work !== 'Repairing' || state !== 'done' || !settings.ok) return undefined
  const means = endingMeans(proposal?.endings ?? [])
  return means === undefined ? undefined : wholeWorth(means, settings.value.money)
}

function headline(work: WorthProps['work'], gain: number, money: (amount: number) => string): string {
  const about = gain > 0 ? `about +${money(gain)}` : `about −${money(-gain)}`
  if (work === 'Repairing') return `${gain > 0 ? say('Worth repairing') : say('Not worth repairing')}: ${about}`
  return `${work}: ${gain > 0 ? say('worth it') : say('not worth it')}, ${about}`
}
