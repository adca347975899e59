/** On the card of a report with names of its own: how many are told, and the way to them. */
import { say } from '../../../base/index.ts'
import { openNames } from './names/naming.ts'
import { Button } from '../../controls/Button.tsx'
import styles from '../../controls/panel.module.css'
import { useNamedReport } from './names/useWaiting.ts'
import { useBoard, useDesk, usePresent, useReadings } from '../../stores/hooks.ts'
import { namedReport } from './names/namingOfDesk.ts'

export function OwnNames({ id }: { readonly id: string }) {
  const desk = useDesk()
  const present = usePresent()
  const model = useBoard()?.model
  const readings = useReadings()
  const shown = useNamedReport()
  if (present === undefined || model === undefined) return undefined
  const named = namedReport({ present, model, readings }, id)
  if (named === undefined) return undefined
  const told = named.foreign.filter(({ name }) => named.told[name] !== undefined).length
  return (
    <div className={styles.row}>
      <p>
        {say('It has names of its own: {told} of {length} told{value}', {
          told,
          length: named.foreign.length,
          value: shown?.id === id ? say('; put them on the sheet.') : '.',
        })}
      </p>
      {shown?.id !== id && (
        <Button onClick={() => openNames(desk, id)}>
          {told === 0 ? say('Tell its names') : say('Change its names')}
        </Button>
      )}
    </div>
  )
}
