/** The table entered by hand: what failed, which bit if known, how often; 0 errors means tested and clean. */
import { say } from '../../../base/index.ts'
import { Trash2 } from 'lucide-react'
import type { TableRow } from '../../../report/index.ts'
import { isHandTable, setHandTable } from '../../actions/reports.ts'
import { Button } from '../../controls/Button.tsx'
import styles from '../../controls/panel.module.css'
import { shareSaid } from './handPlace.ts'
import { useBoard, useDesk, usePresent } from '../../stores/hooks.ts'
import { HandRow } from './HandRow.tsx'
import own from '../../controls/stations.module.css'

export function HandTable() {
  const desk = useDesk()
  const model = useBoard()?.model
  const rows = usePresent()?.reports.find(isHandTable)?.table ?? []
  if (model === undefined) return undefined
  return (
    <div className={styles.section}>
      <ul className={own.marks} aria-label={say('Rows entered by hand')}>
        {rows.map((row, i) => {
          const share = shareSaid(model, row)
          return (
            <li key={`${i} ${whatOf(row)}`}>
              <div className={own.markHead}>
                <p style={{ flex: 1, padding: '5px 10px' }}>
                  <b>{whatOf(row)}</b> {share !== undefined && <span>({share}) </span>}
                  {row.errors === 0
                    ? say('tested and clean')
                    : say('{errors, plural, one {# error} other {# errors}}', { errors: row.errors })}
                </p>
                <Button
                  size="icon"
                  tone="quiet"
                  aria-label={say('Remove {row}', { row: whatOf(row) })}
                  onClick={() =>
                    setHandTable(
                      desk,
                      rows.filter((other) => other !== row),
                    )
                  }
                >
                  <Trash2 size={15} aria-hidden="true" />
                </Button>
              </div>
            </li>
          )
        })}
      </ul>
      <HandRow model={model} onAdd={(added) => setHandTable(desk, [...rows, ...added])} />
    </div>
  )
}

const whatOf = (row: TableRow): string =>
  `${row.lane ?? row.channel ?? row.part ?? ''}${row.bit === undefined ? '' : ` ${say('bit {bit}', { bit: row.bit })}`}`
