/** A board from a few numbers: the form, and beside it the board that they make, drawn anew with each of them. */
import { type FormEvent, type ReactNode, useDeferredValue, useMemo, useState } from 'react'
import { type Fault, say } from '../../base/index.ts'
import { boardFromPattern, type BoardModel, isStack, patternLimits, patternUntold } from '../../board/index.ts'
import { beginOnBoard, fromStart } from '../actions/open.ts'
import { Button } from '../controls/Button.tsx'
import { Choice, SelectField, TextField } from '../controls/fields.tsx'
import { useDesk } from '../stores/hooks.ts'
import { faultWords, packageOptions } from '../stores/patternWords.ts'
import { busOptions, firstDraft, type PatternDraft, patternOf, withPackage } from './patternDraft.ts'
import { PatternPreview } from './PatternPreview.tsx'
import { PatternSizes } from './PatternSizes.tsx'
import styles from './start.module.css'
import { Supplies } from './Supplies.tsx'

const sideOptions = [
  { value: 'one', words: say('One side') },
  { value: 'both', words: say('Both sides') },
] as const

interface PatternFormProps {
  /** What the board is called where nothing is typed. */
  readonly freeName: string
  /** Names that boards of one's own have. */
  readonly taken: ReadonlySet<string>
  /** Id of its heading. */
  readonly labelledBy: string
}

export function PatternForm({ freeName, taken, labelledBy }: PatternFormProps) {
  const desk = useDesk()
  const [draft, setDraft] = useState(firstDraft)
  const deferred = useDeferredValue(draft)
  const built = useMemo(() => boardFromPattern(patternOf(deferred, freeName)), [deferred, freeName])
  const [shown, setShown] = useState<BoardModel>()
  if (built.ok && built.value !== shown) setShown(built.value)
  const start = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault()
    const wrong = event.currentTarget.querySelector('[aria-invalid="true"]')
    if (wrong instanceof HTMLElement) return wrong.focus()
    const board = boardFromPattern(patternOf(draft, freeName))
    if (!board.ok) return
    fromStart(desk, (at) => beginOnBoard(desk, board.value.description, at, patternUntold))
  }
  return (
    <form className={styles.pattern} onSubmit={start} aria-labelledby={labelledBy}>
      <PatternFields
        draft={draft}
        freeName={freeName}
        taken={taken}
        shown={shown}
        faults={built.ok ? [] : built.faults}
        onDraft={setDraft}
      />
      <div className={styles.preview}>
        <PatternPreview model={shown} />
        <Button type="submit" tone="strong" disabled={!built.ok}>
          {say('Start with this board')}
        </Button>
      </div>
    </form>
  )
}

interface PatternFieldsProps {
  readonly draft: PatternDraft
  readonly freeName: string
  readonly taken: ReadonlySet<string>
  /** The last board that could be made. */
  readonly shown: BoardModel | undefined
  readonly faults: readonly Fault[]
  readonly onDraft: (change: (before: PatternDraft) => PatternDraft) => void
}

function PatternFields({ draft, freeName, taken, shown, faults, onDraft }: PatternFieldsProps) {
  const change = (next: Partial<PatternDraft>): void => onDraft((before) => ({ ...before, ...next }))
  return (
    <div className={styles.fields}>
      <div className={styles.pair}>
        <SelectField
          label={say('Memory package')}
          value={draft.package}
          options={packageOptions}
          onChange={(name) => onDraft((before) => withPackage(before, name))}
        />
        <SelectField
          label={say('Bus width')}
          value={String(draft.busBits)}
          options={busOptions(draft)}
          onChange={(bits) => change({ busBits: Number(bits) })}
        />
      </div>
      <div className={styles.pair}>
        {!isStack(draft.package) && (
          <Choice
            label={say('Packages on')}
            value={draft.sides}
            options={sideOptions}
            onChange={(sides) => change({ sides })}
          />
        )}
        <TextField
          label={say('Name of the board')}
          placeholder={freeName}
          hint={
            taken.has(draft.name.trim())
              ? say('A board of yours is called so: its good cards count for this one too.')
              : undefined
          }
          maxLength={patternLimits.nameCharacters}
          value={draft.name}
          onChange={(name) => change({ name })}
        />
      </div>
      <PatternSizes draft={draft} shown={shown} faults={faults} onChange={change} />
      <Supplies draft={draft} faults={faults} onChange={(supplies) => change({ supplies })} />
      <Faults>{faults.filter(({ path }) => !AT_FIELD.test(path)).map(faultWords)}</Faults>
    </div>
  )
}

/** Faults that stand at their field. */
const AT_FIELD = /^\$\.(?:boardMm\.\w+|supplies\[\d+\]\.(?:name|nominalV|stages))$/

function Faults({ children }: { readonly children: readonly string[] }): ReactNode {
  return (
    <div role="alert" className={styles.faults}>
      {children.map((words) => (
        <p key={words}>{words}</p>
      ))}
    </div>
  )
}
