/** Parts in the side panel: a list that selects by keyboard, the fields of the one that is selected, copies, a new one. */
import { useMemo, useState } from 'react'
import { say } from '../../base/index.ts'
import { type BoardEdit, orderOfKind, packageOutlines, type Part, partKinds } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { NumberField, SelectField, TextField } from '../controls/fields.tsx'
import { Opening } from '../controls/pieces.tsx'
import { AddPart } from './AddPart.tsx'
import { BallTable } from './BallTable.tsx'
import { CommitField, CommitNumber } from './CommitField.tsx'
import { edit, select, showParts } from './editorStore.ts'
import styles from './own-board.module.css'
import { kindOptions, tried } from './tried.ts'
import { useEditedBoard, useEditor, useEditorStore } from './useEditor.ts'

export function PartsPanel() {
  const board = useEditedBoard()
  const selected = useEditor((state) => state.selected)
  const only = selected.length === 1 ? board.parts.find(({ ref }) => ref === selected[0]) : undefined
  return (
    <>
      {only !== undefined && <PartFields key={only.ref} part={only} />}
      {selected.length > 1 && (
        <p>
          <b>{say('{length, plural, one {# part} other {# parts}} selected.', { length: selected.length })}</b>{' '}
          {say('The strip above lines them up, spaces and turns them.')}
        </p>
      )}
      {only !== undefined && partKinds[only.kind].onBalls && (
        <Opening summary={say('Balls from a table')}>
          <BallTable key={only.ref} part={only} />
        </Opening>
      )}
      {selected.length > 0 && (
        <Opening summary={say('Copies in rows')}>
          <Copies />
        </Opening>
      )}
      <Opening summary={say('Add a part')} open={false}>
        <AddPart />
      </Opening>
      <PartList />
    </>
  )
}

const bondings = [
  { value: 'none', words: say('not bonded') },
  { value: 'corner', words: say('glued at its corners') },
  { value: 'edge', words: say('bonded at its edge') },
  { value: 'underfill', words: say('underfilled') },
] as const

function PartFields({ part }: { readonly part: Part }) {
  const editor = useEditorStore()
  const { ref, kind } = part
  return (
    <section className={styles.fields} aria-label={say('Part {ref}', { ref })}>
      <div className={styles.two}>
        <CommitField
          label={say('Ref')}
          value={ref}
          onCommit={(to) => {
            const wrong = tried(editor, { kind: 'rename', ref, to: to.trim() })
            if (wrong === undefined) select(editor, [to.trim()])
            return wrong
          }}
        />
        <SelectField
          label={say('Kind')}
          value={kind}
          options={kindOptions}
          onChange={(next) => void tried(editor, { kind: 'change-part', ref, change: { kind: next } })}
        />
      </div>
      <PlaceFields part={part} />
      <StateFields part={part} />
      <WhatItIs part={part} />
      <Body part={part} />
    </section>
  )
}

function PlaceFields({ part: { ref, at, rotationDeg } }: { readonly part: Part }) {
  const editor = useEditorStore()
  return (
    <div className={styles.three}>
      <CommitNumber
        label="x"
        unit="mm"
        value={at.x}
        onCommit={(x = at.x) => tried(editor, { kind: 'place', ref, at: { x, y: at.y } })}
      />
      <CommitNumber
        label="y"
        unit="mm"
        value={at.y}
        onCommit={(y = at.y) => tried(editor, { kind: 'place', ref, at: { x: at.x, y } })}
      />
      <CommitNumber
        label={say('Turned')}
        unit="°"
        min={-360}
        max={360}
        value={rotationDeg}
        onCommit={(deg = rotationDeg) =>
          tried(editor, { kind: 'rotate', refs: [ref], byDeg: (deg - rotationDeg) % 360, about: 'each' })
        }
      />
    </div>
  )
}

const ON_BOARD = ''

function StateFields({ part }: { readonly part: Part }) {
  const { ref, kind, side, bonding, standoffMm, heatCount, carriedBy } = part
  const editor = useEditorStore()
  const core = useEditedBoard().parts.find((each) => each.kind === 'core')?.ref
  const change = (fields: Extract<BoardEdit, { kind: 'change-part' }>['change']): string | undefined =>
    tried(editor, { kind: 'change-part', ref, change: fields })
  return (
    <>
      <div className={styles.two}>
        <SelectField
          label={say('Side')}
          value={side}
          options={[
            { value: 'top', words: say('top') },
            { value: 'bottom', words: say('bottom') },
          ]}
          onChange={(to) => void tried(editor, { kind: 'change-side', refs: [ref], to })}
        />
        <SelectField
          label={say('Bonding')}
          value={bonding}
          options={bondings}
          onChange={(next) => void change({ bonding: next })}
        />
      </div>
      <div className={styles.two}>
        <CommitNumber
          label={say('Gap under it')}
          unit="mm"
          mayBeEmpty
          min={0}
          max={20}
          value={standoffMm}
          onCommit={(mm) => change({ standoffMm: mm ?? null })}
        />
        <CommitNumber
          label={say('Heats so far')}
          mayBeEmpty
          min={0}
          max={100}
          value={heatCount}
          onCommit={(count) => change({ heatCount: count === undefined ? null : Math.round(count) })}
        />
      </div>
      {kind === 'memory' && core !== undefined && (
        <SelectField
          label={say('Stands on')}
          value={carriedBy ?? ON_BOARD}
          options={[
            { value: ON_BOARD, words: say('the board') },
            { value: core, words: say('the substrate of {core}', { core }) },
          ]}
          onChange={(on) => void change({ carriedBy: on === ON_BOARD ? null : on })}
        />
      )}
    </>
  )
}

