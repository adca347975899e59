/** The rails in the order in which they come up, how each was read, and the first that did not. */
import { Check, ChevronDown, ChevronUp, Circle, Hourglass, type LucideIcon, SquareX } from 'lucide-react'
import { say } from '../../../base/index.ts'
import { bringUpOf, type Phase, type RailInOrder, type RailUp } from '../../../measure/index.ts'
import styles from '../../controls/panel.module.css'
import { useBoard, usePresent } from '../../stores/hooks.ts'
import { verdictsOf } from '../../stores/measuring.ts'
import own from './measuring.module.css'
import { SelfOpening } from './SelfOpening.tsx'

const shapes: Readonly<Record<RailUp, readonly [LucideIcon, string]>> = {
  up: [Check, say('up')],
  low: [ChevronDown, say('too low')],
  above: [ChevronUp, say('too high')],
  missing: [SquareX, say('not there')],
  waits: [Hourglass, say('may wait')],
  'not-read': [Circle, say('not read')],
}

const tones: Readonly<Record<RailUp, string>> = {
  up: 'good',
  low: 'bad',
  above: 'doubt',
  missing: 'bad',
  waits: 'plain',
  'not-read': 'plain',
}

export function RailOrder({ phase }: { readonly phase: Phase }) {
  const board = useBoard()
  const present = usePresent()
  if (board === undefined || present === undefined) return undefined
  const found = bringUpOf(board.model, verdictsOf(board.model, present, 'volts', phase))
  if (found === undefined) return undefined
  const states = new Set(found.order.map(({ state }) => state))
  const asks = (['low', 'above', 'missing'] as const).some((state) => states.has(state))
  return (
    <SelfOpening summary={say('Order of coming up: {order}', { order: summaryOf(found.order) })} asks={asks}>
      <section className={styles.section} aria-label={say('In the order they come up')}>
        <ol className={own.order}>
          {found.order.map(({ rail, state }) => {
            const [Shape, words] = shapes[state]
            return (
              <li key={rail}>
                <b>{rail}</b>
                <span className={own.verdict} data-tone={tones[state]}>
                  <Shape size={15} aria-hidden="true" />
                  {words}
                </span>
              </li>
            )
          })}
        </ol>
        <p aria-live="polite">{found.sentence}</p>
        <p className={styles.quiet}>
          {say('What feeds another comes before it; the rest by common practice, no source.')}
        </p>
      </section>
    </SelfOpening>
  )
}

function summaryOf(order: readonly RailInOrder[]): string {
  const up = order.filter(({ state }) => state === 'up').length
  return up === order.length
    ? say('every rail up')
    : say('{up} of {length, plural, one {# rail} other {# rails}} up', { up, length: order.length })
}
