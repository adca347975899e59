/** The joints' curves as numbers: what the chart shows, for everybody who can't see it. */
import { say } from '../../../base/index.ts'
import type { HeatRun } from '../../../heat/index.ts'
import panel from '../../controls/panel.module.css'
import { curveRows } from './heatFacts.ts'
import styles from './plan.module.css'

export function CurveTable({ curves }: { readonly curves: HeatRun['curves'] }) {
  return (
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- scrolls sideways, so a keyboard must reach it
    <div className={styles.scroll} tabIndex={0} role="region" aria-label={say('Joint temperatures over time')}>
      <table className={panel.table}>
        <caption className="visually-hidden">{say('Hottest joint of each part, °C, over time')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('time')}</th>
            {curves.map(({ ref }) => (
              <th key={ref} scope="col" className={panel.number}>
                {ref}, °C
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {curveRows(curves).map(({ timeS, jointC }) => (
            <tr key={timeS}>
              <th scope="row">{timeS} s</th>
              {jointC.map((value, i) => (
                <td key={curves[i]?.ref} className={panel.number}>
                  {value === undefined ? '–' : Math.round(value)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
