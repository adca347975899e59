/** The shipped figures beside what they become, with the counts behind each; by board where there is enough of it. */
import { counted } from '../../base/index.ts'
import { useState } from 'react'
import {
  basisFor,
  chanceOfAny,
  type FigureSection,
  type LearntFigure,
  learntFigures,
  pooled,
  type ShopRecord,
  shopWeights,
} from '../../rehearsal/index.ts'
import { SelectField } from '../controls/fields.tsx'
import { Opening } from '../controls/pieces.tsx'
import panel from '../controls/panel.module.css'
import { useBoard } from '../stores/hooks.ts'
import styles from './shopRecord.module.css'
import { chosenWords, figureName, figureTitle, figureValue, sectionWords, seenWords } from './words.ts'

const sections: readonly FigureSection[] = ['prior', 'risk', 'cost', 'evidence', 'check', 'cure']
const ALL = ''

export function Learnt({ record }: { readonly record: ShopRecord }) {
  const onDesk = useBoard()?.model.name
  const { boards } = pooled(record)
  const unnamed = record.pools.some((pool) => pool.all.cards > 0 && Object.keys(pool.boards).length === 0)
  const [board, setBoard] = useState(onDesk !== undefined && Object.hasOwn(boards, onDesk) ? onDesk : ALL)
  const basis = basisFor(record, board === ALL ? undefined : board)
  const figures = learntFigures(basis.counts)
  const options = [
    { value: ALL, words: 'all boards' },
    ...Object.keys(boards)
      .toSorted()
      .map((name) => ({ value: name, words: `${name}: ${counted(boards[name]?.cards ?? 0, 'card')}` })),
  ]
  return (
    <section className={panel.section} aria-label="What was learnt">
      <h2 className={panel.sub}>What closed cards taught</h2>
      {figures.length === 0 ? (
        <p className={panel.quiet}>Nothing yet: every figure is as it ships.</p>
      ) : (
        <>
          <SelectField label="Cards of" value={board} options={options} onChange={setBoard} />
          <p className={panel.quiet}>
            {board !== ALL && basis.board === undefined
              ? `With fewer than ${shopWeights.boardCards.value} cards of ${board}, those of all boards are taken. `
              : ''}
            {basis.board !== undefined &&
              unnamed &&
              'Counts that came in without names of boards are in those of all boards alone. '}
            What ships counts as much as {shopWeights.cards.value} cards, {shopWeights.tries.value} tries or{' '}
            {shopWeights.lifts.value} noted lifts, so that a few cards move a figure a little.
          </p>
          {sections.map((section) => (
            <Section
              key={section}
              section={section}
              figures={figures.filter(({ figure }) => figure.section === section)}
              chance={chanceOfAny(basis.counts)}
            />
          ))}
        </>
      )}
    </section>
  )
}

interface SectionProps {
  readonly section: FigureSection
  readonly figures: readonly LearntFigure[]
  /** That a card has anything wrong with it, by the shipped priors. */
  readonly chance: number
}

function Section({ section, figures, chance }: SectionProps) {
  const { title } = sectionWords[section]
  if (figures.length === 0) return undefined
  const table = <Figures section={section} figures={figures} />
  if (section !== 'prior') return <Opening summary={`${title}: ${counted(figures.length, 'figure')}`}>{table}</Opening>
  return (
    <>
      <h3 className={panel.sub}>{title}</h3>
      {table}
      <p className={panel.quiet}>{chosenWords(chance)}</p>
    </>
  )
}

function Figures({ section, figures }: { readonly section: FigureSection; readonly figures: readonly LearntFigure[] }) {
  const { title, about } = sectionWords[section]
  return (
    <>
      <p className={panel.quiet}>{about}</p>
      <div className={styles.scroller}>
        <table className={panel.table} aria-label={title}>
          <thead>
            <tr>
              <th scope="col">Of what</th>
              <th scope="col" className={panel.number}>
                Ships
              </th>
              <th scope="col" className={panel.number}>
                Now
              </th>
              <th scope="col">Seen</th>
            </tr>
          </thead>
          <tbody>
            {figures.map((learnt) => (
              <tr key={learnt.figure.id}>
                <th scope="row" title={figureTitle(learnt.figure)}>
                  {figureName(learnt.figure)}
                </th>
                <td className={panel.number}>{figureValue(learnt.figure, learnt.figure.shipped)}</td>
                <td className={panel.number}>
                  <b>{figureValue(learnt.figure, learnt.learnt)}</b>
                </td>
                <td>{seenWords(learnt)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  )
}
