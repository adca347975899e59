/** What was said of parts against how often it was so: a curve that lies on the slanting line where figures mean what they say. */
import { decimals, say } from '../../base/index.ts'
import type { Accuracy, ReliabilityBin } from '../../rehearsal/index.ts'
import { Opening } from '../controls/pieces.tsx'
import { FiguredText } from '../figures/index.ts'
import panel from '../controls/panel.module.css'
import { paragraph, percent } from '../stores/words.ts'
import styles from './shopRecord.module.css'
import { intervalWords } from './words.ts'

const SIZE = 240
const LEFT = 44
const TOP = 10
const BOTTOM = 44
const TICKS = [0, 0.25, 0.5, 0.75, 1]

const x = (share: number): number => LEFT + share * SIZE
const y = (share: number): number => TOP + (1 - share) * SIZE

export function Reliability({ accuracy: { reliability, calibrationError } }: { readonly accuracy: Accuracy }) {
  const filled = reliability.filter(({ tries }) => tries > 0)
  if (calibrationError === undefined) return undefined
  const parts = filled.reduce((sum, { tries }) => sum + tries, 0)
  const error = `${decimals(calibrationError * 100, 1)}\u00a0%`
  return (
    <figure className={styles.figure}>
      <figcaption>
        <h3 className={panel.sub}>{say('When Liftmap said 70 %, was it so in 70 of 100?')}</h3>
        <p className={panel.quiet}>
          <FiguredText
            words={paragraph([
              say(
                '{parts, plural, one {# part} other {# parts}}. What was said and what was found differ by {error} on average. The bars show where the true share lies with 95 % confidence. Where a bar meets the dashed line, the cards don’t speak against what was said.',
                { parts, error },
              ),
            ])}
            of={(number) => (number === error ? { kind: 'calibration', parts, error: calibrationError } : undefined)}
          />
        </p>
      </figcaption>
      <svg
        className={styles.plot}
        viewBox={`0 0 ${LEFT + SIZE + 14} ${TOP + SIZE + BOTTOM}`}
        role="img"
        aria-label={say(
          'What was said of parts against how often they needed lifting; the numbers stand in the table below',
        )}
      >
        {TICKS.map((tick) => (
          <g key={tick}>
            <line className={styles.grid} x1={x(0)} x2={x(1)} y1={y(tick)} y2={y(tick)} />
            <line className={styles.grid} x1={x(tick)} x2={x(tick)} y1={y(0)} y2={y(1)} />
            <text x={LEFT - 6} y={y(tick) + 4} textAnchor="end">
              {tick * 100}
            </text>
            <text x={x(tick)} y={y(0) + 17} textAnchor="middle">
              {tick * 100}
            </text>
          </g>
        ))}
        <line className={styles.ideal} x1={x(0)} y1={y(0)} x2={x(1)} y2={y(1)} />
        <polyline
          className={styles.curve}
          points={filled.map((bin) => `${x(bin.said ?? 0)},${y(shareOf(bin))}`).join(' ')}
        />
        {filled.map((bin) => (
          <BinMark key={bin.from} bin={bin} />
        ))}
        <text x={x(0.5)} y={y(0) + 36} textAnchor="middle">
          {say('said, %')}
        </text>
        <text transform={`translate(12 ${y(0.5)}) rotate(-90)`} textAnchor="middle">
          {say('was so, %')}
        </text>
      </svg>
      <Opening summary={say('The same as a table')}>
        <BinTable bins={reliability} />
      </Opening>
    </figure>
  )
}

const shareOf = ({ hits, tries }: ReliabilityBin): number => hits / tries

function BinMark({ bin }: { readonly bin: ReliabilityBin }) {
  const { said = 0, interval } = bin
  return (
    <g>
      {interval !== undefined && (
        <line className={styles.spread} x1={x(said)} x2={x(said)} y1={y(interval.low)} y2={y(interval.high)} />
      )}
      <circle className={styles.point} cx={x(said)} cy={y(shareOf(bin))} r={4.5} />
    </g>
  )
}

function BinTable({ bins }: { readonly bins: readonly ReliabilityBin[] }) {
  return (
    <table className={panel.table} aria-label={say('What was said of parts, and how often it was so')}>
      <thead>
        <tr>
          <th scope="col">{say('Said')}</th>
          <th scope="col" className={panel.number}>
            {say('On average')}
          </th>
          <th scope="col" className={panel.number}>
            {say('Was so')}
          </th>
          <th scope="col" className={panel.number}>
            {say('Likely between')}
          </th>
        </tr>
      </thead>
      <tbody>
        {bins.map((bin) => (
          <tr key={bin.from}>
            <th scope="row">
              {say('{value} to {value2} %', { value: Math.round(bin.from * 100), value2: Math.round(bin.to * 100) })}
            </th>
            <td className={panel.number}>{bin.said === undefined ? '–' : percent(bin.said)}</td>
            <td className={panel.number}>
              {bin.tries === 0 ? say('no part') : say('{hits} of {tries}', { hits: bin.hits, tries: bin.tries })}
            </td>
            <td className={panel.number}>{bin.tries === 0 ? '–' : intervalWords(bin)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
