/** What really happened to a practice card, in words and on the map. */
import { joined, say } from '../../base/index.ts'
import { useState } from 'react'
import type { PracticeResult } from '../../rehearsal/index.ts'
import panel from '../controls/panel.module.css'
import type { Selection } from '../sheet/index.ts'
import type { PracticeTable } from '../stores/practiceDesk.ts'
import { BoardPicture } from './PracticeSheet.tsx'
import styles from './practice.module.css'
import ends from './practiceResult.module.css'

interface TruthProps {
  readonly table: PracticeTable
  readonly result: PracticeResult
}

export function PracticeTruth({ table, result }: TruthProps) {
  const { truth, needs, firstStory, alike } = result
  const [selection, setSelection] = useState<Selection | undefined>()
  return (
    <section className={panel.section} aria-label={say('The truth')}>
      <h3 className={panel.sub}>{say('The truth')}</h3>
      <ul className={styles.lines}>
        {truth.happened.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <dl className={panel.facts}>
        <dt>{say('Had to come off')}</dt>
        <dd>
          {truth.bad.length === 0
            ? say('no part')
            : truth.bad.map(({ ref, words }) => (
                <p key={ref}>
                  <b>{ref}</b>: {words}
                </p>
              ))}
        </dd>
        {truth.inPlace.length > 0 && (
          <>
            <dt>{say('To be mended in place')}</dt>
            <dd>{joined(truth.inPlace)}</dd>
          </>
        )}
        {truth.onlyReached.length > 0 && (
          <>
            <dt>{say('Only reached, unharmed')}</dt>
            <dd>{joined(truth.onlyReached)}</dd>
          </>
        )}
        <dt>{say('Liftmap’s first story')}</dt>
        <dd>
          {rightWords[firstStory.right]}: {firstStory.words}
          {alike !== undefined && <p className={panel.quiet}>{alike}</p>}
        </dd>
      </dl>
      <div className={ends.truthSheet}>
        <BoardPicture
          model={table.model}
          tallyParts={table.view.tallyParts}
          proofLanes={undefined}
          marks={[...table.view.marks, ...truth.places]}
          numbered={needs}
          selection={selection}
          onSelect={setSelection}
        />
      </div>
      <p className={panel.quiet}>
        {say('Hatched: lanes that failed when it came. Numbered: parts that had to come off.')}
        {truth.places.length > 0 && say(' Notes say where it really was; the other marks are what was told and seen.')}
      </p>
    </section>
  )
}

const rightWords: Readonly<Record<PracticeResult['firstStory']['right'], string>> = {
  cause: say('Right'),
  parts: say('Right about the parts, not about the cause'),
  no: say('Wrong'),
}
