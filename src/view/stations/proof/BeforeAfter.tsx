/** Before beside after: what is gone, new, still there and untested, part by part and lane by lane. */
import { numberWords, say, someOf } from '../../../base/index.ts'
import type { LaneProof, LaneVerdict, PartProof, Proof } from '../../../case/index.ts'
import { showOnSheet } from '../../actions/show.ts'
import { LinkButton } from '../../controls/Button.tsx'
import { Opening } from '../../controls/pieces.tsx'
import { ProofSymbol } from './ProofSymbol.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk } from '../../stores/hooks.ts'
import { verdictWords } from './proofWords.ts'
import { LaneTable } from './LaneTable.tsx'
import own from './proof.module.css'

const MOST_NAMED = 8

export function BeforeAfter({ proof }: { readonly proof: Proof }) {
  const changed = proof.parts.filter(({ verdict }) => verdict !== 'clean')
  const clean = proof.parts.length - changed.length
  const lanes = proof.lanes.filter(({ verdict }) => verdict !== 'clean')
  return (
    <section className={styles.section} aria-label={say('Before and after')}>
      <h3 className={styles.sub}>{say('Before and after')}</h3>
      <ul className={own.sums} aria-live="polite">
        <Sum verdict="fresh" ids={proof.fresh} words={say('new')} />
        <Sum verdict="still" ids={proof.still} words={say('still failing')} />
        <Sum verdict="not-told" ids={proof.notTold} words={say('with errors beside, not told in which')} />
        <Sum verdict="untested" ids={proof.untested} words={say('not tested again')} />
        <Sum verdict="gone" ids={proof.gone} words={say('failed before and pass now')} />
      </ul>
      {changed.length > 0 && <Parts parts={changed} />}
      {clean > 0 && (
        <p className={styles.quiet}>
          {say(
            '{clean, plural, one {# memory part passes} other {# memory parts pass}}{value}, and did not fail before.',
            { clean, value: changed.length > 0 ? say(' besides') : '' },
          )}
        </p>
      )}
      {lanes.length > 0 && (
        <Opening
          summary={say('Lane by lane: {length, plural, one {# lane} other {# lanes}}', { length: lanes.length })}
        >
          <LaneTable lanes={lanes} />
        </Opening>
      )}
    </section>
  )
}

interface SumProps {
  readonly verdict: LaneVerdict
  readonly ids: readonly string[]
  readonly words: string
}

/** Says none too for what should be none. */
function Sum({ verdict, ids, words }: SumProps) {
  if (ids.length === 0 && verdict === 'not-told') return undefined
  return (
    <li>
      <ProofSymbol kind={verdict} />
      <span>
        <b>
          {ids.length === 0
            ? say('No lane')
            : say('{length, plural, one {# lane} other {# lanes}}', { length: ids.length })}{' '}
          {words}
        </b>
        {ids.length > 0 && `: ${someOf(ids, MOST_NAMED)}`}
      </span>
    </li>
  )
}

function Parts({ parts }: { readonly parts: readonly PartProof[] }) {
  const desk = useDesk()
  return (
    <table className={styles.table}>
      <caption className="visually-hidden">{say('Errors of each part before and after')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('part')}</th>
          <th scope="col" className={styles.number}>
            {say('before')}
          </th>
          <th scope="col" className={styles.number}>
            {say('after')}
          </th>
          <th scope="col">{say('lanes')}</th>
        </tr>
      </thead>
      <tbody>
        {parts.map((part) => (
          <tr key={part.ref}>
            <th scope="row">
              <LinkButton onClick={() => showOnSheet(desk, { kind: 'part', id: part.ref })}>{part.ref}</LinkButton>
            </th>
            <td className={styles.number}>{sumWords(part, 'before')}</td>
            <td className={styles.number}>{sumWords(part, 'after')}</td>
            <td>
              <LaneStrip lanes={part.lanes} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function sumWords({ lanes, errorsBefore, errorsAfter }: PartProof, run: 'before' | 'after'): string {
  const tested = lanes.filter((lane) => lane[run] !== 'untested').length
  if (tested === 0) return say('untested')
  const errors = run === 'before' ? errorsBefore : errorsAfter
  return numberWords(errors)
}

/** A picture a lane; in words for those who do not see it. */
function LaneStrip({ lanes }: { readonly lanes: readonly LaneProof[] }) {
  const kinds = [...new Set(lanes.map(({ verdict }) => verdict))]
  const words = kinds.map((kind) => `${lanes.filter(({ verdict }) => verdict === kind).length} ${verdictWords[kind]}`)
  return (
    <span className={own.strip}>
      <span
        className={own.pictures}
        title={lanes.map(({ id, verdict }) => `${id} ${verdictWords[verdict]}`).join(', ')}
      >
        {lanes.map(({ id, verdict }) => (
          <ProofSymbol key={id} kind={verdict} />
        ))}
      </span>
      <span>{words.join(', ')}</span>
    </span>
  )
}
