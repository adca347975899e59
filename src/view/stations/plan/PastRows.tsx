/** What was done, failed or skipped of the plan: in sight with its number, its time and what was found; folded where it is much. */
import { Check, Minus, SkipForward, Undo2, X } from 'lucide-react'
import { joined, say } from '../../../base/index.ts'
import { foundWords, outcomeWords, type PastRow, type StandingPlan, stepTitle } from '../../../plan/index.ts'
import { momentWords } from '../../actions/clock.ts'
import { Button } from '../../controls/Button.tsx'
import { Opening } from '../../controls/pieces.tsx'
import { useDesk } from '../../stores/hooks.ts'
import { dropLastNoted } from './askPlan.ts'
import styles from './plan.module.css'

/** As many stay unfolded: what Take back would take. */
const IN_SIGHT = 1

type Past = Pick<StandingPlan, 'past' | 'dropped'>

export function PastRows({ past, dropped }: Past) {
  const desk = useDesk()
  if (past.length === 0) return undefined
  const earlier = past.slice(0, -IN_SIGHT)
  return (
    <section aria-label={say('Done so far')}>
      {earlier.length > 0 && (
        <Opening
          summary={say('{count, plural, one {# earlier step} other {# earlier steps}}', { count: earlier.length })}
        >
          <Rows rows={earlier} />
        </Opening>
      )}
      <Rows rows={past.slice(-IN_SIGHT)} />
      {dropped.length > 0 && (
        <ul className={styles.past}>
          {dropped.map(({ n, action, refs }) => (
            <li key={n}>
              <span className={styles.number} aria-hidden="true">
                <Minus size={15} />
              </span>
              <span>
                <s>{numbered(n, stepTitle({ action, refs }))}</s>
                <span className={styles.because}>{say('no longer needed')}</span>
              </span>
            </li>
          ))}
        </ul>
      )}
      <Button tone="quiet" onClick={() => dropLastNoted(desk)} aria-label={say('Take back the last entry')}>
        <Undo2 size={15} aria-hidden="true" /> {say('Take back')}
      </Button>
    </section>
  )
}

const ICONS = { done: Check, failed: X, skipped: SkipForward } as const
const numbered = (n: number, title: string): string => say('{n}. {title}', { n, title })

const Rows = ({ rows }: { readonly rows: readonly PastRow[] }) => (
  <ul className={styles.past}>
    {rows.map((row, i) => {
      const Icon = ICONS[row.outcome]
      const title = numbered(row.n, stepTitle(row))
      return (
        <li key={`${i} ${row.n}`}>
          <span className={styles.number} data-outcome={row.outcome} aria-hidden="true">
            <Icon size={15} />
          </span>
          <span>
            {row.outcome === 'failed' ? title : <s>{title}</s>}
            <span className={styles.because}>{notedWords(row)}</span>
          </span>
        </li>
      )
    })}
  </ul>
)

/** `done 14:32, under U1 wet and corroded, peak 236 °C` */
function notedWords({ outcome, on, pass }: PastRow): string {
  const said = outcomeWords[outcome]
  const seen = (pass?.found ?? []).map(({ ref, what }) =>
    say('under {ref} {what}', { ref, what: joined(what.map((each) => foundWords[each])) }),
  )
  return [
    on === undefined ? said : say('{said} {on}', { said, on: momentWords(on) }),
    ...seen,
    ...(pass?.peakC === undefined ? [] : [say('peak {peakC} °C', { peakC: pass.peakC })]),
    ...(pass?.replaced === true ? [say('new part')] : []),
    ...(pass?.note === undefined ? [] : [pass.note]),
  ].join(', ')
}
