/** Head of a sample's column: what the column is, and for numbers in which base. */
import { say } from '../../../base/index.ts'
import { type Column, columnRoles, columnRoleSchema, numberBaseSchema } from '../../../report/index.ts'

const roleWords: Readonly<Record<Column['role'], string>> = {
  address: say('address'),
  expected: say('expected'),
  actual: say('actual'),
  difference: say('difference (XOR)'),
  count: say('count of errors'),
  part: say('part'),
  channel: say('channel'),
  lane: say('lane'),
  bit: say('bit'),
  bits: say('list of bits'),
  end: say('end of a range'),
  tested: say('how many tested'),
  status: say('passed or failed'),
  packages: say('mask over packages'),
  ignore: say('not used'),
}

const baseWords: Readonly<Record<Column['base'], string>> = {
  auto: say('base: told'),
  hex: say('hex'),
  decimal: say('decimal'),
  prefixed: say('hex after 0x'),
  bytes: say('bytes, lowest first'),
}

export function ColumnHead({
  column,
  onChange,
}: {
  readonly column: Column
  readonly onChange: (column: Column) => void
}) {
  return (
    <>
      <select
        aria-label={say('Column {at} is', { at: nameOf(column.at) })}
        value={column.role}
        onChange={(event) => onChange({ ...column, role: columnRoleSchema.parse(event.target.value) })}
      >
        {columnRoleSchema.options.map((role) => (
          <option key={role} value={role}>
            {roleWords[role]}
          </option>
        ))}
      </select>
      {columnRoles[column.role].isNumber && (
        <select
          aria-label={say('Base of column {at}', { at: nameOf(column.at) })}
          value={column.base}
          onChange={(event) => onChange({ ...column, base: numberBaseSchema.parse(event.target.value) })}
        >
          {numberBaseSchema.options.map((base) => (
            <option key={base} value={base}>
              {baseWords[base]}
            </option>
          ))}
        </select>
      )}
    </>
  )
}

const nameOf = (at: number | string): string => (typeof at === 'number' ? String(at + 1) : at)
