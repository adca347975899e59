/** The best order of another kind beside the plan, and what it costs more. */
import { asSentence, say } from '../../../base/index.ts'
import { type Figure, Figured, FiguredText } from '../../figures/index.ts'
import { useRoughMoney } from '../../stores/money.ts'
import { minutesWords } from '../../stores/words.ts'
import { useId } from 'react'
import panel from '../../controls/panel.module.css'
import { type Plan, type PlanAnswer, type PlanStep, stepTitle } from '../../../plan/index.ts'
import styles from './plan.module.css'

export function Alternative({ answer }: { readonly answer: PlanAnswer }) {
  const headingId = useId()
  const { best, alternative } = answer
  const money = useRoughMoney()
  return (
    <section className={panel.section} aria-labelledby={headingId}>
      <h3 className={panel.sub} id={headingId}>
        {say('Another way')}
      </h3>
      <p className={styles.small}>{best.optimality.sentence}</p>
      {alternative === undefined ? (
        <p className={panel.quiet}>{say('There is no allowed order of a clearly different kind.')}</p>
      ) : (
        <>
          <p className={styles.small}>
            {asSentence(alternative.differsIn)}{' '}
            <FiguredText
              words={say('It costs {money} more, harm to neighbours included.', {
                money: money(alternative.costsMore),
              })}
              numbers={[money(alternative.costsMore)]}
              of={{ kind: 'order' }}
            />
          </p>
          <SideBySide best={best} other={alternative.plan} />
        </>
      )}
    </section>
  )
}

const shown = ({ steps }: Plan): PlanStep[] => steps.filter(({ action }) => action !== 'prepare')

function SideBySide({ best, other }: { readonly best: Plan; readonly other: Plan }) {
  const money = useRoughMoney()
  const [left, right] = [shown(best), shown(other)]
  const rows = Array.from({ length: Math.max(left.length, right.length) }, (_, i) => i)
  const sums: readonly (readonly [string, Figure, (plan: Plan) => string])[] = [
    ['work', { kind: 'plan-minutes' }, (plan) => minutesWords(plan.minutes)],
    ['cost', { kind: 'plan-cost' }, (plan) => money(plan.cost)],
    [say('harm expected'), { kind: 'plan-harm' }, (plan) => money(plan.exposureCost)],
  ]
  return (
    <table className={panel.table}>
      <caption className="visually-hidden">{say('This plan and another order, side by side')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('step')}</th>
          <th scope="col">{say('this plan')}</th>
          <th scope="col">{say('the other way')}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((i) => (
          <tr key={i}>
            <th scope="row">{i + 1}</th>
            <td>{titleOf(left[i])}</td>
            <td>{titleOf(right[i])}</td>
          </tr>
        ))}
        {sums.map(([name, figure, words]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>
              <Figured of={figure}>{words(best)}</Figured>
            </td>
            <td>
              <Figured of={{ kind: 'order' }}>{words(other)}</Figured>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

const titleOf = (step: PlanStep | undefined): string => (step === undefined ? '–' : stepTitle(step))
