/** Above the sheet: names of a report that are not the board's, each to be put on its package, half or lane. */
import { say } from '../../../../base/index.ts'
import { useMemo } from 'react'
import { nameConflicts } from '../../../../report/index.ts'
import type { BoardModel } from '../../../../board/index.ts'
import { chooseShare, closeNames, forgetNames, placeName } from './naming.ts'
import { Button } from '../../../controls/Button.tsx'
import { useDesk, useScreen } from '../../../stores/hooks.ts'
import { allChoices, likelyShare, type NameShare, shareWords, toldOf } from '../../../stores/naming.ts'
import type { NamedReport } from './namingOfDesk.ts'
import pane from '../../../controls/sheetPane.module.css'
import { Conflicts } from './Conflicts.tsx'
import { NameChip } from './NameChip.tsx'
import styles from './names.module.css'
import { Patterns } from './Patterns.tsx'
import { useShownPackages } from './useShownPackages.ts'

const shares: readonly NameShare[] = ['package', 'half', 'lane']

export function NamesBar({ named, model }: { readonly named: NamedReport; readonly model: BoardModel }) {
  const desk = useDesk()
  const { held, share } = useScreen((screen) => screen.naming)
  const { name: report, foreign, told } = named
  const own = useMemo(() => toldOf(foreign, told), [foreign, told])
  const conflicts = useMemo(() => nameConflicts(own, model), [own, model])
  const left = foreign.length - Object.keys(own).length
  const shown = share ?? likelyShare(foreign, model)
  useShownPackages()
  return (
    <section className={styles.bar} aria-label={say('Names of {report}', { report })}>
      <div className={styles.head}>
        {held === undefined ? (
          <p>
            <b>{say('{report} has names of its own.', { report })}</b>{' '}
            {left === 0
              ? say('Each has its place.')
              : say('Drag each onto its place, or press a name and then its place.')}
          </p>
        ) : (
          <PlaceSelect key={held} name={held} told={own} model={model} />
        )}
        <span className={styles.row}>
          <span role="status">
            {say('{length} of {length2} told', { length: foreign.length - left, length2: foreign.length })}
          </span>
          {left < foreign.length && <Button onClick={() => forgetNames(desk)}>{say('Take all back')}</Button>}
          <Button onClick={() => closeNames(desk)}>{left === 0 ? say('Done') : say('Not now')}</Button>
        </span>
      </div>
      <ul className={styles.chips} aria-label={say('Names of the report')}>
        {foreign.map((name) => (
          <li key={name.name}>
            <NameChip name={name} meaning={told[name.name]} isHeld={held === name.name} />
          </li>
        ))}
      </ul>
      <div className={styles.row}>
        <span>{say('One name is')}</span>
        <div className={pane.joined} role="group" aria-label={say('One name is')}>
          {shares.map((one) => (
            <button key={one} type="button" aria-pressed={one === shown} onClick={() => chooseShare(desk, one)}>
              {shareWords[one]}
            </button>
          ))}
        </div>
        {left > 0 && <Patterns foreign={foreign} told={own} model={model} />}
      </div>
      <Conflicts conflicts={conflicts} />
    </section>
  )
}

interface PlaceSelectProps {
  readonly name: string
  readonly told: NamedReport['told']
  readonly model: BoardModel
}

/** The same without pointing: for keys, and for what is too small to hit. */
function PlaceSelect({ name, told, model }: PlaceSelectProps) {
  const desk = useDesk()
  const choices = useMemo(() => allChoices(model), [model])
  return (
    <label className={styles.row}>
      <b>{name}</b> {say('means')}
      <select
        className={styles.select}
        aria-label={say('{name} means', { name })}
        value={told[name] === undefined ? '' : JSON.stringify(told[name])}
        onChange={(event) => {
          placeName(desk, name, choices.find(({ key }) => key === event.target.value)?.meaning)
        }}
      >
        <option value="">{say('not said')}</option>
        {choices.map(({ key, label }) => (
          <option key={key} value={key}>
            {label}
          </option>
        ))}
      </select>
      <span className={styles.hint}>{say('or press its place on the sheet')}</span>
    </label>
  )
}
