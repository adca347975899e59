/** Above the sheet: two readings of a report that blame different parts, with the marks that they have on the sheet. */
import { joined, say } from '../../../../base/index.ts'
import { readAgain } from '../../../actions/reports.ts'
import { Button } from '../../../controls/Button.tsx'
import { useDesk } from '../../../stores/hooks.ts'
import type { Undecided, Way } from '../../../stores/twoReadings.ts'
import styles from './names.module.css'
import { ReadingSymbol } from './ReadingSymbol.tsx'
import { useShownPackages } from './useShownPackages.ts'

export function TwoReadingsBar({ undecided: { id, name, a, b } }: { readonly undecided: Undecided }) {
  useShownPackages()
  return (
    <section className={styles.bar} aria-label={say('Two readings of {name}', { name })}>
      <p>
        <b>{say('{name} can be read in two ways that blame different parts.', { name })}</b>{' '}
        {say('Nothing is lifted on its account until you say which is right.')}
      </p>
      <div className={styles.ways}>
        <WayRow id={id} of="A" way={a} />
        <WayRow id={id} of="B" way={b} />
      </div>
    </section>
  )
}

interface WayRowProps {
  readonly id: string
  readonly of: 'A' | 'B'
  readonly way: Way
}

const MOST_NAMED = 6

function WayRow({ id, of, way }: WayRowProps) {
  const desk = useDesk()
  const named = way.parts.slice(0, MOST_NAMED)
  const more = way.parts.length - named.length
  return (
    <div className={styles.way}>
      <ReadingSymbol of={of} />
      <p>
        {way.parts.length === 0
          ? say('{of}: no part fails', { of })
          : say('{of} blames {named}', {
              of,
              named:
                more > 0
                  ? say('{named} and {more, plural, one {# more} other {# more}}', { named: named.join(', '), more })
                  : joined(named),
            })}
        <small>{say('read as {way}', { way: rolesOf(way) })}</small>
      </p>
      <Button onClick={() => void readAgain(desk, id, way.recipe)}>{say('{of} is right', { of })}</Button>
    </div>
  )
}

/** `part (column 1), errors (column 3)`: what the columns are taken for. */
function rolesOf({ recipe }: Way): string {
  const roles = recipe.columns.filter(({ role }) => role !== 'ignore').map(({ role, at }) => `${role} (${placeOf(at)})`)
  return roles.length === 0 ? recipe.name : roles.join(', ')
}

const placeOf = (at: number | string): string => (typeof at === 'number' ? say('column {at}', { at: at + 1 }) : at)