const OWN_BODY = ''

/** Its package, value and price: what is bought when it is replaced. */
function WhatItIs({ part }: { readonly part: Part }) {
  const editor = useEditorStore()
  const { ref, kind, value, price, package: name } = part
  const change = (fields: Extract<BoardEdit, { kind: 'change-part' }>['change']): string | undefined =>
    tried(editor, { kind: 'change-part', ref, change: fields })
  const packages = [...packageOutlines.values()].filter((outline) => outline.kind === kind)
  return (
    <>
      {packages.length > 0 && (
        <SelectField
          label={say('Package')}
          value={name ?? OWN_BODY}
          options={[
            ...(part.body === undefined ? [] : [{ value: OWN_BODY, words: say('its own body') }]),
            ...packages.map((outline) => ({ value: outline.name, words: outline.title })),
          ]}
          onChange={(next) => void change(next === OWN_BODY ? { package: null } : { package: next, body: null })}
        />
      )}
      <div className={styles.two}>
        <CommitField
          label={say('Value')}
          value={value ?? ''}
          onCommit={(text) => change({ value: text.trim() === '' ? null : text.trim() })}
        />
        <CommitNumber
          label={say('Price of a new one')}
          mayBeEmpty
          min={0}
          max={1e6}
          value={price}
          onCommit={(amount) => change({ price: amount ?? null })}
        />
      </div>
    </>
  )
}

function Body({ part }: { readonly part: Part }) {
  const editor = useEditorStore()
  const { ref, body, package: name } = part
  if (body === undefined)
    return <p className={styles.quiet}>{say('Body, balls and regions are those of the package {name}.', { name })}</p>
  const set = (fields: Partial<typeof body>): string | undefined =>
    tried(editor, { kind: 'change-part', ref, change: { body: { ...body, ...fields } } })
  return (
    <div className={styles.three}>
      <CommitNumber
        label={say('Width')}
        unit="mm"
        min={0.001}
        max={2000}
        value={body.widthMm}
        onCommit={(mm) => set({ widthMm: mm ?? body.widthMm })}
      />
      <CommitNumber
        label={say('Length')}
        unit="mm"
        min={0.001}
        max={2000}
        value={body.lengthMm}
        onCommit={(mm) => set({ lengthMm: mm ?? body.lengthMm })}
      />
      <CommitNumber
        label={say('Height')}
        unit="mm"
        min={0}
        max={200}
        value={body.heightMm}
        onCommit={(mm) => set({ heightMm: mm ?? body.heightMm })}
      />
    </div>
  )
}

function Copies() {
  const editor = useEditorStore()
  const selected = useEditor((state) => state.selected)
  const [columns, setColumns] = useState(2)
  const [rows, setRows] = useState(1)
  const [x, setX] = useState(10)
  const [y, setY] = useState(10)
  const make = (): void => {
    const before = new Set(editor.getState().session.board.parts.map(({ ref }) => ref))
    if (!edit(editor, { kind: 'array', refs: [...selected], columns, rows, pitchMm: { x, y } })) return
    const fresh = editor.getState().session.board.parts.filter(({ ref }) => !before.has(ref))
    select(editor, [...selected, ...fresh.map(({ ref }) => ref)])
  }
  return (
    <div className={styles.fields}>
      <div className={styles.two}>
        <NumberField
          label={say('Columns')}
          value={columns}
          min={1}
          max={200}
          onChange={(next) => setColumns(Math.round(next))}
        />
        <NumberField
          label={say('Rows')}
          value={rows}
          min={1}
          max={200}
          onChange={(next) => setRows(Math.round(next))}
        />
        <NumberField label={say('Step in x')} unit="mm" value={x} min={-500} max={500} onChange={setX} />
        <NumberField label={say('Step in y')} unit="mm" value={y} min={-500} max={500} onChange={setY} />
      </div>
      <Button onClick={make}>{say('Make the copies')}</Button>
    </div>
  )
}

const MOST_LISTED = 80

function PartList() {
  const editor = useEditorStore()
  const board = useEditedBoard()
  const selected = useEditor((state) => state.selected)
  const [typed, setTyped] = useState('')
  const wanted = typed.trim().toLowerCase()
  const sorted = useMemo(() => board.parts.toSorted((a, b) => orderOfKind(a.kind) - orderOfKind(b.kind)), [board])
  const found = sorted.filter(
    ({ ref, kind }) =>
      wanted === '' || ref.toLowerCase().startsWith(wanted) || partKinds[kind].words[0].startsWith(wanted),
  )
  return (
    <section className={styles.fields} aria-label={say('All parts')}>
      <TextField
        label={say('Find parts')}
        placeholder={say('a ref such as U1, or a kind')}
        hint={say('With Shift a press adds to what is selected.')}
        value={typed}
        onChange={setTyped}
      />
      <ul className={styles.partList}>
        {found.slice(0, MOST_LISTED).map(({ ref, kind, side }) => (
          <li key={ref}>
            <button
              type="button"
              aria-pressed={selected.includes(ref)}
              onClick={(event) => showParts(editor, [ref], event.shiftKey || event.ctrlKey || event.metaKey)}
            >
              <b>{ref}</b> {partKinds[kind].words[0]}
              {side === 'bottom' && say(', bottom')}
            </button>
          </li>
        ))}
      </ul>
      {found.length > MOST_LISTED && (
        <p className={styles.quiet}>
          {say('{length, plural, one {# more part} other {# more parts}}: type more of the ref.', {
            length: found.length - MOST_LISTED,
          })}
        </p>
      )}
      {found.length === 0 && <p className={styles.quiet}>{say('No part is called that.')}</p>}
    </section>
  )
}
