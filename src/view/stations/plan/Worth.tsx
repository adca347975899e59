/** Whether repairing pays: what it costs, what the card is worth then, where it breaks even. */
import { say } from '../../../base/index.ts'
import { ChevronRight } from 'lucide-react'
import {
  type PlanAnswer,
  resolveShopSettings,
  wholeWorth,
  type WholeWorth,
  wholeWorthWords,
  worthWords,
} from '../../../plan/index.ts'
import { endingMeans } from '../../../suspects/index.ts'
import { Figured, FiguredText } from '../../figures/index.ts'
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
        <h3>
          <Headline work={work} gain={whole?.gain ?? worth.expectedGain} />
        </h3>
        <ChevronRight size={16} aria-hidden="true" />
      </summary>
      <div>
        {whole !== undefined && (
          <p>
            <FiguredText
              words={wholeWorthWords(whole, money)}
              numbers={[money(whole.money), money(Math.abs(whole.gain))]}
              of={WORTH}
            />
          </p>
        )}
        <p>
          <FiguredText
            words={worthWords(worth, money)}
            numbers={[money(Math.abs(worth.expectedGain)), money(worth.breakEvenValue)]}
            of={(number) => ({ kind: number.endsWith('%') ? 'plan-works' : 'worth' })}
          />
        </p>
        <dl className={panel.facts}>
          <dt>{say('work')}</dt>
          <dd>
            <Figured of={{ kind: 'plan-minutes' }}>{minutesWords(best.minutes)}</Figured>
          </dd>
          <dt>{say('cost of repair')}</dt>
          <dd>
            <Figured of={{ kind: 'plan-cost' }}>{money(worth.costOfRepair)}</Figured>
          </dd>
          <dt>{say('harm to neighbours')}</dt>
          <dd>
            <FiguredText
              words={say('{money} on average', { money: money(best.exposureCost) })}
              numbers={[money(best.exposureCost)]}
              of={{ kind: 'plan-harm' }}
            />
          </dd>
          <dt>{say('works afterwards')}</dt>
          <dd>
            <Figured of={{ kind: 'plan-works' }}>{percent(worth.successProbability)}</Figured>
          </dd>
          <dt>{say('worth then')}</dt>
          <dd>
            <Figured of={WORTH}>{money(worth.valueIfRepaired)}</Figured>
          </dd>
          <dt>{say('breaks even')}</dt>
          <dd>
            {Number.isFinite(worth.breakEvenValue) ? (
              <FiguredText
                words={say('at a card worth {money}', { money: money(worth.breakEvenValue) })}
                numbers={[money(worth.breakEvenValue)]}
                of={WORTH}
              />
            ) : (
              say('never: it can’t work afterwards')
            )}
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

function Headline({ work, gain }: { readonly work: WorthProps['work']; readonly gain: number }) {
  const money = useRoughMoney()
  if (Math.abs(gain) < NOTHING)
    return work === 'Repairing'
      ? say('Repairing brings as much as leaving it')
      : say('This work alone brings as much as leaving it')
  const about = gain > 0 ? `+${money(gain)}` : `−${money(-gain)}`
  if (work === 'Repairing')
    return gain > 0
      ? say('Worth repairing: about {about}', { about })
      : say('Not worth repairing: about {about}', { about })
  return gain > 0
    ? say('This work alone: worth it, about {about}', { about })
    : say('This work alone: not worth it, about {about}', { about })
}

/** Less of the currency than this is rounded to nothing. */
const NOTHING = 0.5

const WORTH = { kind: 'worth' } as const
