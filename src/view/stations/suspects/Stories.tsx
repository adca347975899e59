/** The stories that explain what was seen, with their probabilities, and how all of it is worked out. */
import { decimals, joined, say, sayName } from '../../../base/index.ts'
import { useId } from 'react'
import { placeSaid, type SuspectsResult, toldStories } from '../../../suspects/index.ts'
import { Opening } from '../../controls/pieces.tsx'
import { Figured, FiguredText } from '../../figures/index.ts'
import { useResults, useTally } from '../../stores/hooks.ts'
import { useRoughMoney } from '../../stores/money.ts'
import { percent } from '../../stores/words.ts'
import styles from '../../controls/panel.module.css'

const MAX_STORIES = 3
/** Less likely ones stand behind the others, except the first. */
const WORTH_A_LINE = 0.06

export function Stories() {
  const headingId = useId()
  const suspects = useResults((results) => results.assessment?.suspects)
  const tally = useTally()
  if (suspects === undefined || tally === undefined) return undefined
  const told = toldStories(suspects.stories)
  const shown = told.slice(0, MAX_STORIES).filter(({ probability }, at) => at === 0 || probability >= WORTH_A_LINE)
  const rest = told.slice(shown.length).reduce((sum, story) => sum + story.probability, suspects.remainder)
  return (
    <section className={styles.section} aria-labelledby={headingId}>
      <h2 className={styles.sub} id={headingId}>
        {say('Stories that explain it')}
      </h2>
      <ol className={styles.stories}>
        {shown.map((story) => (
          <li key={story.sentence}>
            <b>
              <Figured of={{ kind: 'story', sentence: story.sentence }}>{percent(story.probability)}</Figured>
            </b>{' '}
            <span>{story.sentence}</span>
          </li>
        ))}
        <li>
          <b>
            <Figured of={{ kind: 'remainder' }}>{percent(rest)}</Figured>
          </b>{' '}
          <span>{say('anything else')}</span>
        </li>
      </ol>
      <Opening summary={say('Stories in full')}>
        <Working suspects={suspects} />
      </Opening>
    </section>
  )
}

function Working({ suspects }: { readonly suspects: SuspectsResult }) {
  const { expectedCost, spill, leftOut, stories } = suspects
  const money = useRoughMoney()
  return (
    <div className={styles.working}>
      <p>
        {say(
          'Every lane’s fail or pass is weighed against every cause in one sum. How surely a cause makes a lane fail stands in the assumptions.',
        )}
      </p>
      <dl className={styles.facts}>
        <dt>{say('lifting this list costs')}</dt>
        <dd>
          <Figured of={{ kind: 'list-cost' }}>{money(expectedCost.ofTheList)}</Figured>
        </dd>
        <dt>{say('lifting nothing')}</dt>
        <dd>
          <Figured of={{ kind: 'list-cost' }}>{money(expectedCost.ofLiftingNone)}</Figured>
        </dd>
        <dt>{say('lifting all suspects')}</dt>
        <dd>
          <Figured of={{ kind: 'list-cost' }}>{money(expectedCost.ofLiftingAllSuspects)}</Figured>
        </dd>
        {spill !== undefined && (
          <>
            <dt>{say('the spill')}</dt>
            <dd>
              <FiguredText
                words={say('at x {x}, y {y} mm, within {within} mm; part of the explanation with {chance}', {
                  x: decimals(spill.at.x, 1),
                  y: decimals(spill.at.y, 1),
                  within: decimals(spill.sdMm, 1),
                  chance: percent(spill.probability),
                })}
                of={{ kind: 'spill-place' }}
              />
            </dd>
          </>
        )}
      </dl>
      <table className={styles.table}>
        <caption className="visually-hidden">{say('The stories and the causes that each is made of')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('causes')}</th>
            <th scope="col" className={styles.number}>
              {say('probability')}
            </th>
          </tr>
        </thead>
        <tbody>
          {stories.map((story) => (
            <tr key={story.sentence}>
              <td>
                {joined(story.causes.map((cause) => `${sayName(cause.kind)}: ${placeSaid(cause.at)}`)) ||
                  say('no cause')}
              </td>
              <td className={styles.number}>
                <Figured of={{ kind: 'story', sentence: story.sentence }}>{story.probability.toPrecision(3)}</Figured>
              </td>
            </tr>
          ))}
          <tr>
            <td>{say('remainder')}</td>
            <td className={styles.number}>
              <Figured of={{ kind: 'remainder' }}>{suspects.remainder.toPrecision(3)}</Figured>
            </td>
          </tr>
        </tbody>
      </table>
      {leftOut.length === 0 ? (
        <p>{say('Nothing was left out of the sum.')}</p>
      ) : (
        leftOut.map((what) => (
          <p key={what}>
            <FiguredText words={say('Not counted: {what}.', { what })} of={{ kind: 'remainder' }} />
          </p>
        ))
      )}
    </div>
  )
}
