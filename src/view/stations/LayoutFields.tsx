/** How the cells of a row are told apart. */
import type { Layout } from '../../report/index.ts'
import { SelectField, TextField } from '../controls/fields.tsx'

const kinds = [
  { value: ',', words: 'by commas' },
  { value: ';', words: 'by semicolons' },
  { value: '\t', words: 'by tabs' },
  { value: '|', words: 'by bars' },
  { value: 'spaced', words: 'by blanks' },
  { value: 'pairs', words: 'by names: name=value' },
  { value: 'pattern', words: 'by a pattern' },
  { value: 'fixed', words: 'by position' },
  { value: 'json', words: 'as fields of objects (JSON)' },
  { value: 'named', words: 'by the board’s names in running text' },
] as const

type Kind = (typeof kinds)[number]['value']

export function LayoutFields({
  layout,
  onChange,
}: {
  readonly layout: Layout
  readonly onChange: (layout: Layout) => void
}) {
  return (
    <>
      <SelectField
        label="Cells are told apart"
        value={kindOf(layout)}
        options={kinds}
        onChange={(kind) => onChange(layoutOf(kind, layout))}
      />
      {layout.kind === 'pattern' && (
        <TextField
          label="Pattern"
          hint="Fixed text with fields in braces: at {address} wrote {expected} read {actual}"
          value={layout.pattern}
          onChange={(pattern) => onChange({ kind: 'pattern', pattern: pattern === '' ? '{address}' : pattern })}
        />
      )}
      {layout.kind === 'fixed' && (
        <TextField
          label="Cells start at character"
          hint="From 0, with commas between."
          value={layout.starts.join(', ')}
          onChange={(typed) => onChange({ kind: 'fixed', starts: startsOf(typed) })}
        />
      )}
    </>
  )
}

function kindOf(layout: Layout): Kind {
  if (layout.kind !== 'delimited') return layout.kind
  return kinds.find((kind) => kind.value === layout.delimiter)?.value ?? ','
}

function layoutOf(kind: Kind, before: Layout): Layout {
  if (kind === before.kind) return before
  if (kind === 'spaced' || kind === 'pairs' || kind === 'json' || kind === 'named') return { kind }
  if (kind === 'pattern') return { kind, pattern: '{address} {expected} {actual}' }
  if (kind === 'fixed') return { kind, starts: [0] }
  return { kind: 'delimited', delimiter: kind }
}

function startsOf(typed: string): number[] {
  const starts = typed.split(',').flatMap((text) => (/^\s*\d+\s*$/.test(text) ? [Number(text)] : []))
  return starts.length === 0 ? [0] : starts
}
