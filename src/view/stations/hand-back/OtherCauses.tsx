/** Causes that are no parts: a rail, a track, a slip, liquid on the board; a tick each, and where, as far as it is known. */
import { say } from '../../../base/index.ts'
import { branchesOf, type CausesFound } from '../../../rehearsal/index.ts'
import { failingLanes } from '../../../case/index.ts'
import { SelectField, Tick } from '../../controls/fields.tsx'
import panel from '../../controls/panel.module.css'
import { useBoard, useTally } from '../../stores/hooks.ts'
import styles from './handback.module.css'

type Others = CausesFound['others']
type What = Others[number]['what']

const words: Readonly<Record<What, string>> = {
  rail: say('a rail'),
  track: say('a track or a small part on the way'),
  slip: say('what a tool hit'),
  liquid: say('liquid on the board, cured by washing'),
}
const kinds: readonly What[] = ['rail', 'track', 'slip', 'liquid']
const ANYWHERE = ''

interface OtherCausesProps {
  readonly others: Others
  readonly onChange: (others: Others) => void
}

export function OtherCauses({ others, onChange }: OtherCausesProps) {
  const model = useBoard()?.model
  const tally = useTally()
  const places: Readonly<Record<What, readonly string[]>> = {
    rail: model === undefined ? [] : [...model.rails.map(({ name }) => name), ...branchesOf(model).keys()],
    track: failingLanes(tally),
    slip: [],
    liquid: [],
  }
  return (
    <fieldset className={styles.others}>
      <legend className={panel.quiet}>{say('Causes other than a part')}</legend>
      {kinds.map((what) => {
        const found = others.find((other) => other.what === what)
        const rest = others.filter((other) => other.what !== what)
        return (
          <div key={what}>
            <Tick
              label={words[what]}
              checked={found !== undefined}
              onChange={(ticked) => onChange(ticked ? [...rest, { what }] : rest)}
            />
            {found !== undefined && places[what].length > 0 && (
              <SelectField
                label={say('Which: {words}', { words: words[what] })}
                labelHidden
                value={found.at ?? ANYWHERE}
                options={[
                  { value: ANYWHERE, words: say('which one is not known') },
                  ...places[what].map((name) => ({ value: name, words: name })),
                ]}
                onChange={(at) => onChange([...rest, at === ANYWHERE ? { what } : { what, at }])}
              />
            )}
          </div>
        )
      })}
    </fieldset>
  )
}
