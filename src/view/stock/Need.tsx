/** What the plan of the card on the desk needs, line by line: there, taken, on order or short. */
import { CircleCheck, Clock, PackageCheck, TriangleAlert } from 'lucide-react'
import { numberWords } from '../../base/index.ts'
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
    <section className={panel.section} aria-label="This card needs">
      <h2 className={panel.sub}>Card {who.card} needs</h2>
      {plan === undefined ? (
        <p className={panel.quiet}>No plan yet: open the plan’s station once, and its parts stand here.</p>
      ) : (
        <table className={panel.table}>
          <thead>
            <tr>
              <th scope="col">what</th>
              <th scope="col" className={panel.number}>
                need
              </th>
              <th scope="col" className={panel.number}>
                have
              </th>
              <th scope="col">so it is</th>
              <th scope="col">
                <span className="visually-hidden">Do</span>
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
        {isPart ? `new ${name}` : name}
        {line.refs.length > 0 && <small className={styles.small}>for {line.refs.join(', ')}</small>}
      </th>
      <td className={panel.number}>{wanted === undefined ? line.amount : numberWords(wanted)}</td>
      <td className={panel.number}>{numberWords(have)}</td>
      <td>
        <span className={styles.state} data-state={state}>
          <Sign size={15} aria-hidden="true" /> {stateWords(standing)}
        </span>
        {isPart && line.what === '' && items.length > 0 && (
          <small className={styles.small}>The board tells no type: compare the marking first.</small>
        )}
        {places.length > 0 && <small className={styles.small}>{places.join(', ')}</small>}
      </td>
      <td className={styles.do}>
        {state === 'have' && wanted !== undefined && (
          <Button
            aria-label={`Take ${wanted - taken} of ${name}`}
            onClick={() => tell(takePieces(desk, items, wanted - taken))}
          >
            Take {numberWords(wanted - taken)}
          </Button>
        )}
        {taken > 0 && (
          <>
            <Button
              tone="strong"
              aria-label={`Used: ${taken} of ${name}`}
              onClick={() => tell(spendPieces(desk, items))}
            >
              Used
            </Button>
            <Button tone="quiet" aria-label={`Put back ${name}`} onClick={() => tell(putBack(desk, items))}>
              Put back
            </Button>
          </>
        )}
        {state === 'short' && (
          <Button
            aria-label={`Order ${name}`}
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
            Order…
          </Button>
        )}
      </td>
    </tr>
  )
}

function stateWords({ line, state, taken, missing, ordered, expectedOn }: Standing): string {
  if (line.count === undefined && state === 'short') return 'none'
  if (state === 'taken') return `${numberWords(taken)} taken`
  if (state === 'have') return 'have'
  const short = `short ${numberWords(missing)}`
  if (state === 'short') return ordered > 0 ? `${short}, ${numberWords(ordered)} on order` : short
  return expectedOn === undefined ? `${ordered} on order, no day` : `${ordered} on order, ${expectedOn}`
}
