/** How much the runs show: the bound in words and as a bar, what more runs would bring, and what none of them shows. */
import { useId } from 'react'
import { numberWords, percentAtMost, say } from '../../../base/index.ts'
import { boundSentence, notProven, passesWanted, type Proof } from '../../../case/index.ts'
import { Bar, Opening } from '../../controls/pieces.tsx'
import styles from '../../controls/panel.module.css'
import { Figured, FiguredText } from '../../figures/index.ts'
import { paragraph } from '../../stores/words.ts'
import own from './proof.module.css'

export function Bound({ proof }: { readonly proof: Proof }) {
  const open = notProven(proof)
  return (
    <>
      <section className={styles.section} aria-label={say('What the runs show')}>
        <h3 className={styles.sub}>{say('What the runs show')}</h3>
        <p aria-live="polite">
          <FiguredText words={paragraph([boundSentence(proof)])} of={{ kind: 'bound', runs: undefined }} />
        </p>
        <Bars proof={proof} />
      </section>
      {proof.tested && (
        <section aria-label={say('What it does not prove')}>
          <Opening
            summary={say('What it does not prove: {length, plural, one {# thing} other {# things}}', {
              length: open.length,
            })}
            open={proof.untested.length > 0}
          >
            <ul className={own.open}>
              {open.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </Opening>
        </section>
      )}
    </>
  )
}

/** The bound now, and those that more passes without an error would reach. */
function Bars({ proof: { passes, boundPerPass95: now, ruleOfThree95 } }: { readonly proof: Proof }) {
  const captionId = useId()
  const further = passesWanted.filter((wanted) => passes.failing === 0 && wanted.passes > passes.clean)
  if (now === undefined && further.length === 0) return undefined
  return (
    <>
      <p className={styles.quiet} id={captionId}>
        {say('Chance that one more run fails, at most')}
      </p>
      <ul className={own.bars} aria-labelledby={captionId}>
        {now !== undefined && (
          <BarRow
            words={
              passes.failing === 0
                ? say('{clean} clean, now', { clean: numberWords(passes.clean) })
                : say('as it stands')
            }
            chance={now}
            runs={undefined}
            more={
              ruleOfThree95 === undefined
                ? undefined
                : say('3/n gives {ruleOfThree95}', { ruleOfThree95: percentAtMost(ruleOfThree95) })
            }
          />
        )}
        {further.map((wanted) => (
          <BarRow
            key={wanted.chance}
            words={say('with {passes} clean', { passes: wanted.passes })}
            chance={wanted.chance}
            runs={wanted.passes}
            more={undefined}
          />
        ))}
      </ul>
    </>
  )
}

interface BarRowProps {
  readonly words: string
  readonly chance: number
  readonly runs: number | undefined
  readonly more: string | undefined
}

function BarRow({ words, chance, runs, more }: BarRowProps) {
  return (
    <li>
      <span>{words}</span>
      <Bar share={chance} />
      <b title={more}>
        <Figured of={{ kind: 'bound', runs }}>{paragraph([percentAtMost(chance)])}</Figured>
      </b>
    </li>
  )
}
