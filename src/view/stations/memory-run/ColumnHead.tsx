/** Head of a sample's column: what the column is, and for numbers in which base. */
import { type Column, columnRoles, columnRoleSchema, numberBaseSchema } from '../../../report/index.ts'

const roleWords: Readonly<Record<Column['role'], string>> = {
  address: 'address',
  expected: 'expected',
  actual: 'actual',
  difference: 'difference (XOR)',
  count: 'count of errors',
  part: 'part',
  channel: 'channel',
  lane: 'lane',
  bit: 'bit',
  bits: 'list of bits',
  end: 'end of a range',
  tested: 'how many tested',
  status: 'passed or failed',
  packages: 'mask over packages',
  ignore: 'not used',
}

const baseWords: Readonly<Record<Column['base'], string>> = {
  auto: 'base: told',
  hex: 'hex',
  decimal: 'decimal',
  prefixed: 'hex after 0x',
  bytes: 'bytes, lowest first',
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
        aria-label={`Column ${nameOf(column.at)} is`}
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
          aria-label={`Base of column ${nameOf(column.at)}`}
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
