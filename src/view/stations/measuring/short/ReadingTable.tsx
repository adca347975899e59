/** The readings of a hunt: place, millivolts, how far off the best place's; put right or away with it. */
import { Trash2 } from 'lucide-react'
import { decimals, type Point, say } from '../../../../base/index.ts'
import type { ShortAnswer, ShortHunt } from '../../../../measure/index.ts'
import { placeWords, removeReading } from './short.ts'
import { Button } from '../../../controls/Button.tsx'
import styles from '../../../controls/panel.module.css'
import { useDesk } from '../../../stores/hooks.ts'
import { ReadingField } from './ReadingField.tsx'
import own from './short.module.css'

interface ReadingTableProps {
  readonly hunt: ShortHunt
  readonly answer: ShortAnswer | undefined
}

export function ReadingTable({ hunt, answer }: ReadingTableProps) {
  const desk = useDesk()
  if (hunt.readings.length === 0) return undefined
  const telling = answer !== undefined && answer.verdict !== 'too-few' && answer.verdict !== 'weak'
  return (
    <table className={styles.table}>
      <caption className="visually-hidden">{say('Readings of this hunt')}</caption>
      <thead>
        <tr>
          <th scope="col">#</th>
          <th scope="col">{say('Point')}</th>
          <th scope="col" className={styles.number}>
            mV
          </th>
          <th scope="col" className={styles.number}>
            {say('off by')}
          </th>
          <th scope="col">
            <span className="visually-hidden">{say('Remove')}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {hunt.readings.map(({ at, millivolt }, i) => {
          const fit = answer?.readings[i]
          const off =
            telling && fit?.deviation !== undefined ? say('{deviation} sd', { deviation: signed(fit.deviation) }) : ''
          return (
            <tr key={`${i} ${at.x} ${at.y}`}>
              <td>
                <span className={own.ring} data-refused={fit?.refused !== undefined}>
                  {i + 1}
                </span>
              </td>
              <td>
                {nameAt(answer, at)}
                {fit?.refused !== undefined && <p className={own.wrong}>{fit.refused}</p>}
              </td>
              <td className={styles.number}>
                <ReadingField hunt={hunt.id} index={i} millivolt={millivolt} />
              </td>
              <td className={styles.number}>{off}</td>
              <td>
                <Button
                  size="icon"
                  tone="quiet"
                  aria-label={say('Remove reading {i}', { i: i + 1 })}
                  title={say('Remove')}
                  onClick={() => removeReading(desk, hunt.id, i)}
                >
                  <Trash2 size={15} aria-hidden="true" />
                </Button>
              </td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}

const signed = (value: number): string => {
  const rounded = decimals(value, 1)
  return Number(rounded) === 0 ? '0.0' : rounded.replace('-', '−')
}

const nameAt = (answer: ShortAnswer | undefined, at: Point): string =>
  answer?.places.find((place) => place.at.x === at.x && place.at.y === at.y)?.label ?? placeWords(at)
