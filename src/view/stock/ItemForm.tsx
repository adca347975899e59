/** One line of the stock: what it is, how many, where it lies, where it came from, what is on order. */
import { Undo2 } from 'lucide-react'
import { useEffect, useRef, useState } from 'react'
import { numberWords, say } from '../../base/index.ts'
import { type StockDraft, type StockItem, stockItemSchema, stockKinds, stockKindWords } from '../../case/index.ts'
import { Button } from '../controls/Button.tsx'
import controls from '../controls/controls.module.css'
import { DayField, SelectField, TextField } from '../controls/fields.tsx'
import { optionsOf } from '../optionsOf.ts'
import panel from '../controls/panel.module.css'
import { randomId } from '../shelf/memoryShelf.ts'
import { AmountField } from '../controls/AmountField.tsx'
import type { Draft } from './StockPage.tsx'
import styles from './stock.module.css'

const kinds = optionsOf(stockKinds, stockKindWords)

const sources = [
  { value: 'new', words: say('new') },
  { value: 'donor', words: say('from a donor card') },
] as const

interface ItemFormProps {
  readonly draft: Draft
  /** With the cases whose pieces were put back. */
  readonly onSave: (item: StockItem, released: readonly string[]) => void
  readonly onRemove: (id: string) => void
  readonly onDone: () => void
}

export function ItemForm({ draft, onSave, onRemove, onDone }: ItemFormProps) {
  const { line } = draft
  const [item, setItem] = useState<Omit<StockDraft, 'id'>>(line ?? draft.fresh)
  const [released, setReleased] = useState<readonly string[]>([])
  const [wrong, setWrong] = useState(false)
  const form = useRef<HTMLFormElement>(null)
  // it opens where another button was pressed: the hand goes on in it
  useEffect(() => form.current?.querySelector('input')?.focus(), [])
  const change = (next: Partial<StockDraft>): void => {
    setItem((now) => ({ ...now, ...next }))
    setWrong(false)
  }
  const save = (): void => {
    const read = stockItemSchema.safeParse({ ...item, id: line?.id ?? randomId(), what: item.what.trim() })
    setWrong(!read.success)
    if (read.success) onSave(read.data, released)
  }
  const held = (line?.reserved ?? []).filter(({ caseId }) => !released.includes(caseId))
  return (
    <form
      ref={form}
      className={styles.form}
      aria-label={line === undefined ? say('Add to the stock') : say('Change {what}', { what: line.what })}
      onSubmit={(event) => {
        event.preventDefault()
        save()
      }}
    >
      <SelectField label={say('Kind')} value={item.kind} options={kinds} onChange={(kind) => change({ kind })} />
      <TextField
        label={item.kind === 'material' ? say('Name, as in the plan') : say('Value or type')}
        maxLength={200}
        value={item.what}
        onChange={(what) => change({ what })}
      />
      <TextField
        label={say('Package')}
        maxLength={120}
        value={item.package ?? ''}
        onChange={(named) => change({ package: named })}
      />
      <AmountField
        label={say('Count')}
        most={1e6}
        value={item.count}
        onChange={(count) => change({ count: count ?? 0 })}
      />
      <TextField
        label={say('Place')}
        maxLength={120}
        value={item.place ?? ''}
        onChange={(place) => change({ place })}
      />
      <AmountField label={say('Price of one')} most={1e6} value={item.price} onChange={(price) => change({ price })} />
      <SelectField
        label={say('From')}
        value={item.source ?? 'new'}
        options={sources}
        onChange={(source) => change({ source })}
      />
      {item.source === 'donor' && (
        <>
          <TextField
            label={say('Donor card')}
            maxLength={120}
            value={item.donor ?? ''}
            onChange={(donor) => change({ donor })}
          />
          <TextField
            label={say('Sat there at')}
            maxLength={120}
            value={item.donorRef ?? ''}
            onChange={(donorRef) => change({ donorRef })}
          />
          <DayField label={say('Taken on')} value={item.takenOn} onChange={(takenOn) => change({ takenOn })} />
        </>
      )}
      <AmountField
        label={say('On order')}
        most={1e6}
        value={item.ordered}
        onChange={(ordered) => change({ ordered: ordered ?? 0 })}
      />
      <DayField label={say('Expected on')} value={item.expectedOn} onChange={(expectedOn) => change({ expectedOn })} />
      <TextField label={say('Note')} maxLength={2000} value={item.note ?? ''} onChange={(note) => change({ note })} />
      {held.length > 0 && (
        <div className={`${panel.row} ${styles.wide}`}>
          {held.map(({ caseId, card, count }) => (
            <Button key={caseId} onClick={() => setReleased((before) => [...before, caseId])}>
              <Undo2 size={15} aria-hidden="true" />{' '}
              {say('Put back {parts} of card {card}', { parts: numberWords(count), card })}
            </Button>
          ))}
        </div>
      )}
      <div className={`${panel.row} ${styles.wide}`}>
        <Button type="submit" tone="strong">
          {say('Keep it')}
        </Button>
        <Button tone="quiet" onClick={onDone}>
          {say('Not now')}
        </Button>
        {line !== undefined && (
          <Button tone="quiet" onClick={() => onRemove(line.id)}>
            {say('Remove the line')}
          </Button>
        )}
        {wrong && (
          <p className={controls.wrong} role="alert">
            {say('It needs a name, and whole numbers for count and order.')}
          </p>
        )}
      </div>
    </form>
  )
}
