/** Rails in the side panel: names, voltage, ranges, what makes them, what they feed, where a probe reaches them. */
import { useState } from 'react'
import { someOf, say } from '../../base/index.ts'
import type { BoardEdit, Rail } from '../../board/index.ts'
import { Button, LinkButton } from '../controls/Button.tsx'
import { SelectField, TextField } from '../controls/fields.tsx'
import { CommitField, CommitNumber } from './CommitField.tsx'
import { edit, showParts } from './editorStore.ts'
import styles from './own-board.module.css'
import { tried } from './tried.ts'
import { Branches } from './Branches.tsx'
import { ProbePoints } from './ProbePoints.tsx'
import { useEditedBoard, useEditor, useEditorStore } from './useEditor.ts'

export function RailsPanel() {
  const editor = useEditorStore()
  const board = useEditedBoard()
  const name = useEditor((state) => state.rail)
  const rail = board.rails.find((each) => each.name === name)
  return (
    <>
      <SelectField
        label={say('Rail')}
        value={name ?? ''}
        options={[
          { value: '', words: board.rails.length === 0 ? say('no rail yet') : say('choose a rail') },
          ...board.rails.map((each) => ({ value: each.name, words: each.name })),
        ]}
        onChange={(next) => editor.setState({ rail: next === '' ? undefined : next, tool: 'select' })}
      />
      {rail !== undefined && <RailFields key={rail.name} rail={rail} />}
      <NewRail />
    </>
  )
}

function RailFields({ rail }: { readonly rail: Rail }) {
  const editor = useEditorStore()
  const { name, nominalV, tolerancePct } = rail
  const change = (fields: Extract<BoardEdit, { kind: 'change-rail' }>['change']): string | undefined =>
    tried(editor, { kind: 'change-rail', rail: name, change: fields })
  return (
    <section className={styles.fields} aria-label={say('Rail {name}', { name })}>
      <CommitField
        label={say('Name')}
        value={name}
        onCommit={(to) => {
          const wrong = tried(editor, { kind: 'rename-rail', rail: name, to: to.trim() })
          if (wrong === undefined) editor.setState({ rail: to.trim() })
          return wrong
        }}
      />
      <div className={styles.two}>
        <CommitNumber
          label={say('Nominal voltage')}
          unit="V"
          mayBeEmpty
          min={0.001}
          max={400}
          value={nominalV}
          onCommit={(v) => change({ nominalV: v ?? null })}
        />
        <CommitNumber
          label={say('Tolerance')}
          unit="± %"
          mayBeEmpty
          min={0.01}
          max={50}
          value={tolerancePct}
          onCommit={(v) => change({ tolerancePct: v ?? null })}
        />
      </div>
      <Ranges rail={rail} onChange={change} />
      <PartsOfRail rail={rail} way="make" />
      <PartsOfRail rail={rail} way="feed" />
      <Branches rail={rail} />
      <ProbePoints rail={rail} />
      <Button tone="quiet" onClick={() => edit(editor, { kind: 'remove-rail', rail: name })}>
        {say('Take the rail away')}
      </Button>
    </section>
  )
}

interface RangesProps {
  readonly rail: Rail
  readonly onChange: (fields: Extract<BoardEdit, { kind: 'change-rail' }>['change']) => string | undefined
}

const FROM_HERE = say('entered by hand')

