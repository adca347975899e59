/** What is kept of how reports speak of this board: by the report that it was learned from; forgotten, handed on, taken in. */
import { joined, say } from '../../../base/index.ts'
import { Download, Trash2, Upload } from 'lucide-react'
import { acceptFor } from '../../../case/index.ts'
import type { KeptReading } from '../../../report/index.ts'
import { exportWords, forgetWords, takeWords } from '../../actions/reportWords.ts'
import { Button } from '../../controls/Button.tsx'
import { FileButton } from '../../controls/FileButton.tsx'
import { Opening } from '../../controls/pieces.tsx'
import styles from '../../controls/panel.module.css'
import { wordsOf } from '../../stores/boardWords.ts'
import { useBoard, useDesk, usePresent } from '../../stores/hooks.ts'
import own from '../../controls/stations.module.css'

export function WordsKept() {
  const desk = useDesk()
  const present = usePresent()
  const model = useBoard()?.model
  if (present === undefined || model === undefined) return undefined
  const words = wordsOf(present, model)
  return (
    <Opening
      summary={say('How reports speak of this board{value}', {
        value:
          words.length === 0
            ? ''
            : say(': {length, plural, one {# kind} other {# kinds}} kept', { length: words.length }),
      })}
    >
      <div className={styles.section}>
        <p className={styles.quiet}>
          {say(
            'Names that were told and readings that were put right go with the board, and are proposed for the next report that looks so.',
          )}
        </p>
        <ul className={own.marks} aria-label={say('Kept readings of reports')}>
          {words.map((one) => (
            <li key={`${one.title} ${one.look[0] ?? ''}`}>
              <div className={own.markHead}>
                <p style={{ flex: 1, padding: '5px 10px' }}>
                  <b>{one.title}</b> <span>{holds(one)}</span>
                </p>
                <Button
                  size="icon"
                  tone="quiet"
                  aria-label={say('Forget {title}', { title: one.title })}
                  title={say('Forget')}
                  onClick={() => forgetWords(desk, one)}
                >
                  <Trash2 size={15} aria-hidden="true" />
                </Button>
              </div>
            </li>
          ))}
        </ul>
        <div className={styles.row}>
          {words.length > 0 && (
            <Button onClick={() => exportWords(desk)}>
              <Download size={15} aria-hidden="true" /> {say('Export them alone')}
            </Button>
          )}
          <FileButton
            label={say('Words of reports to take in')}
            accept={acceptFor(['words'])}
            onFile={(file, below) => void takeWords(desk, file, below)}
          >
            <Upload size={15} aria-hidden="true" /> {say('Take in a file…')}
          </FileButton>
        </div>
      </div>
    </Opening>
  )
}

function holds({ names, recipe }: KeptReading): string {
  const told = Object.keys(names ?? {}).length
  return joined([
    ...(told === 0 ? [] : [say('{told, plural, one {# name} other {# names}}', { told })]),
    ...(recipe === undefined ? [] : [say('how it is read')]),
  ])
}
