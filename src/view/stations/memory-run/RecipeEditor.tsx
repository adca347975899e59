/** How a report is read: its first rows read that way, each column's role and number base open to correction. */
import { useEffect, useState } from 'react'
import { type Fault, say } from '../../../base/index.ts'
import { type Column, isByName, type PreviewRow, type Recipe, recipeSchema } from '../../../report/index.ts'
import { previewWith } from '../../actions/readReport.ts'
import { readAgain } from '../../actions/reports.ts'
import { Button } from '../../controls/Button.tsx'
import { NumberField, TextField } from '../../controls/fields.tsx'
import { FaultRow } from '../../controls/FileMessages.tsx'
import files from '../../controls/files.module.css'
import styles from '../../controls/panel.module.css'
import { useDesk } from '../../stores/hooks.ts'
import { ColumnHead } from './ColumnHead.tsx'
import { LayoutFields } from './LayoutFields.tsx'
import type { ShownReport } from './ReportCard.tsx'
import own from '../../controls/stations.module.css'

export function RecipeEditor({ id, name, reading }: ShownReport) {
  const desk = useDesk()
  const [draft, setDraft] = useState<Recipe | undefined>(reading.readWith && withAllColumns(reading.readWith))
  const [rows, setRows] = useState<readonly PreviewRow[]>([])
  const [faults, setFaults] = useState<readonly Fault[]>([])
  useEffect(() => {
    if (draft === undefined) return undefined
    const abort = new AbortController()
    void previewWith(desk, reading.source, draft, abort.signal).then((result) => {
      if (abort.signal.aborted || result === undefined) return
      if (result.ok) setRows(result.value.preview)
      setFaults(result.ok ? [] : result.faults)
    })
    return () => abort.abort()
  }, [desk, draft, reading.source])
  if (draft === undefined) return <p className={styles.quiet}>{say('Nobody knows yet how to read it.')}</p>
  return (
    <div className={styles.section}>
      <LayoutFields layout={draft.layout} onChange={(layout) => setDraft(withAllColumns(withLayout(draft, layout)))} />
      {rows.length > 0 && <SampleTable name={name} draft={draft} rows={rows} onChange={setDraft} />}
      <TextField
        label={say('A line with this text is no row')}
        value={draft.skipLinesWith.join(', ')}
        onChange={(typed) =>
          setDraft({
            ...draft,
            skipLinesWith: typed
              .split(',')
              .map((text) => text.trim())
              .filter((text) => text !== ''),
          })
        }
      />
      <NumberField
        label={say('One step of the address stands for')}
        unit={say('bytes')}
        min={1}
        max={2 ** 30}
        value={draft.addressUnitBytes}
        onChange={(addressUnitBytes) => setDraft({ ...draft, addressUnitBytes: Math.round(addressUnitBytes) })}
      />
      {faults.length > 0 && (
        <ul className={files.faults}>
          {faults.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      <div className={styles.row}>
        <Button tone="strong" onClick={() => void readAgain(desk, id, parsedOr(draft, reading.readWith))}>
          {say('Read it again this way')}
        </Button>
        <Button onClick={() => void readAgain(desk, id, undefined)}>{say('Detect again')}</Button>
      </div>
    </div>
  )
}

/** Without the columns that are not used, unless none is. */
const parsedOr = (draft: Recipe, otherwise: Recipe | undefined): Recipe | undefined => {
  const used = draft.columns.filter((column) => column.role !== 'ignore')
  const parsed = recipeSchema.safeParse({ ...draft, columns: used.length === 0 ? draft.columns : used })
  return parsed.success ? parsed.data : otherwise
}

const SHOWN_COLUMNS = 16

/** With the columns that it does not use, so that they can be seen and given a role. */
function withAllColumns(recipe: Recipe): Recipe {
  if (isByName(recipe.layout)) return recipe
  const most = recipe.layout.kind === 'fixed' ? recipe.layout.starts.length : SHOWN_COLUMNS
  const unused = Array.from({ length: most }, (_, at): Column => ({ role: 'ignore', at, base: 'auto' })).filter(
    ({ at }) => !recipe.columns.some((column) => column.at === at),
  )
  return { ...recipe, columns: [...recipe.columns, ...unused].toSorted((a, b) => Number(a.at) - Number(b.at)) }
}

/** Columns keep their place only where the new layout names cells the same way. */
function withLayout(recipe: Recipe, layout: Recipe['layout']): Recipe {
  const named = isByName(layout)
  const kept = recipe.columns.filter((column) => (typeof column.at === 'string') === named)
  const first: Column = { role: 'ignore', at: named ? 'address' : 0, base: 'auto' }
  return { ...recipe, layout, columns: kept.length === 0 ? [first] : kept }
}

interface SampleTableProps {
  readonly name: string
  readonly draft: Recipe
  readonly rows: readonly PreviewRow[]
  readonly onChange: (recipe: Recipe) => void
}

function SampleTable({ name, draft, rows, onChange }: SampleTableProps) {
  const shown = draft.columns
    .map((column, i) => ({ column, i }))
    .filter(({ column, i }) => column.role !== 'ignore' || rows.some((row) => (row.cells[i]?.text ?? '') !== ''))
  const change = (i: number, next: Column): void =>
    onChange({ ...draft, columns: draft.columns.map((column, k) => (k === i ? next : column)) })
  return (
    <div
      className={own.scroll}
      tabIndex={0}
      role="region"
      aria-label={say('First rows of {name}, read this way', { name })}
    >
      <table className={own.sample}>
        <thead>
          <tr>
            <th scope="col">{say('line')}</th>
            {shown.map(({ column, i }) => (
              <th key={String(column.at)} scope="col">
                <ColumnHead column={column} onChange={(next) => change(i, next)} />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.line} title={row.problem}>
              <th scope="row">{row.line}</th>
              {row.problem === undefined ? (
                shown.map(({ column, i }) => <td key={String(column.at)}>{row.cells[i]?.text ?? ''}</td>)
              ) : (
                <td colSpan={shown.length}>
                  {row.text} <b>{row.problem}</b>
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
