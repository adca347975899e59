/** What to have on the table, what to bake, and how many heats each part has left. */
import { counted, joined } from '../../../base/index.ts'
import { useId } from 'react'
import { isSmallKind } from '../../../board/index.ts'
import type { Plan } from '../../../plan/index.ts'
import panel from '../../controls/panel.module.css'
import { useBoard } from '../../stores/hooks.ts'
import styles from './plan.module.css'

export function Materials({ plan }: { readonly plan: Plan }) {
  const headingId = useId()
  const bakes = plan.steps.filter(({ action }) => action === 'bake')
  return (
    <section className={panel.section} aria-labelledby={headingId}>
      <h3 className={panel.sub} id={headingId}>
        Materials
      </h3>
      <p className={styles.small}>
        {bakes.length === 0
          ? 'Nothing has to be baked.'
          : bakes.map(({ refs, hours }) => `Bake ${joined(refs)} for ${hours ?? '?'} h.`).join(' ')}
      </p>
      <table className={panel.table}>
        <caption className="visually-hidden">Materials with amount, reason and cost</caption>
        <thead>
          <tr>
            <th scope="col">what</th>
            <th scope="col">how much</th>
            <th scope="col" className={panel.number}>
              cost
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
              <td className={panel.number}>{cost.toFixed(2)}</td>
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
        Heats left
      </h3>
      <HeatCountTable counts={plan.heatCounts.filter((entry) => !isSmall(entry))} of="packages" />
      {small.length > 0 && (
        <p className={panel.quiet}>
          {counted(small.length, 'small part melts', 'small parts melt')} in passing and stay where they are: the limit
          of melts is one of packages.
        </p>
      )}
    </section>
  )
}

function HeatCountTable({ counts, of }: { readonly counts: readonly HeatCount[]; readonly of: string }) {
  return (
    <table className={panel.table}>
      <caption className="visually-hidden">How often the joints of {of} have been molten, before and after</caption>
      <thead>
        <tr>
          <th scope="col">part</th>
          <th scope="col" className={panel.number}>
            so far
          </th>
          <th scope="col" className={panel.number}>
            after
          </th>
          <th scope="col">left of its limit</th>
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
  if (limit === undefined) return 'no limit'
  return after > limit ? `none: ${after - limit} over ${limit}` : `${limit - after} of ${limit}`
}
