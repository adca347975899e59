/** What to have on the table, what to bake, and how many heats each part has left. */
import { decimals, joined, say } from '../../../base/index.ts'
import { useId } from 'react'
import { isSmallKind } from '../../../board/index.ts'
import type { Plan } from '../../../plan/index.ts'
import { Figured, FiguredText } from '../../figures/index.ts'
import panel from '../../controls/panel.module.css'
import { useBoard } from '../../stores/hooks.ts'
import styles from './plan.module.css'

export function Materials({ plan }: { readonly plan: Plan }) {
  const headingId = useId()
  const bakes = plan.steps.filter(({ action }) => action === 'bake')
  return (
    <section className={panel.section} aria-labelledby={headingId}>
      <h3 className={panel.sub} id={headingId}>
        {say('Materials')}
      </h3>
      <p className={styles.small}>
        <FiguredText
          words={
            bakes.length === 0
              ? plan.unbaked || say('Nothing has to be baked.')
              : bakes
                  .map(({ refs, hours }) =>
                    say('Bake {refs} for {hours} h.', { refs: joined(refs), hours: hours ?? '?' }),
                  )
                  .join(' ')
          }
          units={['h']}
          of={{ kind: 'recipe', n: bakes[0]?.n ?? 0 }}
        />
      </p>
      <table className={panel.table}>
        <caption className="visually-hidden">{say('Materials with amount, reason and cost')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('what')}</th>
            <th scope="col">{say('how much')}</th>
            <th scope="col" className={panel.number}>
              {say('cost')}
            </th>
          </tr>
        </thead>
        <tbody>
          {plan.materials.map(({ what, amount, why, cost }) => (
            <tr key={`${what} ${amount} ${why}`}>
              <th scope="row">
                {what}
                <div className={styles.because}>{why}</div>
              </th>
              <td>{amount}</td>
              <td className={panel.number}>
                <Figured of={{ kind: 'plan-cost' }}>{decimals(cost, 2)}</Figured>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

type HeatCount = Plan['heatCounts'][number]

export function HeatCounts({ plan }: { readonly plan: Plan }) {
  const headingId = useId()
  const model = useBoard()?.model
  if (plan.heatCounts.length === 0) return undefined
  const isSmall = ({ ref }: HeatCount): boolean => isSmallKind(model?.partByRef.get(ref)?.kind)
  const small = plan.heatCounts.filter(isSmall)
  return (
    <section className={panel.section} aria-labelledby={headingId}>
      <h3 className={panel.sub} id={headingId}>
        {say('Heats left')}
      </h3>
      <HeatCountTable counts={plan.heatCounts.filter((entry) => !isSmall(entry))} of="packages" />
      {small.length > 0 && (
        <p className={panel.quiet}>
          {say(
            '{length, plural, one {# small part melts} other {# small parts melt}} in passing and stay where they are: the limit of melts is one of packages.',
            { length: small.length },
          )}
        </p>
      )}
    </section>
  )
}

function HeatCountTable({ counts, of }: { readonly counts: readonly HeatCount[]; readonly of: string }) {
  return (
    <table className={panel.table}>
      <caption className="visually-hidden">
        {say('How often the joints of {of} have been molten, before and after', { of })}
      </caption>
      <thead>
        <tr>
          <th scope="col">{say('part')}</th>
          <th scope="col" className={panel.number}>
            {say('so far')}
          </th>
          <th scope="col" className={panel.number}>
            {say('after')}
          </th>
          <th scope="col">{say('left of its limit')}</th>
        </tr>
      </thead>
      <tbody>
        {counts.map(({ ref, before, after, limit }) => (
          <tr key={ref}>
            <th scope="row">{ref}</th>
            <td className={panel.number}>{before}</td>
            <td className={panel.number}>{after}</td>
            <td>{leftOf(after, limit)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function leftOf(after: number, limit: number | undefined): string {
  if (limit === undefined) return say('no limit')
  return after > limit
    ? say('none: {after} over {limit}', { after: after - limit, limit })
    : say('{limit} of {limit2}', { limit: limit - after, limit2: limit })
}
