/** How the cells of a row are told apart. */
import { say } from '../../../base/index.ts'
import type { Layout } from '../../../report/index.ts'
import { SelectField, TextField } from '../../controls/fields.tsx'

/** Words for each way to tell cells apart; of a delimiter for each that can be chosen. */
const layoutWords = {
  spaced: say('by blanks'),
  pairs: say('by names: name=value'),
  pattern: say('by a pattern'),
  fixed: say('by position'),
  json: say('as fields of objects (JSON)'),
  named: say('by the board’s names in running text'),
} as const satisfies Record<Exclude<Layout['kind'], 'delimited'>, string>

const delimiterWords = {
  ',': say('by commas'),
  ';': say('by semicolons'),
  '\t': say('by tabs'),
  '|': say('by bars'),
} as const

type Delimiter = keyof typeof delimiterWords
type Kind = keyof typeof layoutWords | Delimiter

const kinds: readonly { readonly value: Kind; readonly words: string }[] = [
  ...([',', ';', '\t', '|'] as const).map((value) => ({ value, words: delimiterWords[value] })),
  ...(['spaced', 'pairs', 'pattern', 'fixed', 'json', 'named'] as const).map((value) => ({
    value,
    words: layoutWords[value],
  })),
]

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
        label={say('Cells are told apart')}
        value={kindOf(layout)}
        options={kinds}
        onChange={(kind) => onChange(layoutOf(kind, layout))}
      />
      {layout.kind === 'pattern' && (
        <TextField
          label={say('Pattern')}
          hint={say("Fixed text with fields in braces: at '{'address'}' wrote '{'expected'}' read '{'actual'}'")}
          value={layout.pattern}
          onChange={(pattern) => onChange({ kind: 'pattern', pattern: pattern === '' ? '{address}' : pattern })}
        />
      )}
      {layout.kind === 'fixed' && (
        <TextField
          label={say('Cells start at character')}
          hint={say('From 0, with commas between.')}
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
  switch (kind) {
    case 'spaced':
    case 'pairs':
    case 'json':
    case 'named':
      return { kind }
    case 'pattern':
      return { kind, pattern: '{address} {expected} {actual}' }
    case 'fixed':
      return { kind, starts: [0] }
    case ',':
    case ';':
    case '\t':
    case '|':
      return { kind: 'delimited', delimiter: kind }
    default:
      return kind satisfies never
  }
}

function startsOf(typed: string): number[] {
  const starts = typed.split(',').flatMap((text) => (/^\s*\d+\s*$/.test(text) ? [Number(text)] : []))
  return starts.length === 0 ? [0] : starts
}