/** Both ends are needed for a range: the first one typed stands for both until the other is known. */
function Ranges({ rail: { ohmsToGround: ohms, diodeToGround: diode }, onChange }: RangesProps) {
  const setOhms = (next: { lowOhm?: number | undefined; highOhm?: number | undefined }): string | undefined => {
    const low = next.lowOhm ?? ohms?.lowOhm ?? next.highOhm
    const high = next.highOhm ?? ohms?.highOhm ?? next.lowOhm
    if (low === undefined || high === undefined) return onChange({ ohmsToGround: null })
    return onChange({ ohmsToGround: { lowOhm: low, highOhm: high, from: ohms?.from ?? FROM_HERE } })
  }
  const setDiode = (next: { lowMv?: number | undefined; highMv?: number | undefined }): string | undefined => {
    const low = next.lowMv === undefined ? (diode?.lowV ?? (next.highMv ?? 0) / 1000) : next.lowMv / 1000
    const high = next.highMv === undefined ? (diode?.highV ?? (next.lowMv ?? 0) / 1000) : next.highMv / 1000
    return onChange({ diodeToGround: { lowV: low, highV: high, from: diode?.from ?? FROM_HERE } })
  }
  return (
    <>
      <div className={styles.two}>
        <CommitNumber
          label={say('To ground, from')}
          unit="Ω"
          min={0}
          value={ohms?.lowOhm}
          onCommit={(lowOhm) => setOhms({ lowOhm })}
        />
        <CommitNumber
          label={say('To ground, to')}
          unit="Ω"
          min={0.001}
          value={ohms?.highOhm}
          onCommit={(highOhm) => setOhms({ highOhm })}
        />
        <CommitNumber
          label={say('Diode mode, from')}
          unit="mV"
          min={0}
          max={5000}
          value={diode && diode.lowV * 1000}
          onCommit={(lowMv) => setDiode({ lowMv })}
        />
        <CommitNumber
          label={say('Diode mode, to')}
          unit="mV"
          min={1}
          max={5000}
          value={diode && diode.highV * 1000}
          onCommit={(highMv) => setDiode({ highMv })}
        />
      </div>
      {ohms !== undefined && (
        <CommitField
          label={say('Where the ohms are from')}
          value={ohms.from}
          onCommit={(from) => onChange({ ohmsToGround: { ...ohms, from: from.trim() } })}
        />
      )}
      {diode !== undefined && (
        <CommitField
          label={say('Where the diode mode is from')}
          value={diode.from}
          onCommit={(from) => onChange({ diodeToGround: { ...diode, from: from.trim() } })}
        />
      )}
      {(ohms !== undefined || diode !== undefined) && (
        <p className={styles.quiet}>
          {ohms !== undefined && (
            <LinkButton onClick={() => void onChange({ ohmsToGround: null })}>{say('Forget the ohms')}</LinkButton>
          )}{' '}
          {diode !== undefined && (
            <LinkButton onClick={() => void onChange({ diodeToGround: null })}>
              {say('Forget the diode mode')}
            </LinkButton>
          )}
        </p>
      )}
    </>
  )
}

/** What makes the rail, or what it feeds: those that are selected on the sheet join it or leave it. */
function PartsOfRail({ rail, way }: { readonly rail: Rail; readonly way: 'make' | 'feed' }) {
  const editor = useEditorStore()
  const selected = useEditor((state) => state.selected)
  const refs = way === 'make' ? rail.stages : rail.feeds
  const inside = selected.filter((ref) => refs.includes(ref))
  const outside = selected.filter((ref) => !refs.includes(ref))
  const set = (of: readonly string[], on: boolean) => (): void => {
    edit(
      editor,
      way === 'make'
        ? { kind: 'make', rail: rail.name, refs: [...of], makes: on }
        : { kind: 'feed', rail: rail.name, refs: [...of], fed: on },
    )
  }
  const title = way === 'make' ? say('Made by') : say('Feeds')
  return (
    <div className={styles.fields} role="group" aria-label={title}>
      <p>
        <b>{title}</b> {refs.length === 0 ? say('nothing known') : someOf(refs, 8)}{' '}
        {refs.length > 0 && <LinkButton onClick={() => showParts(editor, refs)}>{say('Select them')}</LinkButton>}
      </p>
      <div className={styles.buttons}>
        <Button disabled={outside.length === 0} onClick={set(outside, true)}>
          {say('Add {outside}', { outside: selectedWords(outside) })}
        </Button>
        <Button disabled={inside.length === 0} onClick={set(inside, false)}>
          {say('Remove {inside}', { inside: selectedWords(inside) })}
        </Button>
      </div>
    </div>
  )
}

const selectedWords = (refs: readonly string[]): string =>
  refs.length === 0
    ? say('what is selected')
    : refs.length <= 2
      ? someOf(refs)
      : say('{length, plural, one {# part} other {# parts}}', { length: refs.length })

function NewRail() {
  const editor = useEditorStore()
  const [typed, setTyped] = useState('')
  const add = (): void => {
    const name = typed.trim()
    if (name === '') return
    if (!edit(editor, { kind: 'add-rail', rail: { name, feeds: [], stages: [], branches: [], points: [] } })) return
    setTyped('')
    editor.setState({ rail: name })
  }
  return (
    <div className={styles.withButton}>
      <TextField
        label={say('A new rail')}
        placeholder={say('its name, such as 1V8')}
        maxLength={120}
        value={typed}
        onChange={setTyped}
      />
      <Button disabled={typed.trim() === ''} onClick={add}>
        {say('Add')}
      </Button>
    </div>
  )
}
