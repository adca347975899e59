/** Systems that could be behind the names: one is shown on the sheet with question marks, and fills the rest when it is taken. */
import { say } from '../../../../base/index.ts'
import { WandSparkles } from 'lucide-react'
import { useMemo } from 'react'
import type { BoardModel } from '../../../../board/index.ts'
import type { ForeignName, ForeignNames } from '../../../../report/index.ts'
import { choosePattern, fillNames } from './naming.ts'
import { Button } from '../../../controls/Button.tsx'
import { useDesk, useScreen } from '../../../stores/hooks.ts'
import { patternsFor } from '../../../stores/naming.ts'
import styles from './names.module.css'

interface PatternsProps {
  readonly foreign: readonly ForeignName[]
  readonly told: ForeignNames
  readonly model: BoardModel
}

export function Patterns({ foreign, told, model }: PatternsProps) {
  const desk = useDesk()
  const chosen = useScreen((screen) => screen.naming.pattern)
  const patterns = useMemo(() => patternsFor(foreign, model, told), [foreign, model, told])
  const shown = patterns.find(({ title }) => title === chosen) ?? patterns[0]
  if (shown === undefined) {
    return <p className={styles.hint}>{say('No pattern fits what you have told: put the rest on one by one.')}</p>
  }
  return (
    <>
      <label className={styles.row}>
        {Object.keys(told).length === 0 ? say('Perhaps') : say('The rest perhaps')}
        <select
          className={styles.select}
          aria-label={say('Pattern of the names')}
          value={shown.title}
          onChange={(event) => choosePattern(desk, event.target.value)}
        >
          {patterns.map(({ title }) => (
            <option key={title} value={title}>
              {title}
            </option>
          ))}
        </select>
      </label>
      <Button title={say('As it stands on the sheet with question marks')} onClick={() => fillNames(desk, shown.names)}>
        <WandSparkles size={15} aria-hidden="true" /> {say('Fill in as shown')}
      </Button>
    </>
  )
}
