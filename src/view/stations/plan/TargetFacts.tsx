/** What the pass does to the parts that it is meant for. */
import { say } from '../../../base/index.ts'
import type { HeatRun } from '../../../heat/index.ts'
import { Figured } from '../../figures/index.ts'
import panel from '../../controls/panel.module.css'

interface TargetFactsProps {
  /** Number of the step. */
  readonly n: number
  readonly run: HeatRun
  readonly refs: readonly string[]
}

export function TargetFacts({ n, run, refs }: TargetFactsProps) {
  const targets = run.parts.filter(({ ref }) => refs.includes(ref))
  return (
    <table className={panel.table}>
      <caption className="visually-hidden">{say('The target’s joints and body in this pass')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('target')}</th>
          <th scope="col">{say('joints peak')}</th>
          <th scope="col">{say('molten for')}</th>
          <th scope="col">{say('body, limit')}</th>
        </tr>
      </thead>
      <tbody>
        {targets.map((part) => (
          <tr key={part.ref}>
            <th scope="row">{part.ref}</th>
            <td>
              <Figured of={{ kind: 'joint-peak', ref: part.ref, n }}>
                {span(part.coldestJointPeakC, part.jointPeakC, '°C')}
              </Figured>
            </td>
            <td>
              <Figured of={{ kind: 'joint-peak', ref: part.ref, n }}>
                {span(part.coldestAboveLiquidusS, part.aboveLiquidusS, 's')}
              </Figured>
            </td>
            <td>
              <Figured of={{ kind: 'body-peak', ref: part.ref }}>
                {say('{bodyPeakC} of {bodyLimitC} °C', {
                  bodyPeakC: Math.round(part.bodyPeakC),
                  bodyLimitC: part.bodyLimitC,
                })}
              </Figured>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** From the coldest to the hottest joint. */
function span(low: number | undefined, high: number, unit: string): string {
  const [from, to] = [Math.round(low ?? high), Math.round(high)]
  return from === to ? `${to} ${unit}` : say('{from} to {to} {unit}', { from, to, unit })
}
