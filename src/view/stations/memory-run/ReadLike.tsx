/** A report that looks like one that was put right before: it can be read in the same way, by one click. */
import { say } from '../../../base/index.ts'
import { History } from 'lucide-react'
import { readAgain } from '../../actions/reports.ts'
import { Button } from '../../controls/Button.tsx'
import styles from '../../controls/panel.module.css'
import { sameWords, wordsOf } from '../../stores/boardWords.ts'
import { useBoard, useDesk, usePresent } from '../../stores/hooks.ts'
import type { ShownReport } from './ReportCard.tsx'

export function ReadLike({ id, reading }: Omit<ShownReport, 'name'>) {
  const desk = useDesk()
  const present = usePresent()
  const model = useBoard()?.model
  if (present === undefined || model === undefined || reading.state === 'reading') return undefined
  const words = wordsOf(present, model)
  const { names: _, ...now } = reading.readWith ?? {}
  const like = reading.guess?.kept.find(({ recipe }, i, kept) => {
    const isKept = words.some((one) => sameWords(one, kept[i]))
    return recipe !== undefined && isKept && !sameWords({ ...recipe, name: '' }, { ...now, name: '' })
  })
  const recipe = like?.recipe
  if (like === undefined || recipe === undefined) return undefined
  const names = reading.guess?.names ?? {}
  return (
    <div className={styles.row}>
      <p>{say('It looks like a report that was put right before.')}</p>
      <Button
        tone="strong"
        onClick={() => void readAgain(desk, id, Object.keys(names).length > 0 ? { ...recipe, names } : recipe)}
      >
        <History size={15} aria-hidden="true" /> {say('Read it like')} {like.title}
      </Button>
    </div>
  )
}
