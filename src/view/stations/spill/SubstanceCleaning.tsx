/** How a substance comes off the board, folded in; of one that nobody described, that its data sheet has to be asked. */
import { asSentence, say } from '../../../base/index.ts'
import { type Cleaning, dryLine, handLines, type Substance, wetLines } from '../../../spill/index.ts'
import { Opening } from '../../controls/pieces.tsx'
import styles from '../../controls/panel.module.css'
import own from './cleaning.module.css'

type Said = Cleaning['driveOut']

export function SubstanceCleaning({ substance }: { readonly substance: Substance }) {
  const { cleaning } = substance
  if (cleaning === undefined)
    return (
      <p className={styles.quiet}>
        {say('How it comes off is not known here: ask for its data sheet before you wash.')}
      </p>
    )
  const { dissolvesIn, notIn, leftByDrying, howKnown, destroys, cooler, joints } = cleaning
  return (
    <Opening summary={say('How it is cleaned off')}>
      <ol className={own.steps}>
        {[...handLines(cleaning), ...wetLines(cleaning), dryLine(cleaning)].map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ol>
      <p className={styles.quiet}>{sourceWords(cleaning)}</p>
      <dl className={own.said}>
        <Row name={say('Clean when')} said={[howKnown]} />
        <Row name={say('Dissolves in')} said={dissolvesIn} />
        <Row name={say('Not in')} said={notIn} />
        <Row name={say('Drying alone leaves')} said={[leftByDrying]} />
        <Row name={say('Not used again')} said={destroys} />
        <Row name={say('Cooler')} said={[cooler]} />
        {joints !== undefined && <Row name={say('Joints')} said={[joints]} />}
      </dl>
    </Opening>
  )
}

function Row({ name, said }: { readonly name: string; readonly said: readonly Said[] }) {
  const sources = [...new Set(said.map(({ source }) => source))].join('; ')
  return (
    <>
      <dt>{name}</dt>
      <dd>
        {said.map(({ words }) => asSentence(words)).join(' ')} <small>({sources})</small>
      </dd>
    </>
  )
}

/** Where the steps are from, each source once. */
function sourceWords({ takeUp, rinses, driveOut, dryC, dryMinutes }: Cleaning): string {
  const steps = [...(takeUp === undefined ? [] : [takeUp]), ...rinses, driveOut, dryC, dryMinutes]
  return say('From: {value}', { value: [...new Set(steps.map(({ source }) => source))].join('; ') })
}
