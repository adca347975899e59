/** A learnt map drawn bit by bit: a row for what the modulus reads, one for each function, `?` where nothing is told. */
import { say } from '../../base/index.ts'
import { bitsOf, type LearntMap, sayFunctions } from '../../board/index.ts'
import styles from './addresses.module.css'

const CELL = 9
const LEFT = 34
const ROW = 14

interface BitRow {
  readonly key: string
  readonly name: string
  readonly bits: ReadonlySet<number>
}

export function LearntPicture({ map }: { readonly map: LearntMap }) {
  const { addressBits, undeterminedBits } = map
  const rows = rowsOf(map)
  const open = new Set(undeterminedBits)
  const width = LEFT + addressBits * CELL + 2
  const height = 16 + rows.length * ROW
  const xOf = (bit: number): number => LEFT + (addressBits - 1 - bit) * CELL
  return (
    <svg
      className={styles.bits}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={say('Bits of the address. {map}', {
        map: sayFunctions(map)
          .map((line) => line.trim())
          .join('; '),
      })}
    >
      {Array.from({ length: addressBits }, (_, bit) => bit)
        .filter((bit) => bit % 4 === 0)
        .map((bit) => (
          <text key={bit} x={xOf(bit) + CELL / 2} y={10} textAnchor="middle">
            {bit}
          </text>
        ))}
      {rows.map(({ key, name, bits }, i) => (
        <g key={key} transform={`translate(0 ${16 + i * ROW})`}>
          <text x={0} y={9}>
            {name}
          </text>
          {Array.from({ length: addressBits }, (_, bit) => (
            <g key={bit}>
              <rect
                x={xOf(bit)}
                y={0}
                width={CELL - 1}
                height={ROW - 4}
                data-in={bits.has(bit)}
                data-open={open.has(bit) && !bits.has(bit)}
              />
              {open.has(bit) && !bits.has(bit) && (
                <text x={xOf(bit) + CELL / 2 - 0.5} y={8.5} textAnchor="middle" data-open>
                  ?
                </text>
              )}
            </g>
          ))}
        </g>
      ))}
    </svg>
  )
}

function rowsOf({ functions, modulus, gathered }: LearntMap): BitRow[] {
  const mod = modulus === 1 ? [] : [{ key: 'mod', name: say('mod {modulus}', { modulus }), bits: new Set(gathered) }]
  return [
    ...mod,
    ...functions.map(({ mask, from }) => ({
      key: `${from} ${mask}`,
      name: from === 'rest' ? 'rest' : 'xor',
      bits: new Set(bitsOf(mask)),
    })),
  ]
}
