/** One report: its state, how many rows were read and which were not, and the recipe it was read with. */
import { numberWords, say } from '../../../base/index.ts'
import {
  CircleAlert,
  CircleCheck,
  CircleDashed,
  CircleQuestionMark,
  CircleSlash,
  LoaderCircle,
  Scissors,
  Trash2,
} from 'lucide-react'
import type { ReactNode } from 'react'
import type { Tally } from '../../../report/index.ts'
import { readAgain, removeReport } from '../../actions/reports.ts'
import { Button } from '../../controls/Button.tsx'
import { Opening, ProgressBar } from '../../controls/pieces.tsx'
import { FaultRow } from '../../controls/FileMessages.tsx'
import files from '../../controls/files.module.css'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent, useReadings } from '../../stores/hooks.ts'
import { headOf, isAsking, isEmptyRun, type Reading } from '../../stores/readingStore.ts'
import { HowItWasRead } from './HowItWasRead.tsx'
import { OwnNames } from './OwnNames.tsx'
import { ReadLike } from './ReadLike.tsx'
import { ReadOtherwise } from './ReadOtherwise.tsx'
import { RecipeEditor } from './RecipeEditor.tsx'
import own from '../../controls/stations.module.css'

const states = {
  reading: { Icon: LoaderCircle, words: say('being read') },
  read: { Icon: CircleCheck, words: say('read') },
  cut: { Icon: Scissors, words: say('read, but incomplete') },
  failed: { Icon: CircleAlert, words: say('not read') },
  cancelled: { Icon: CircleSlash, words: say('cancelled') },
  asking: { Icon: CircleQuestionMark, words: say('is it read right?') },
  empty: { Icon: CircleDashed, words: say('no row read') },
  clean: { Icon: CircleCheck, words: say('no errors in it') },
} as const

/** A tick stands only where something was read, and surely right. */
function shownState(reading: Reading | undefined, coversAll: boolean): keyof typeof states {
  if (reading?.state !== 'read') return reading?.state ?? 'failed'
  if (isAsking(reading)) return 'asking'
  if (isEmptyRun(reading)) return coversAll ? 'clean' : 'empty'
  return reading.isWhole === false ? 'cut' : 'read'
}

interface ReportCardProps {
  readonly id: string
  /** What else the station asks about it. */
  readonly children?: ReactNode
}

export function ReportCard({ id, children }: ReportCardProps) {
  const desk = useDesk()
  const readings = useReadings()
  const reading = readings.get(id)
  const reports = usePresent()?.reports ?? []
  const name = headOf(id, reports, readings)?.name ?? ''
  const coversAll = reports.find((report) => report.id === id)?.coversAll === true
  const { Icon, words } = states[shownState(reading, coversAll)]
  return (
    <article className={own.report} aria-label={say('Report {name}', { name })}>
      <div className={own.reportHead}>
        <b>{name}</b>
        <span className={styles.tag}>
          <Icon size={15} aria-hidden="true" /> {words}
        </span>
        <Button
          size="icon"
          tone="quiet"
          aria-label={say('Remove {name}', { name })}
          title={say('Remove')}
          onClick={() => removeReport(desk, id)}
        >
          <Trash2 size={15} aria-hidden="true" />
        </Button>
      </div>
      {reading !== undefined && <Body id={id} name={name} reading={reading} />}
      {children}
    </article>
  )
}

/** One report on the screen: what it is found by, what it is called, what became of it. */
export interface ShownReport {
  readonly id: string
  readonly name: string
  readonly reading: Reading
}

function Body({ id, name, reading }: ShownReport) {
  const desk = useDesk()
  const coversAll = usePresent()?.reports.find((report) => report.id === id)?.coversAll === true
  // Once somebody said that the test covered all, a text without a row is what it should be.
  const remarks = coversAll && reading.tally !== undefined && isEmpty(reading.tally) ? [] : reading.remarks
  return (
    <>
      {reading.state === 'reading' && (
        <>
          <ProgressBar words={say('Reading {name}', { name })} share={reading.progress?.share} />
          <Button onClick={reading.cancel}>{say('Cancel')}</Button>
        </>
      )}
      {reading.state === 'cancelled' && (
        <Button onClick={() => void readAgain(desk, id, reading.readWith)}>{say('Read it after all')}</Button>
      )}
      {reading.faults.length + remarks.length > 0 && (
        <ul className={files.faults}>
          {[...reading.faults, ...remarks].map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      {reading.state === 'read' && <HowItWasRead id={id} name={name} reading={reading} />}
      <OwnNames id={id} />
      <ReadLike id={id} reading={reading} />
      <ReadOtherwise id={id} name={name} reading={reading} />
      {reading.tally !== undefined && <Rows tally={reading.tally} />}
      {reading.guess !== undefined && reading.state !== 'reading' && (
        <Opening summary={say('How it is read')} open={nobodyKnows(reading)}>
          <RecipeEditor key={JSON.stringify(reading.readWith)} id={id} name={name} reading={reading} />
        </Opening>
      )}
    </>
  )
}

/** A recipe by hand is all that is left: it starts from the best guess. */
const nobodyKnows = ({ state, sure, guess }: Reading): boolean =>
  guess !== undefined && guess.foreign.length === 0 && (state === 'failed' || sure === 'unknown')

const isEmpty = ({ rows }: Tally): boolean => rows.read + rows.unmapped + rows.unreadable === 0

function Rows({ tally }: { readonly tally: Tally }) {
  const { read, unreadable, unmapped, skipped } = tally.rows
  return (
    <>
      <p>
        {[
          say('{read, plural, one {# row read.} other {# rows read.}}', { read }),
          ...(unreadable > 0
            ? [say('{unreadable, plural, one {# can’t be read.} other {# can’t be read.}}', { unreadable })]
            : []),
          ...(unmapped > 0
            ? [
                say('{unmapped, plural, one {# on no lane of this board.} other {# on no lane of this board.}}', {
                  unmapped,
                }),
              ]
            : []),
          ...(skipped > 0
            ? [say('{skipped, plural, one {# line skipped.} other {# lines skipped.}}', { skipped })]
            : []),
        ].join(' ')}
      </p>
      {tally.troubles.length > 0 && (
        <Opening
          summary={say('{value}{length, plural, one {# row} other {# rows}} that did not count', {
            value: unreadable + unmapped > tally.troubles.length ? say('The first ') : '',
            length: tally.troubles.length,
          })}
        >
          <ul className={own.troubles} tabIndex={0} aria-label={say('Rows that did not count')}>
            {tally.troubles.map((trouble) => (
              <li key={`${trouble.line} ${trouble.text}`}>
                <span>{say('line {line}: {why}', { line: numberWords(trouble.line), why: trouble.why })}</span>
                <code>{trouble.text}</code>
              </li>
            ))}
          </ul>
        </Opening>
      )}
    </>
  )
}
