/** The shipped figures beside what they become, with the counts behind each; by board where there is enough of it. */
import { say } from '../../base/index.ts'
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
import { type Figure, Figured } from '../figures/index.ts'
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
    { value: ALL, words: say('all boards') },
    ...Object.keys(boards)
      .toSorted()
      .map((name) => ({
        value: name,
        words: say('{name}: {cards, plural, one {# card} other {# cards}}', { name, cards: boards[name]?.cards ?? 0 }),
      })),
  ]
  return (
    <section className={panel.section} aria-label={say('What was learnt')}>
      <h2 className={panel.sub}>{say('What closed cards taught')}</h2>
      {figures.length === 0 ? (
        <p className={panel.quiet}>{say('Nothing yet: every figure is as it ships.')}</p>
      ) : (
        <>
          <SelectField label={say('Cards of')} value={board} options={options} onChange={setBoard} />
          <p className={panel.quiet}>
            {board !== ALL && basis.board === undefined
              ? say('With fewer than {value} cards of {board}, those of all boards are taken. ', {
                  value: shopWeights.boardCards.value,
                  board,
                })
              : ''}
            {basis.board !== undefined &&
              unnamed &&
              say('Counts that came in without names of boards are in those of all boards alone. ')}
            {say(
              'What ships counts as much as {cards} cards, {tries} tries or {lifts} noted lifts, so that a few cards move a figure a little.',
              {
                cards: shopWeights.cards.value,
                tries: shopWeights.tries.value,
                lifts: shopWeights.lifts.value,
              },
            )}
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
  if (section !== 'prior')
    return (
      <Opening
        summary={say('{title}: {length, plural, one {# figure} other {# figures}}', { title, length: figures.length })}
      >
        {table}
      </Opening>
    )
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
              <th scope="col">{say('Of what')}</th>
              <th scope="col" className={panel.number}>
                {say('Ships')}
              </th>
              <th scope="col" className={panel.number}>
                {say('Now')}
              </th>
              <th scope="col">{say('Seen')}</th>
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
                  <Figured of={figureOf(learnt)}>{figureValue(learnt.figure, learnt.learnt)}</Figured>
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

const figureOf = (learnt: LearntFigure): Figure => ({
  kind: 'shop-figure',
  name: figureName(learnt.figure),
  shipped: figureValue(learnt.figure, learnt.figure.shipped),
  seen: seenWords(learnt),
  weight: weightWords(learnt.figure.section),
})

function weightWords(section: FigureSection): string {
  const { cards, lifts, tries } = shopWeights
  if (section === 'prior') return say('{value, plural, one {# card} other {# cards}}', { value: cards.value })
  return section === 'cost'
    ? say('{value, plural, one {# lift} other {# lifts}}', { value: lifts.value })
    : say('{value, plural, one {# try} other {# tries}}', { value: tries.value })
}
