/** What the pass does to the parts that it is meant for. */
import { say } from '../../../base/index.ts'
import type { HeatRun } from '../../../heat/index.ts'
import panel from '../../controls/panel.module.css'

export function TargetFacts({ run, refs }: { readonly run: HeatRun; readonly refs: readonly string[] }) {
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
            <td>{span(part.coldestJointPeakC, part.jointPeakC, '°C')}</td>
            <td>{span(part.coldestAboveLiquidusS, part.aboveLiquidusS, 's')}</td>
            <td>
              {say('{bodyPeakC} of {bodyLimitC} °C', {
                bodyPeakC: Math.round(part.bodyPeakC),
                bodyLimitC: part.bodyLimitC,
              })}
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
