/** What the plan of the card on the desk needs, line by line: there, taken, on order or short. */
import { CircleCheck, Clock, PackageCheck, TriangleAlert } from 'lucide-react'
import { numberWords, say } from '../../base/index.ts'
import { needOf, type Standing, standingOf, type StockItem } from '../../case/index.ts'
import { forCase, putBack, takePieces, spendPieces } from '../actions/stock.ts'
import { Button } from '../controls/Button.tsx'
import panel from '../controls/panel.module.css'
import { useBoard, useDesk, usePlan, usePresent } from '../stores/hooks.ts'
import type { Draft, Tell } from './StockPage.tsx'
import styles from './stock.module.css'

interface NeedProps {
  readonly items: readonly StockItem[]
  readonly tell: Tell
  readonly onOrder: (draft: Draft) => void
}

export function Need({ items, tell, onOrder }: NeedProps) {
  const desk = useDesk()
  const plan = usePlan((state) => state.answer?.best)
  const model = useBoard()?.model
  const present = usePresent()
  const who = forCase(desk)
  if (present === undefined || model === undefined || who === undefined) return undefined
  const standings = plan === undefined ? [] : standingOf(needOf(plan, model), items, who.caseId)
  return (
    <section className={panel.section} aria-label={say('This card needs')}>
      <h2 className={panel.sub}>{say('Card {card} needs', { card: who.card })}</h2>
      {plan === undefined ? (
        <p className={panel.quiet}>{say('No plan yet: open the plan’s station once, and its parts stand here.')}</p>
      ) : (
        <table className={panel.table}>
          <thead>
            <tr>
              <th scope="col">{say('what')}</th>
              <th scope="col" className={panel.number}>
                {say('need')}
              </th>
              <th scope="col" className={panel.number}>
                {say('have')}
              </th>
              <th scope="col">{say('so it is')}</th>
              <th scope="col">
                <span className="visually-hidden">{say('Do')}</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {standings.map((standing) => (
              <NeedRow key={standing.line.key} standing={standing} tell={tell} onOrder={onOrder} />
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}

const signs = { taken: PackageCheck, have: CircleCheck, 'on order': Clock, short: TriangleAlert } as const

function NeedRow({ standing, tell, onOrder }: { readonly standing: Standing } & Omit<NeedProps, 'items'>) {
  const desk = useDesk()
  const { line, state, have, taken, missing, items } = standing
  const Sign = signs[state]
  const isPart = line.kind !== 'material'
  const name = [[isPart ? line.kind : '', line.what].filter(Boolean).join(' '), line.package].filter(Boolean).join(', ')
  const wanted = line.count
  const places = [...new Set(items.flatMap(({ place, count }) => (count > 0 && place !== '' ? [place] : [])))]
  return (
    <tr>
      <th scope="row">
        {isPart ? say('new {name}', { name }) : name}
        {line.refs.length > 0 && (
          <small className={styles.small}>{say('for {refs}', { refs: line.refs.join(', ') })}</small>
        )}
      </th>
      <td className={panel.number}>{wanted === undefined ? line.amount : numberWords(wanted)}</td>
      <td className={panel.number}>{numberWords(have)}</td>
      <td>
        <span className={styles.state} data-state={state}>
          <Sign size={15} aria-hidden="true" /> {stateWords(standing)}
        </span>
        {isPart && line.what === '' && items.length > 0 && (
          <small className={styles.small}>{say('The board tells no type: compare the marking first.')}</small>
        )}
        {places.length > 0 && <small className={styles.small}>{places.join(', ')}</small>}
      </td>
      <td className={styles.do}>
        {state === 'have' && wanted !== undefined && (
          <Button
            aria-label={say('Take {wanted} of {name}', { wanted: wanted - taken, name })}
            onClick={() => tell(takePieces(desk, items, wanted - taken))}
          >
            {say('Take {numberWords}', { numberWords: numberWords(wanted - taken) })}
          </Button>
        )}
        {taken > 0 && (
          <>
            <Button
              tone="strong"
              aria-label={say('Used: {taken} of {name}', { taken, name })}
              onClick={() => tell(spendPieces(desk, items))}
            >
              {say('Used')}
            </Button>
            <Button
              tone="quiet"
              aria-label={say('Put back {name}', { name })}
              onClick={() => tell(putBack(desk, items))}
            >
              {say('Put back')}
            </Button>
          </>
        )}
        {state === 'short' && (
          <Button
            aria-label={say('Order {name}', { name })}
            onClick={() =>
              onOrder({
                fresh: {
                  kind: line.kind,
                  what: line.what === '' ? line.package : line.what,
                  package: line.package,
                  count: 0,
                  ordered: missing,
                },
              })
            }
          >
            {say('Order…')}
          </Button>
        )}
      </td>
    </tr>
  )
}

function stateWords({ line, state, taken, missing, ordered, expectedOn }: Standing): string {
  if (line.count === undefined && state === 'short') return say('none')
  if (state === 'taken') return say('{taken} taken', { taken: numberWords(taken) })
  if (state === 'have') return say('have')
  const short = say('short {missing}', { missing: numberWords(missing) })
  if (state === 'short')
    return ordered > 0 ? say('{short}, {ordered} on order', { short, ordered: numberWords(ordered) }) : short
  return expectedOn === undefined
    ? say('{ordered} on order, no day', { ordered })
    : say('{ordered} on order, {expectedOn}', { ordered, expectedOn })
}
