/** The invented boards that come with the app, apart from one's own. */
import { say } from '../../base/index.ts'
import { useId } from 'react'
import { boardLikeness } from '../../board/index.ts'
import { fromStart, openShippedBoard } from '../actions/open.ts'
import { useDesk } from '../stores/hooks.ts'
import { BoardChoice } from './BoardChoice.tsx'
import styles from './start.module.css'
import { type Example, useExamples } from './useExamples.ts'

export function Examples() {
  const desk = useDesk()
  const id = useId()
  const examples = useExamples()
  return (
    <section className={styles.section} data-apart="true" aria-labelledby={id}>
      <div className={styles.row}>
        <h2 id={id}>{say('Invented examples')}</h2>
        <p className={styles.small}>
          {say('No real card is like these: to try things out, not for a card on your bench.')}
        </p>
      </div>
      <ul className={styles.choices}>
        {examples.map((example) => (
          <BoardChoice
            key={example.file}
            {...toldOf(example)}
            onChoose={() => fromStart(desk, (at) => openShippedBoard(desk, example.file, at))}
          />
        ))}
      </ul>
    </section>
  )
}

function toldOf({ name, read }: Example) {
  if (read === undefined) return { model: undefined, title: name, about: say('is being read') }
  if ('trouble' in read)
    return {
      model: undefined,
      title: name,
      about: say('could not be read: {trouble}', { trouble: read.trouble }),
      disabled: true,
    }
  return { model: read.model, title: boardLikeness(read.model), about: name }
}
