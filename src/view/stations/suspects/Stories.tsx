/** The stories that explain what was seen, with their probabilities, and how all of it is worked out. */
import { joined, roughMoney } from '../../../base/index.ts'
import { useId } from 'react'
import type { SuspectsResult } from '../../../suspects/index.ts'
import { Opening } from '../../controls/pieces.tsx'
import { useResults, useTally } from '../../stores/hooks.ts'
import { percent } from '../../stores/words.ts'
import styles from '../../controls/panel.module.css'

const MAX_STORIES = 6

export function Stories() {
  const headingId = useId()
  const suspects = useResults((results) => results.assessment?.suspects)
  const tally = useTally()
  if (suspects === undefined || tally === undefined) return undefined
  const shown = suspects.stories.slice(0, MAX_STORIES)
  const rest = suspects.stories.slice(MAX_STORIES).reduce((sum, story) => sum + story.probability, suspects.remainder)
  return (
    <section className={styles.section} aria-labelledby={headingId}>
      <h2 className={styles.sub} id={headingId}>
        Stories that explain it
      </h2>
      <ol className={styles.stories}>
        {shown.map((story) => (
          <li key={story.sentence}>
            <b>{percent(story.probability)}</b> <span>{story.sentence}</span>
          </li>
        ))}
        <li>
          <b>{percent(rest)}</b> <span>everything else together</span>
        </li>
      </ol>
      <Opening summary="How this is worked out">
        <Working suspects={suspects} />
      </Opening>
    </section>
  )
}

function Working({ suspects }: { readonly suspects: SuspectsResult }) {
  const { expectedCost, spill, leftOut, stories } = suspects
  return (
    <div className={styles.working}>
      <p>
        Every lane’s fail or pass is weighed against every cause in one sum: a cause makes a lane fail with the
        reliability that stands in the assumptions, and a story is a set of causes. The probabilities of the stories and
        “everything else” add up to one.
      </p>
      <dl className={styles.facts}>
        <dt>cost of this list</dt>
        <dd>{roughMoney(expectedCost.ofTheList)}</dd>
        <dt>of lifting none</dt>
        <dd>{roughMoney(expectedCost.ofLiftingNone)}</dd>
        <dt>of lifting all suspects</dt>
        <dd>{roughMoney(expectedCost.ofLiftingAllSuspects)}</dd>
        {spill !== undefined && (
          <>
            <dt>the spill, weighed</dt>
            <dd>
              at x {spill.at.x.toFixed(1)}, y {spill.at.y.toFixed(1)} mm, within {spill.sdMm.toFixed(1)} mm; part of the
              explanation with {percent(spill.probability)}
            </dd>
          </>
        )}
      </dl>
      <table className={styles.table}>
        <caption className="visually-hidden">The stories and the causes that each is made of</caption>
        <thead>
          <tr>
            <th scope="col">causes</th>
            <th scope="col" className={styles.number}>
              probability
            </th>
          </tr>
        </thead>
        <tbody>
          {stories.map((story) => (
            <tr key={story.sentence}>
              <td>
                {joined(story.causes.map((cause) => `${cause.kind.replaceAll('-', ' ')}: ${cause.at}`)) || 'no cause'}
              </td>
              <td className={styles.number}>{story.probability.toPrecision(3)}</td>
            </tr>
          ))}
          <tr>
            <td>remainder</td>
            <td className={styles.number}>{suspects.remainder.toPrecision(3)}</td>
          </tr>
        </tbody>
      </table>
      {leftOut.length === 0 ? (
        <p>Nothing was left out of the sum.</p>
      ) : (
        leftOut.map((what) => <p key={what}>Not counted: {what}.</p>)
      )}
    </div>
  )
}
