/** The board was cleaned and dried: what is marked on it no longer speaks against power; a mark made since does again. */
import { say } from '../../../base/index.ts'
import { isCleaned } from '../../../measure/index.ts'
import { editCleaned, setCleaned } from './measure.ts'
import { TextField, Tick } from '../../controls/fields.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { SelfOpening } from './SelfOpening.tsx'

const DIRTY = ['spill', 'residue', 'film', 'corrosion']

export function Cleaned() {
  const desk = useDesk()
  const present = usePresent()
  if (present === undefined) return undefined
  const { cleaned, marks, arrival } = present
  const dirty = marks.filter(({ kind }) => DIRTY.includes(kind))
  const since = cleaned === undefined ? [] : dirty.filter((mark) => !isCleaned(mark, cleaned))
  const spilled = arrival.accident === 'spill' || arrival.accident === 'flux'
  if (cleaned === undefined && dirty.length === 0 && !spilled) return undefined
  const again = say('{length, plural, one {# mark was} other {# marks were}} made since', { length: since.length })
  const held = cleaned === undefined ? say('not noted') : since.length > 0 ? again : 'yes'
  return (
    <SelfOpening summary={say('Cleaned and dried: {held}', { held })} asks={since.length > 0}>
      <div className={styles.section}>
        <Tick
          label={say('The board was cleaned and dried since, also under the parts that came off')}
          checked={cleaned !== undefined && since.length === 0}
          onChange={(done) => setCleaned(desk, done)}
        />
        {since.length > 0 && (
          <p className={styles.quiet}>
            {say(
              '{length, plural, one {# mark was} other {# marks were}} made after the cleaning and {length, plural, one {counts} other {count}} again.',
              { length: since.length },
            )}
          </p>
        )}
        {cleaned !== undefined && (
          <TextField
            label={say('With what, and how it was dried')}
            maxLength={2000}
            value={cleaned.note}
            onChange={(note) => editCleaned(desk, note)}
          />
        )}
      </div>
    </SelfOpening>
  )
}
