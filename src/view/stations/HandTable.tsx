/** The table entered by hand: what failed, which bit if known, how often; 0 errors means tested and clean. */
import { Trash2 } from 'lucide-react'
import { useId, useRef, useState } from 'react'
import type { BoardModel } from '../../board/index.ts'
import { pastedRows, tableRowSchema, type TableRow } from '../../report/index.ts'
import { isHandTable, setHandTable } from '../actions/reports.ts'
import { Button } from '../controls/Button.tsx'
import controls from '../controls/controls.module.css'
import { parseNumber } from '../controls/fields.tsx'
import styles from '../panels/why.module.css'
import { useBoard, useDesk, usePresent } from '../stores/hooks.ts'
import { count } from '../stores/words.ts'
import own from './stations.module.css'

export function HandTable() {
  const desk = useDesk()
  const rows = usePresent()?.reports.find(isHandTable)?.table ?? []
  return (
    <div className={styles.section}>
      <ul className={own.marks} aria-label="Rows entered by hand">
        {rows.map((row, i) => (
          <li key={`${i} ${whatOf(row)}`}>
            <div className={own.markHead}>
              <p style={{ flex: 1, padding: '5px 10px' }}>
                <b>{whatOf(row)}</b> {row.errors === 0 ? 'tested and clean' : count(row.errors, 'error')}
              </p>
              <Button
                size="icon"
                tone="quiet"
                aria-label={`Remove ${whatOf(row)}`}
                onClick={() =>
                  setHandTable(
                    desk,
                    rows.filter((other) => other !== row),
                  )
                }
              >
                <Trash2 size={15} aria-hidden="true" />
              </Button>
            </div>
          </li>
        ))}
      </ul>
      <NewRow onAdd={(added) => setHandTable(desk, [...rows, ...added])} />
    </div>
  )
}

const whatOf = (row: TableRow): string =>
  `${row.lane ?? row.channel ?? row.part ?? ''}${row.bit === undefined ? '' : ` bit ${row.bit}`}`

/** A channel is often half of a package: said, so that nobody takes it for the whole. */
function partSaid(where: string, model: BoardModel): string | undefined {
  const channel = model.channelById.get(where)
  if (channel === undefined) return undefined
  const shares = channel.parts.map((ref) => model.channels.filter(({ parts }) => parts.includes(ref)).length)
  const [channels = 1] = shares
  if (channel.parts.length > 1) return `${where} is shared by ${channel.parts.join(' and ')}.`
  return channels > 1
    ? `${where} is one of ${channels} channels of ${channel.parts.join()}, not the whole package.`
    : undefined
}

function NewRow({ onAdd }: { readonly onAdd: (rows: readonly TableRow[]) => void }) {
  const id = useId()
  const model = useBoard()?.model
  const [where, setWhere] = useState('')
  const [bit, setBit] = useState('')
  const [errors, setErrors] = useState('1')
  const [wrong, setWrong] = useState('')
  const whereField = useRef<HTMLInputElement>(null)
  if (model === undefined) return undefined
  const add = (): void => {
    const place = model.laneById.has(where)
      ? { lane: where }
      : model.partByRef.has(where)
        ? { part: where }
        : model.channelById.has(where)
          ? { channel: where }
          : undefined
    if (place === undefined) return setWrong(`“${where}” is no part, channel or lane of this board.`)
    const bitNumber = parseNumber(bit)
    const parsed = tableRowSchema.safeParse({
      ...place,
      errors: parseNumber(errors),
      ...(bitNumber === undefined ? {} : { bit: bitNumber }),
    })
    if (!parsed.success) return setWrong('Errors and bit are whole numbers from 0.')
    setWrong('')
    setWhere('')
    setBit('')
    onAdd([parsed.data])
    // Enter goes on to the next row.
    whereField.current?.focus()
  }
  /** A pasted table becomes rows at once; what can't be read of it is told. */
  const paste = (text: string): boolean => {
    if (!/[\n\t]/.test(text.trim())) return false
    const { rows, left } = pastedRows(text, model)
    onAdd(rows)
    setWrong(
      left.length === 0 ? '' : `${count(left.length, 'line')} not taken, such as “${left[0]?.slice(0, 60) ?? ''}”.`,
    )
    return true
  }
  const names = [
    ...model.memories.map((part) => part.ref),
    ...model.channels.map((channel) => channel.id),
    ...model.lanes.map((lane) => lane.id),
  ]
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault()
        add()
      }}
    >
      <div className={own.handRow}>
        <div className={controls.field}>
          <label className={controls.label} htmlFor={`${id}-where`}>
            Part, channel or lane
          </label>
          <input
            id={`${id}-where`}
            ref={whereField}
            className={controls.input}
            list={`${id}-names`}
            value={where}
            onChange={(event) => setWhere(event.target.value.trim())}
            onPaste={(event) => {
              if (paste(event.clipboardData.getData('text'))) event.preventDefault()
            }}
          />
          <datalist id={`${id}-names`}>
            {[...new Set(names)].map((name) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </datalist>
        </div>
        <div className={controls.field}>
          <label className={controls.label} htmlFor={`${id}-bit`}>
            Bit
          </label>
          <input
            id={`${id}-bit`}
            className={controls.input}
            inputMode="numeric"
            value={bit}
            onChange={(event) => setBit(event.target.value)}
          />
        </div>
        <div className={controls.field}>
          <label className={controls.label} htmlFor={`${id}-errors`}>
            Errors
          </label>
          <input
            id={`${id}-errors`}
            className={controls.input}
            inputMode="numeric"
            value={errors}
            onChange={(event) => setErrors(event.target.value)}
          />
        </div>
        <Button type="submit" size="icon" aria-label="Add the row">
          +
        </Button>
      </div>
      <p className={wrong === '' ? controls.hint : controls.wrong}>
        {wrong === ''
          ? (partSaid(where, model) ?? '0 errors says: tested and clean. A table can be pasted here.')
          : wrong}
      </p>
    </form>
  )
}
